"""The live page's server: one job on this machine alone, from the first settling to the Ctrl-C that ends it."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from fidpath.machine import files as output
from fidpath.viewing.live_page.form import read_form
from fidpath.viewing.live_page.routes import Served, app_of
from fidpath.viewing.live_page.session import Session
from fidpath.viewing.results import Builds, Phone
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


@dataclass(frozen=True)
class Wish:
    """How a job is to be served.

    `folder` is what job files are saved into, the job file's own where None; `port` 0 takes any that is free; `open`
    opens an address in a browser and says whether it could, None opens none; `rest`: hours without an open page after
    which it ends, 0 for never.
    """

    job: Path
    folder: Path | None = None
    port: int = 0
    open: Open | None = None
    rest: float = 0.0


def serve(wish: Wish, say: Say, warn: Say) -> None:
    """Serves the job's live page until it is ended; `say` gets the address, `warn` what else is to be said.

    Raises JobError, CannotBeMade, OutputError, EnvironmentProblem, and KeyboardInterrupt after a Ctrl-C.
    """
    form = read_form(wish.job)
    folder = wish.folder or wish.job.resolve().parent
    if wish.folder is not None:
        output.make_folder(wish.folder)
    with listening(wish.port) as listener:
        server, session = Server(listener), Session(form)
        address = Address(server.port, new_token())
        served = Served(session, folder, lambda: server.ending, Builds(folder / "exports"), Phone())
        session.start()
        try:
            say(address.url)
            rest = Rest(wish.rest, served.busy)
            server.run(app_of(served, address), lambda: opened(wish.open, address.url, warn), rest)
        finally:
            server.end()
            served.close()
    told_end(server, wish.rest, warn)
