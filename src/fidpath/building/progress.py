"""How far a build is, shown to the person who waits for it."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from fidpath.arrays import Progress


def silent(_what: str, _share: float) -> None:
    """Shows nothing."""
    return


def _unsaid(_line: str) -> None:
    return


@dataclass(frozen=True)
class ProgressDisplay:
    """Where a build is shown. tell: what is being done and the share that is done; note: a line that stays."""

    tell: Progress = silent
    note: Callable[[str], None] = _unsaid


@contextmanager
def progress_bar(instead: ProgressDisplay | None = None) -> Iterator[ProgressDisplay]:
    """A progress bar on stderr, or what is shown in its stead; nothing where stderr is no terminal."""
    if instead is not None:
        yield instead
        return
    if not sys.stderr.isatty():
        yield ProgressDisplay()
        return
    from rich.console import Console
    from rich.progress import BarColumn, TextColumn, TimeElapsedColumn
    from rich.progress import Progress as Bar

    columns = (TextColumn("{task.description:<28}"), BarColumn(), TimeElapsedColumn())
    console = Console(stderr=True)
    with Bar(*columns, console=console, transient=True) as bar:
        task = bar.add_task("planning", total=1.0)
        yield ProgressDisplay(
            lambda what, share: bar.update(task, description=what, completed=share),
            lambda line: console.print(line, markup=False, highlight=False, soft_wrap=True),
        )
