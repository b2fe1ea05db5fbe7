"""The command `start`: everything from a page in the browser, for who has never used a terminal."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from fidpath.cli.show_command import HOURS, say_address, warn

Folder = Annotated[
    Path | None,
    typer.Argument(metavar="[FOLDER]", help="Folder of job files and results; default: fidpath in your documents."),
]
Port = Annotated[int, typer.Option("--port", min=0, max=65535, help="The port. 0 finds a free one.")]
NoOpen = Annotated[bool, typer.Option("--no-open", help="Print the address, but don't open it.")]

Rest = Annotated[
    float, typer.Option("--rest", min=0.0, metavar="HOURS", help="End after so long without an open page. 0: never.")
]


def register(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(start)


def start(folder: Folder = None, port: Port = 0, no_open: NoOpen = False, rest: Rest = HOURS) -> None:
    """Open the start page: new jobs by a few questions, everything built by a button, lines and sets."""
    from fidpath.viewing.serving import open_browser
    from fidpath.viewing.start_page import StartWish, serve

    wish = StartWish(folder or usual_folder(), port, None if no_open else open_browser, rest)
    serve(wish, say_address, warn)


def usual_folder() -> Path:
    """The folder that is worked in where none is named: the same wherever the command is given."""
    documents = Path.home() / "Documents"
    return (documents if documents.is_dir() else Path.home()) / "fidpath"
