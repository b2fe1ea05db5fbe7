"""What a process of the pool does: make one item of an output, or measure one state. It writes nothing."""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Callable
from dataclasses import replace
from multiprocessing import parent_process
from multiprocessing.process import BaseProcess
from pathlib import Path
from typing import Any

from fidpath.building.state_cache import StateCache
from fidpath.outputs import Context, Product, Request, Result, state_report
from fidpath.outputs.registered.finished_splice import draw_next_to_nothing

_contexts: list[Context] = []
"""This process's context, once it has been told what is built."""


def start(request: Request, folder: Path | None = None) -> None:
    """Tells this process what is built. It then ends with the one that started it.

    folder: where the processes of one build share their settled states.
    """
    _contexts[:] = [Context(request, StateCache(request.plan, folder).settled)]
    parent = parent_process()
    if parent is not None:
        threading.Thread(target=_end_with, args=(parent, folder), daemon=True).start()


def _end_with(parent: BaseProcess, folder: Path | None) -> None:
    """Ends this process where the one that started it was killed: it would wait for work forever."""
    parent.join()
    if folder is not None:
        shutil.rmtree(folder, ignore_errors=True)
    os._exit(1)


def make_item(make: Callable[[Context, str], Product], item: str, earlier: Result | None = None) -> Product:
    """One item of an output; earlier: what was made of it before. Raises what `make` raises."""
    context = _contexts[0]
    return make(context if earlier is None else replace(context, earlier=earlier), item)


def draw_once() -> None:
    """Compiles or loads what draws pictures, while another process still settles."""
    draw_next_to_nothing(_contexts[0])


def measured(kind: str) -> dict[str, Any]:
    """The check's report on one state, right or wrong. Raises CannotBeMade where it can't be laid or settled."""
    context = _contexts[0]
    return state_report(context.request.plan, context.settled(kind))
