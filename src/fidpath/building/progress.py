"""How far a build is, shown to the person who waits for it."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager

from fidpath.arrays import Progress


def silent(_what: str, _share: float) -> None:
    """Shows nothing."""
    return


@contextmanager
def progress_bar() -> Iterator[Progress]:
    """A progress bar on stderr; nothing where that is no terminal."""
    if not sys.stderr.isatty():
        yield silent
        return
    from rich.console import Console
    from rich.progress import BarColumn, TextColumn, TimeElapsedColumn
    from rich.progress import Progress as Bar

    columns = (TextColumn("{task.description:<28}"), BarColumn(), TimeElapsedColumn())
    with Bar(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("planning", total=1.0)
        yield lambda what, share: bar.update(task, description=what, completed=share)
