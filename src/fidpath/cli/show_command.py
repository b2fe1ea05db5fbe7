"""The command `show`: the splice in a window to turn and step through, or live in the browser."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Annotated

import typer

from fidpath.errors import CannotBeMade

JobFile = Annotated[Path, typer.Argument(metavar="JOB", help="The job file.")]
Browser = Annotated[
    bool, typer.Option("--browser", help="Show it in the browser, with the job's figures beside it to change.")
]
Out = Annotated[
    Path | None,
    typer.Option("--out", metavar="DIR", help="Folder for pictures; with --browser, for saved job files."),
]
Port = Annotated[int, typer.Option("--port", min=0, max=65535, help="With --browser: the port. 0 finds a free one.")]
NoOpen = Annotated[bool, typer.Option("--no-open", help="With --browser: print the address, but don't open it.")]

Rest = Annotated[
    float,
    typer.Option(
        "--rest", min=0.0, metavar="HOURS", help="With --browser: end after so long without an open page. 0: never."
    ),
]

HOURS = 12.0
"""How long a server goes on without an open page, where nobody says otherwise."""


def register(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(show)


def show(
    job: JobFile,
    browser: Browser = False,
    out: Out = None,
    port: Port = 0,
    no_open: NoOpen = False,
    rest: Rest = HOURS,
) -> None:
    """Turn the splice and go through its steps in a window, or change the job in the browser with --browser."""
    if not browser and (port or no_open or rest != HOURS):
        raise typer.BadParameter("--port, --no-open and --rest go with --browser")
    with _about(job):
        if browser:
            _in_browser(job, out, port, no_open, rest)
        else:
            from fidpath.viewing.window import show_job

            show_job(job, out)


def _in_browser(job: Path, out: Path | None, port: int, no_open: bool, rest: float) -> None:
    from fidpath.viewing.live_page import Wish, serve
    from fidpath.viewing.serving import open_browser

    serve(Wish(job, out, port, None if no_open else open_browser, rest), say_address, warn)


def say_address(url: str) -> None:
    """Prints where a page is served."""
    typer.echo(url)
    typer.echo("This address works only on this machine. Press Ctrl-C to end.", err=True)


def warn(words: str) -> None:
    """Prints what doesn't end a command."""
    typer.echo(words, err=True)


@contextmanager
def _about(job: Path) -> Iterator[None]:
    """What can't be made of a job, found by a phase that knows no file, is about this one."""
    try:
        yield
    except CannotBeMade as error:
        error.file = error.file or str(job)
        raise
