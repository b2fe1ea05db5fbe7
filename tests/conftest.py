"""Settings shared by all tests: hypothesis tries the same examples in every run; the longest files start first."""

from __future__ import annotations

import sys

import pytest
from hypothesis import settings

settings.register_profile("steady", derandomize=True, deadline=None)
settings.load_profile("steady")

LONGEST = (
    "building/test_method_build",
    "page/test_browser",
    "building/test_build",
    "motion/test_settled_motion",
    "viewing/test_live_page",
    "viewing/test_window",
    "checking/test_scenes",
    "states/test_states",
    "pictures/test_pictures",
)
"""Files that take long: begun last, one of them would keep a single process busy at the end."""


def pytest_sessionstart() -> None:
    """Forgets what functions have kept: a run forked from another, for mutants, would see values of unbroken code."""
    for name, module in list(sys.modules.items()):
        if name.startswith("fidpath"):
            for thing in list(vars(module).values()):
                if hasattr(thing, "cache_clear"):
                    thing.cache_clear()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    def turn(item: pytest.Item) -> int:
        return next((k for k, name in enumerate(LONGEST) if name in item.path.as_posix()), len(LONGEST))

    items.sort(key=turn)
