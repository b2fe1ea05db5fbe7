"""Settled states and the like, made once in a run of the tests, however many processes share it."""

from __future__ import annotations

import fcntl
import os
import pickle
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

FOLDER = "FIDPATH_TESTS_SHARED"
"""The variable that names the run's own folder; tests/conftest.py makes it and takes it away."""

T = TypeVar("T")


def once(name: str, make: Callable[[], T]) -> T:
    """What `make` gives, made by whichever process asks for `name` first; the others wait and read it."""
    place = Path(os.environ[FOLDER]) / f"{name}.pickle"
    with place.with_suffix(".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not place.exists():
            content = make()
            place.write_bytes(pickle.dumps(content))
            return content
    found: T = pickle.loads(place.read_bytes())
    return found
