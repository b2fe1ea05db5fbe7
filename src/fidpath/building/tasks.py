"""The tasks of a build: one for each item of the outputs asked for, with the digest of all that it is made from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from fidpath.machine import digest_of, source_digest
from fidpath.outputs import Item, Output, Request, Results


@dataclass(frozen=True)
class Task:
    """One item of an output to make. digest: of the program, the plan, and what else the item is made from.

    shows_finished: whether it must wait until the finished splice has passed its check.
    """

    output: Output
    item: Item
    digest: str
    shows_finished: bool

    @property
    def name(self) -> str:
        """Its name in this build, and its record's."""
        return f"{self.output.name}.{self.item.name}" if self.item.name else self.output.name

    @property
    def rank(self) -> tuple[float, float]:
        """What is begun first has the lowest."""
        return (self.output.turn, -self.output.seconds)

    @property
    def label(self) -> str:
        """What is being done, in words."""
        return self.name.replace("-", " ").replace(".", ": ")

    @property
    def files(self) -> tuple[str, ...]:
        """Paths of its files that are known before it is done."""
        return self.output.files_of(self.item.name)


def tasks_of(request: Request, outputs: Iterable[Output], results: Results | None = None) -> Iterator[Task]:
    """A task for every item of these outputs, in order. results: of the outputs that these need."""
    for output in outputs:
        needed = {name: _digests(results, name) for name in output.needs}
        base = digest_of(source_digest(output.libraries), request.plan_digest, output.name, needed)
        for item in output.items(request):
            yield Task(output, item, digest_of(base, item), request.finished in item.states)


def _digests(results: Results | None, name: str) -> dict[str, str]:
    """The digests of an output's results by item; none where it doesn't belong to the build."""
    return {item: result.digest for item, result in ((results or {}).get(name) or {}).items()}
