"""The processes that settle, measure and draw for a build, and what has been handed out to them."""

from __future__ import annotations

import os
import shutil
import signal
import tempfile
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Executor, Future
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from fidpath.building import worker as bench_hand
from fidpath.building.tasks import Piece
from fidpath.building.worker import SCREEN, Drawn, Finish
from fidpath.errors import EnvironmentProblem
from fidpath.methods.method import Method
from fidpath.planning.plan import Plan


class Crew:
    """Work in the hands of an executor, each piece of it handed out once."""

    def __init__(self, pool: Executor) -> None:
        self._pool = pool
        self._settling: Future[dict[str, Any]] | None = None
        self._drawing: dict[str, Future[Drawn]] = {}

    def hand_out(self, task: Callable[..., Any], *arguments: Any) -> Future[Any]:
        """Anything to do. A process started for it never hears a Ctrl-C, which is this one's to answer."""
        with _holding_ctrl_c():
            return self._pool.submit(task, *arguments)

    def settle(self) -> Future[dict[str, Any]]:
        """The check's report on the finished splice: on its way, or there."""
        self._settling = self._settling or self.hand_out(bench_hand.settle_finished)
        return self._settling

    def draw(self, piece: Piece) -> Future[Drawn]:
        """A piece of work: on its way, or there."""
        if piece.name not in self._drawing:
            self._drawing[piece.name] = self.hand_out(piece.task, *piece.arguments)
        return self._drawing[piece.name]

    def begin(self, pieces: Iterable[Piece], settling: bool = False) -> None:
        """Hands out what needn't wait until the finished splice has been judged; that splice first, if it is needed."""
        pieces = list(pieces)
        if settling or any(piece.finished for piece in pieces):
            self.settle()
        for piece in pieces:
            if not piece.finished:
                self.draw(piece)


@contextmanager
def crew(plan: Plan, way: Method | None, finish: Finish = SCREEN) -> Iterator[Crew]:
    """Processes that settle, measure and draw; only this one writes."""
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import active_children, get_context

    hands = min(4, max(2, os.cpu_count() or 2))
    before = {child.pid for child in active_children()}
    shelf = _shelf()
    pool = ProcessPoolExecutor(hands, get_context("spawn"), bench_hand.hold, (plan, way, finish, shelf))
    try:
        yield Crew(pool)
    except BrokenProcessPool as problem:
        raise EnvironmentProblem(
            "a process that draws the pictures was stopped, or this machine can't draw off screen",
            "Free some memory, or install the system's OpenGL and EGL libraries (Mesa's do)",
        ) from problem
    except BaseException:
        _disband(pool, [child for child in active_children() if child.pid not in before])
        raise
    finally:
        pool.shutdown(wait=False, cancel_futures=True)
        if shelf is not None:
            shutil.rmtree(shelf, ignore_errors=True)


def _shelf() -> Path | None:
    """A folder for a crew's settled states; None where there can be none: then some are settled twice."""
    try:
        return Path(tempfile.mkdtemp(prefix="fidpath-"))
    except OSError:
        return None


def _disband(pool: Any, children: list[Any]) -> None:
    """Ends a crew at once, whatever it is at.

    Half a message may be in its pipes, and the pool would wait for the rest forever: with their other ends closed it
    sees that nobody is there.
    """
    for child in children:
        child.kill()
    for child in children:
        child.join()
    for queue, end in (("_result_queue", "_writer"), ("_call_queue", "_reader")):
        pipe = getattr(getattr(pool, queue, None), end, None)
        if pipe is not None:
            pipe.close()
    pool.shutdown(wait=True, cancel_futures=True)


@contextmanager
def _holding_ctrl_c() -> Iterator[None]:
    """Keeps a Ctrl-C waiting until after; processes started in here never get one."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
