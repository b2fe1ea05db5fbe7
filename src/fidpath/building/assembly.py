"""The outputs made from others' results, begun as soon as what they need is there: in this process, beside its pool."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import replace

from fidpath.building.manifest import Manifest
from fidpath.building.tasks import Task, tasks_of
from fidpath.outputs import Context, Output, Product, Results, Turn

THREADS = 2
"""Their libraries let go of the interpreter for most of the work."""


class Assembly:
    """The outputs of one build that need others: those that wait for their needs, and those begun."""

    def __init__(self, outputs: Iterable[Output], context: Context, threads: ThreadPoolExecutor) -> None:
        self._waiting, self._context, self._threads = list(outputs), context, threads
        self._begun: list[tuple[Task, Future[Product]]] = []

    def prepare(self, results: Results, changed: Collection[str]) -> None:
        """What can be made ready of the results that are there, for outputs that need some of those changed."""
        for output in self._waiting:
            if output.prepare is not None and set(changed) & set(output.needs):
                output.prepare(replace(self._context, results=results))

    def begin(self, results: Results, missing: Collection[str], manifest: Manifest) -> None:
        """Begins all that needs none of the outputs missing, films apart."""
        ready = [one for one in self._waiting if one.turn < Turn.FILMS and not set(missing) & set(one.needs)]
        self._waiting = [output for output in self._waiting if output not in ready]
        given = replace(self._context, results=results)
        for task in _outdated(ready, given, manifest):
            self._begun.append((task, self._threads.submit(task.output.make, given, task.item.name)))

    def finish(self, results: Results, manifest: Manifest) -> None:
        """Writes what was begun, and makes and writes the films in this thread, which hears a Ctrl-C."""
        self.begin(results, (), manifest)
        for task, product in self._begun:
            manifest.write(task.name, task.digest, product.result())
        given = replace(self._context, results=results)
        for task in _outdated(self._waiting, given, manifest):
            manifest.write(task.name, task.digest, task.output.make(given, task.item.name))


def _outdated(outputs: Iterable[Output], given: Context, manifest: Manifest) -> list[Task]:
    """The tasks of these outputs that aren't up to date."""
    tasks = tasks_of(given.request, outputs, given.results)
    return [task for task in tasks if manifest.up_to_date(task.name, task.digest) is None]


@contextmanager
def assembly(outputs: Iterable[Output], context: Context) -> Iterator[Assembly]:
    """An assembly of these outputs; where a build ends early, what isn't begun is left."""
    threads = ThreadPoolExecutor(THREADS)
    try:
        yield Assembly(outputs, context, threads)
    finally:
        threads.shutdown(wait=False, cancel_futures=True)
