"""States settled behind the window, the wanted one first; what has settled is kept."""

from __future__ import annotations

import queue
import threading
import traceback
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from fidpath.errors import FidpathError
from fidpath.loading import state_in_hand
from fidpath.planning import Plan
from fidpath.scene import Solid
from fidpath.settling import SettledState, laid_state
from fidpath.viewing.interruptible_settling import Overtaken, stand_back
from fidpath.viewing.window.step_scene import (
    LAYERS,
    RAYS,
    REFINE,
    Layer,
    WindowEntry,
    WindowView,
    drawn,
    props,
    view_of,
)

WORKERS = 2
"""Settling lets go of the interpreter: two states at a time."""


Prepare = Callable[[Solid], Any]


@dataclass(frozen=True)
class Ready:
    """A view with its bodies as the canvas wants them, each with the layer it belongs to."""

    view: WindowView
    bodies: tuple[tuple[Layer, Any], ...]


class Settler:
    """Settles entries in order until all are there or the window closes; a wanted one goes before all others."""

    def __init__(self, plan: Plan, entries: Sequence[WindowEntry], prepare: Prepare) -> None:
        self._plan = plan
        self._prepare = prepare
        self._entries = list(entries)
        self._waiting = list(range(len(entries)))
        self._made: dict[str, SettledState] = {}
        self._done: queue.SimpleQueue[tuple[int, Ready | str]] = queue.SimpleQueue()
        self._lock = threading.Lock()
        self._closing = False
        self._threads = [threading.Thread(target=self._work, name="fidpath settling") for _ in range(WORKERS)]

    def start(self) -> None:
        """Begins to settle."""
        for thread in self._threads:
            thread.start()

    def close(self) -> None:
        """Stops settling and waits until it has stopped."""
        self._closing = True
        for thread in self._threads:
            thread.join()

    def want(self, number: int) -> None:
        """An entry somebody waits for goes before the others."""
        with self._lock:
            if number in self._waiting:
                self._waiting.remove(number)
                self._waiting.insert(0, number)

    def taken(self) -> list[tuple[int, Ready | str]]:
        """Entries that have come since the last call: what to draw, or in words why there is nothing to draw."""
        found = []
        while not self._done.empty():
            found.append(self._done.get())
        return found

    def _work(self) -> None:
        stand_back()
        while (number := self._next()) is not None:
            try:
                self._done.put((number, self._settled(self._entries[number])))
            except Overtaken:
                return
            except FidpathError as problem:
                self._done.put((number, f"{problem.what}. {problem.remedy}".rstrip(". ")))
            except Exception:
                traceback.print_exc()
                self._done.put((number, "a fault in fidpath: the terminal has the details"))

    def _next(self) -> int | None:
        with self._lock:
            return self._waiting.pop(0) if self._waiting and not self._closing else None

    def _settled(self, entry: WindowEntry) -> Ready:
        """An entry's view. Raises CannotBeMade, and Overtaken where the window closes."""
        made = state_in_hand(self._plan, entry.kind, self._look, RAYS, REFINE)
        self._made[entry.kind] = made
        view = view_of(entry, made, self._before(entry))
        bodies = [(LAYERS[part.part], drawn(view, part)) for part in view.parts]
        bodies += [(LAYERS.get(solid.part, Layer.TOOLS), solid) for solid in props(view)]
        return Ready(view, tuple((layer, self._prepare(solid)) for layer, solid in bodies if len(solid.mesh.faces)))

    def _before(self, entry: WindowEntry) -> SettledState | None:
        """The state before a step: settled where it is there already, else as it is laid."""
        if entry.step is None or entry.place == 0:
            return None
        kind = self._entries[entry.place - 1].kind
        return self._made.get(kind) or laid_state(self._plan, kind)

    def _look(self, _share: float) -> None:
        if self._closing:
            raise Overtaken
