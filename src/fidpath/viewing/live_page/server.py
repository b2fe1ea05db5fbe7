"""The live page's server: on this machine alone, from the first settling to the Ctrl-C that ends it."""

from __future__ import annotations

import os
import socket
import threading
import time
import webbrowser
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import uvicorn

from fidpath.errors import EnvironmentProblem
from fidpath.machine import files as output
from fidpath.viewing.live_page.form import Form, read_form
from fidpath.viewing.live_page.guard import HOST, Address, new_token
from fidpath.viewing.live_page.routes import Served, app_of
from fidpath.viewing.live_page.session import Session

END = 3
"""Seconds that answers under way are waited for when the server ends."""

Open = Callable[[str], bool]
Say = Callable[[str], None]


@dataclass(frozen=True)
class Wish:
    """How a job is to be served.

    `folder` is what job files are saved into, the job file's own where None; `port` 0 takes any that is free; `open`
    opens an address in a browser and says whether it could, None opens none.
    """

    job: Path
    folder: Path | None = None
    port: int = 0
    open: Open | None = None


def serve(wish: Wish, say: Say) -> None:
    """Serves the job's live page until it is ended; `say` gets the address.

    Raises JobError, CannotBeMade, OutputError, EnvironmentProblem, and KeyboardInterrupt after a Ctrl-C.
    """
    form = read_form(wish.job)
    if wish.folder is not None:
        output.make_folder(wish.folder)
    with listening(wish.port) as listener:
        _serve(form, wish, listener, say)


def _serve(form: Form, wish: Wish, listener: socket.socket, say: Say) -> None:
    address = Address(listener.getsockname()[1], new_token())
    session = Session(form)
    served = Served(session, wish.folder or wish.job.resolve().parent, lambda: server.should_exit)
    app = app_of(served, address)
    config = uvicorn.Config(app, log_config=None, access_log=False, lifespan="off", timeout_graceful_shutdown=END)
    server = uvicorn.Server(config)
    opener = _Opener(server, address, wish.open)
    session.start()
    try:
        say(address.url)
        opener.start()
        server.run(sockets=[listener])
    finally:
        server.should_exit = True
        session.close()
    if opener.failed:
        raise EnvironmentProblem(
            "no browser could be opened on this machine",
            "Install one, or use --no-open and open the address that is printed",
        )
    raise KeyboardInterrupt


class _Opener(threading.Thread):
    """Opens the browser once the server answers; ends the server where no browser can be opened."""

    def __init__(self, server: uvicorn.Server, address: Address, opens: Open | None) -> None:
        super().__init__(name="fidpath browser", daemon=True)
        self.server, self.address, self.opens, self.failed = server, address, opens, False

    def run(self) -> None:
        while not self.server.started and not self.server.should_exit:
            time.sleep(0.02)
        if self.opens is not None and not self.opens(self.address.url):
            self.failed = True
            self.server.should_exit = True


def open_browser(url: str) -> bool:
    """Opens an address in this machine's browser; False where there is none that could show the page."""
    try:
        browser = webbrowser.get()
    except webbrowser.Error:
        return False
    in_terminal = type(browser) is webbrowser.GenericBrowser and "BROWSER" not in os.environ
    return not in_terminal and browser.open(url)


def listening(port: int) -> socket.socket:
    """A socket that listens on this machine alone. Raises EnvironmentProblem where the port can't be had."""
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if os.name == "posix":
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((HOST, port))
        listener.listen(64)
    except OSError as problem:
        listener.close()
        raise EnvironmentProblem(
            f"port {port} can't be had: {(problem.strerror or str(problem)).lower()}",
            "Leave --port out, and a free one is found",
        ) from problem
    return listener
