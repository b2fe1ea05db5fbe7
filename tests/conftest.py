"""Settings shared by all tests: hypothesis tries the same examples in every run."""

from __future__ import annotations

import os

from hypothesis import settings

settings.register_profile("steady", derandomize=True, deadline=None)
settings.load_profile("steady")

collect_ignore = [] if os.environ.get("FIDPATH_LOOKING") else ["test_61_browser.py", "test_65_window.py"]
"""The page and the window driven as by hand: minutes long, run when asked for until looking is finished."""
