"""Settings shared by all tests: hypothesis tries the same examples in every run; the longest files start first.

Processes of one run share a folder, where what takes long to make is made once (tests/support/once.py).
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile

import pytest
from hypothesis import settings

from once import FOLDER

settings.register_profile("steady", derandomize=True, deadline=None)
settings.load_profile("steady")

LONGEST = (
    "building/test_method_build",
    "page/test_drawing",
    "building/test_build",
    "motion/test_settled_motion",
    "live_page/test_server",
    "window/test_window",
    "page/test_controls",
    "live_page/test_page",
    "checking/test_scenes",
    "states/test_states",
    "pictures/test_pictures",
)
"""Files that take long: begun last, one of them would keep a single process busy at the end."""


def pytest_configure(config: pytest.Config) -> None:
    """The first process of a run makes the folder that all its processes share."""
    if not hasattr(config, "workerinput"):
        os.environ[FOLDER] = tempfile.mkdtemp(prefix="fidpath-tests-")


def pytest_unconfigure(config: pytest.Config) -> None:
    if not hasattr(config, "workerinput"):
        shutil.rmtree(os.environ[FOLDER], ignore_errors=True)


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
