"""Settled states of one build, shared by its processes through a folder of temporary files, so each is settled once."""

from __future__ import annotations

import os
import pickle
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache
from pathlib import Path

from fidpath.loading import state_in_hand
from fidpath.machine import locked
from fidpath.planning import Plan
from fidpath.settling import SettledState

IN_MEMORY = 6
"""States a process has at hand: mistakes stand beside right ones, ghosts before what follows."""


class StateCache:
    """The states of one plan by their kind. Without a folder each process settles its own."""

    def __init__(self, plan: Plan, folder: Path | None = None) -> None:
        self._plan, self._folder = plan, folder
        self.settled = lru_cache(maxsize=IN_MEMORY)(self._settled)

    def _settled(self, kind: str) -> SettledState:
        """A state, from the folder where another process has settled it, or is about to. Raises CannotBeMade."""
        if self._folder is None:
            return state_in_hand(self._plan, kind)
        path = self._folder / kind
        with locked(path.with_suffix(".lock")):
            if path.exists():
                found: SettledState = pickle.loads(path.read_bytes())
                return found
            state = state_in_hand(self._plan, kind)
            _share(state, path)
            return state


def _share(state: SettledState, path: Path) -> None:
    """Puts a state where the other processes find it; where there is no room for it they settle their own."""
    part = path.with_name(f"{path.name}.{os.getpid()}")
    try:
        part.write_bytes(pickle.dumps(state, pickle.HIGHEST_PROTOCOL))
        part.replace(path)
    except OSError:
        part.unlink(missing_ok=True)


@contextmanager
def shared_folder() -> Iterator[Path | None]:
    """A folder for one build's settled states, removed at the end; None where there can be none."""
    try:
        folder = Path(tempfile.mkdtemp(prefix="fidpath-"))
    except OSError:
        yield None
        return
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)
