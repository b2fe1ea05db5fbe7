"""The processes that settle, measure and draw for a build, and what is handed out to them next."""

from __future__ import annotations

import signal
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Executor, Future
from contextlib import contextmanager
from functools import partial
from heapq import heappop, heappush
from pathlib import Path
from queue import SimpleQueue
from threading import Lock
from typing import Any

from fidpath.building import worker
from fidpath.building.tasks import Task
from fidpath.errors import EnvironmentProblem
from fidpath.machine import core_count, free_memory_mb, one_blas_thread
from fidpath.outputs import Product, Request, Result

MOST = 16
"""Processes of one build at most: with more, each has too few tasks to be worth its start."""

PROCESS_MB = 1000.0
"""Memory that one of them may take (benchmarks/bench_build.py)."""


Earlier = Callable[[str], Result | None]
"""What the result of a task was before this build, by the task's name."""


def process_count() -> int:
    """How many processes a build gets: one a core, as far as the memory that is free allows."""
    memory = free_memory_mb()
    room = int(memory / PROCESS_MB) if memory else MOST
    return max(1, min(core_count(), room, MOST))


class WorkerPool:
    """Tasks in the hands of an executor, each handed out once: as many at a time as it has processes.

    Those that wait go in the order of their `rank`, so that what is added later may come first. earlier: what was made
    of a task's item before, for the process that makes it.
    """

    def __init__(self, executor: Executor, processes: int = 1, earlier: Earlier = lambda _name: None) -> None:
        self._executor, self._free, self._earlier = executor, processes, earlier
        self._waiting: list[tuple[tuple[float, ...], int, Task]] = []
        self._known: set[str] = set()
        self._lock = Lock()
        self._done: SimpleQueue[tuple[Task, Future[Product]]] = SimpleQueue()

    def submit(self, work: Callable[..., Any], *arguments: Any) -> Future[Any]:
        """Any work. A process started for it never hears a Ctrl-C, which is this one's to answer."""
        with _holding_ctrl_c():
            return self._executor.submit(work, *arguments)

    def begin(self, tasks: Iterable[Task]) -> None:
        """Hands out these tasks, those of lower rank first."""
        with self._lock:
            for task in tasks:
                if task.name not in self._known:
                    heappush(self._waiting, (task.rank, len(self._known), task))
                    self._known.add(task.name)
        self._hand_out()

    def next_done(self) -> tuple[Task, Product]:
        """Waits for the next task that is done. Raises what it failed with."""
        task, future = self._done.get()
        return task, future.result()

    def close(self) -> None:
        """Hands out nothing more."""
        with self._lock:
            self._waiting.clear()

    def _hand_out(self) -> None:
        while (task := self._next()) is not None:
            try:
                future = self.submit(worker.make_item, task.output.make, task.item.name, self._before(task))
            except RuntimeError as problem:  # its processes are gone
                future = Future()
                future.set_exception(problem)
            future.add_done_callback(partial(self._returned, task))

    def _before(self, task: Task) -> Result | None:
        return self._earlier(task.name) if task.output.rewords else None

    def _next(self) -> Task | None:
        """The task whose turn it is, if a process is free for it."""
        with self._lock:
            if not self._free or not self._waiting:
                return None
            self._free -= 1
            return heappop(self._waiting)[-1]

    def _returned(self, task: Task, future: Future[Product]) -> None:
        with self._lock:
            self._free += 1
        self._done.put((task, future))
        self._hand_out()


@contextmanager
def worker_pool(
    request: Request, folder: Path | None = None, earlier: Earlier = lambda _name: None
) -> Iterator[WorkerPool]:
    """A pool of processes for one build; only the process that opens it writes.

    folder: where they share settled states. earlier: as `WorkerPool` has it.
    Raises EnvironmentProblem where one of them is stopped from outside.
    """
    from concurrent.futures import ProcessPoolExecutor
    from concurrent.futures.process import BrokenProcessPool
    from multiprocessing import active_children, get_context

    processes = process_count()
    before = {child.pid for child in active_children()}
    executor = ProcessPoolExecutor(processes, get_context("spawn"), worker.start, (request, folder))
    pool = WorkerPool(executor, processes, earlier)
    try:
        with one_blas_thread():
            yield pool
        executor.shutdown()  # left to the end of this process, its own thread may be woken when it has just gone
    except BrokenProcessPool as problem:
        raise EnvironmentProblem(
            "a process that makes the results was stopped from outside", "Free some memory and build again"
        ) from problem
    except BaseException:
        pool.close()
        _kill(executor, [child for child in active_children() if child.pid not in before])
        raise
    finally:
        executor.shutdown(wait=False, cancel_futures=True)


def _kill(executor: Any, children: list[Any]) -> None:
    """Ends the processes of a pool at once, whatever they are at.

    Half a message may be in their pipes, and the pool would wait for the rest forever: with their other ends closed it
    sees that nobody is there.
    """
    for child in children:
        child.kill()
    for child in children:
        child.join()
    for queue, end in (("_result_queue", "_writer"), ("_call_queue", "_reader")):
        pipe = getattr(getattr(executor, queue, None), end, None)
        if pipe is not None:
            pipe.close()
    executor.shutdown(wait=True, cancel_futures=True)


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
