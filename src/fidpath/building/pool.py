"""The processes that settle, measure and draw for a build, and what has been handed out to them."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Executor, Future
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from fidpath.building import worker
from fidpath.building.tasks import Task
from fidpath.errors import EnvironmentProblem
from fidpath.outputs import Product, Request


class WorkerPool:
    """Tasks in the hands of an executor, each handed out once."""

    def __init__(self, executor: Executor) -> None:
        self._executor = executor
        self._begun: dict[str, Future[Product]] = {}

    def submit(self, work: Callable[..., Any], *arguments: Any) -> Future[Any]:
        """Any work. A process started for it never hears a Ctrl-C, which is this one's to answer."""
        with _holding_ctrl_c():
            return self._executor.submit(work, *arguments)

    def make(self, task: Task) -> Future[Product]:
        """A task's product: on its way, or there."""
        if task.name not in self._begun:
            self._begun[task.name] = self.submit(worker.make_item, task.output.make, task.item.name)
        return self._begun[task.name]

    def begin(self, tasks: Iterable[Task]) -> None:
        """Hands out these tasks in their order."""
        for task in tasks:
            self.make(task)


@contextmanager
def worker_pool(request: Request, folder: Path | None = None) -> Iterator[WorkerPool]:
    """A pool of processes for one build; only the process that opens it writes.

    folder: where they share settled states. Raises EnvironmentProblem where one of them is stopped from outside.
    """
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import active_children, get_context

    workers = min(4, max(2, os.cpu_count() or 2))
    before = {child.pid for child in active_children()}
    pool = ProcessPoolExecutor(workers, get_context("spawn"), worker.start, (request, folder))
    try:
        yield WorkerPool(pool)
    except BrokenProcessPool as problem:
        raise EnvironmentProblem(
            "a process that makes the results was stopped from outside", "Free some memory and build again"
        ) from problem
    except BaseException:
        _kill(pool, [child for child in active_children() if child.pid not in before])
        raise
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


def _kill(pool: Any, children: list[Any]) -> None:
    """Ends the processes of a pool at once, whatever they are at.

    Half a message may be in their pipes, and the pool would wait for the rest forever: with their other ends closed it
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
