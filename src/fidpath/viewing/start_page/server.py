"""The start page's server: one folder, on this machine alone, until its End button or a Ctrl-C."""

from __future__ import annotations

import contextlib
import json
import urllib.error
import urllib.request
from collections.abc import Iterator
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path

from fidpath.errors import OutputError
from fidpath.machine import digest_of, private_text, user_folder
from fidpath.viewing.serving import (
    Address,
    Open,
    Rest,
    Say,
    Server,
    listening,
    new_token,
    opened,
    told_end,
)
from fidpath.viewing.start_page.jobs import Jobs
from fidpath.viewing.start_page.routes import Started, app_of
from fidpath.viewing.start_page.workshop import Workshop

LATER = ("fidpath.viewing.live_page", "fidpath.viewing.start_page.questions", "fidpath.viewing.start_page.examples")
"""What most people want next: loaded once the page is there, while it is looked at."""


@dataclass(frozen=True)
class StartWish:
    """Which folder is worked in, at which port (0: any that is free), and what opens a browser, if anything.

    rest: hours without an open page after which it ends, 0 for never.
    """

    folder: Path
    port: int = 0
    open: Open | None = None
    rest: float = 0.0


def serve(wish: StartWish, say: Say, warn: Say) -> None:
    """Serves the start page until it is ended; `say` gets the address, `warn` what else is to be said.

    Where one is served for this folder already, its address is opened and nothing more is done.
    Raises OutputError, EnvironmentProblem, and KeyboardInterrupt after a Ctrl-C.
    """
    workshop = Workshop(wish.folder)
    running = _running(workshop.folder)
    if running:
        say(running)
        opened(wish.open, running, warn)
        return
    with listening(wish.port) as listener:
        server = Server(listener)
        address = Address(server.port, new_token())
        jobs = Jobs(workshop.folder, server)
        app = app_of(Started(workshop, jobs, server), address)
        say(address.url)
        with _noted(workshop.folder, address.url):
            try:
                server.run(app, lambda: _begun(wish.open, address.url, warn), Rest(wish.rest, jobs.busy))
            finally:
                server.end()
                jobs.close()
    told_end(server, wish.rest, warn)


def _begun(opens: Open | None, url: str, warn: Say) -> None:
    """Opens the page, then loads what is wanted next."""
    opened(opens, url, warn)
    for name in LATER:
        import_module(name)


def _note(folder: Path) -> Path:
    """Where the address of the page served for a folder is kept: for this user alone."""
    return user_folder() / f"start-{digest_of(str(folder))[:16]}.json"


def _running(folder: Path) -> str:
    """The address at which a start page of this folder is served already; nothing where none answers."""
    with contextlib.suppress(OSError, ValueError, KeyError, TypeError, urllib.error.URLError):
        url = str(json.loads(_note(folder).read_text(encoding="utf-8"))["url"])
        if url.startswith("http://127.0.0.1:"):
            with urllib.request.urlopen(f"{url}home", timeout=2) as answer:
                return url if json.load(answer)["folder"] == str(folder) else ""
    return ""


@contextlib.contextmanager
def _noted(folder: Path, url: str) -> Iterator[None]:
    """Keeps the address while it is served, so that a second double click finds it; it does without where it can't."""
    note = _note(folder)
    with contextlib.suppress(OSError, OutputError):
        private_text(note, json.dumps({"url": url}))
    try:
        yield
    finally:
        with contextlib.suppress(OSError):
            note.unlink(missing_ok=True)
