"""Settings shared by all tests: hypothesis tries the same examples in every run."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("steady", derandomize=True, deadline=None)
settings.load_profile("steady")
