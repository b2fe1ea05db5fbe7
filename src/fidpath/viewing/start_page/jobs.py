"""The jobs that are open on the start page: each with its session, reached below an address of its own.

The live page, and the libraries behind it, are loaded when the first job is opened, or before, while nobody waits.
"""

from __future__ import annotations

import threading
from collections import OrderedDict
from pathlib import Path
from typing import TYPE_CHECKING, Any

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Receive, Scope, Send

from fidpath.errors import EnvironmentProblem, FidpathError
from fidpath.viewing.serving import Server, said

if TYPE_CHECKING:
    from fidpath.viewing.live_page import Served
    from fidpath.viewing.results import Builds, Phone

MOST = 4
"""Jobs open at a time; each holds its settled splice in memory."""


class Jobs:
    """The open jobs of one server, by their files' names. What goes to one of them is answered by its own routes."""

    def __init__(self, folder: Path, server: Server) -> None:
        self._folder, self._server = folder, server
        self._open: OrderedDict[str, tuple[Served, ASGIApp]] = OrderedDict()
        self._lock = threading.Lock()
        self._shared: tuple[Builds, Phone] | None = None

    def open(self, path: Path) -> None:
        """Opens a job file, or finds it open.

        Raises JobError, CannotBeMade, and EnvironmentProblem where too many windows are open already.
        """
        with self._lock:
            if path.name not in self._open:
                self._make_room()
                served, app = self._served(path)
                served.session.start()
                self._open[path.name] = served, app
            self._open.move_to_end(path.name)

    def _served(self, path: Path) -> tuple[Served, ASGIApp]:
        from fidpath.viewing.live_page import Served, Session, read_form, routes_of

        builds, phone = self._results()
        served = Served(Session(read_form(path)), self._folder, lambda: self._server.ending, builds, phone, "../../")
        return served, Starlette(routes=routes_of(served), exception_handlers={FidpathError: said})

    def _results(self) -> tuple[Builds, Phone]:
        """One build at a time, and one page on a phone, for all jobs."""
        from fidpath.viewing.results import Builds, Phone

        if self._shared is None:
            self._shared = Builds(self._folder / "exports"), Phone()
        return self._shared

    def busy(self) -> bool:
        """Whether something is built, or shown to a phone."""
        if self._shared is None:
            return False
        builds, phone = self._shared
        return builds.building or phone.sharing is not None

    def _make_room(self) -> None:
        """Closes the job that no window shows and that was opened longest ago, where there are as many as may be."""
        if len(self._open) < MOST:
            return
        unseen = next((name for name, (served, _) in self._open.items() if served.streams == 0), None)
        if unseen is None:
            raise EnvironmentProblem(f"{MOST} jobs are open in windows", "Close one of them and try again")
        self._open.pop(unseen)[0].session.close()

    def __call__(self, scope: Scope, receive: Receive, send: Send) -> Any:
        """Answers what goes to one of the jobs."""
        found = self._open.get(scope["path_params"]["file"])
        if found is None:
            raise HTTPException(404, "This job isn't open any more: open it from the list.")
        return found[1](scope, receive, send)

    def close(self) -> None:
        """Stops everything under way."""
        with self._lock:
            for served, _ in self._open.values():
                served.session.close()
            if self._shared is not None:
                self._shared[0].stop()
                self._shared[1].stop()
            self._open.clear()
