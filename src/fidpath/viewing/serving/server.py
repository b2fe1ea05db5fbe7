"""A server on this machine: its socket, the browser that is opened on it, and its end.

It ends by a Ctrl-C, by a button, or because no page of it has been open for long.
"""

from __future__ import annotations

import os
import socket
import threading
import time
import webbrowser
from collections.abc import Callable
from typing import Literal

import uvicorn
from starlette.types import ASGIApp

from fidpath.errors import EnvironmentProblem
from fidpath.viewing.serving.guard import HOST
from fidpath.viewing.serving.rest import Rest, rested_words

END = 3
"""Seconds that answers under way are waited for when a server ends."""

Open = Callable[[str], bool]
Say = Callable[[str], None]


class Server:
    """One server on a socket. Its application may ask whether it is ending, and may end it."""

    def __init__(self, listener: socket.socket) -> None:
        self.port: int = listener.getsockname()[1]
        self._listener = listener
        self._server: uvicorn.Server | None = None
        self._ended = threading.Event()
        self.ended_by: Literal["signal", "button", "rest"] = "signal"

    @property
    def ending(self) -> bool:
        """Whether it is to end: what answers for long looks at this."""
        return self._ended.is_set() or (self._server is not None and self._server.should_exit)

    def end_by_button(self) -> None:
        """Ends it because a person said so on its page."""
        self.ended_by = "button"
        self.end()

    def _end_by_rest(self) -> None:
        self.ended_by = "rest"
        self.end()

    def end(self) -> None:
        """Has it end as soon as answers under way are given."""
        self._ended.set()
        if self._server is not None:
            self._server.should_exit = True

    def run(self, app: ASGIApp, then: Callable[[], None], rest: Rest) -> None:
        """Serves until it is ended, by `end`, by a Ctrl-C or by its rest; calls `then` in a thread once it answers."""
        heard = rest.heard(app)
        config = uvicorn.Config(heard, log_config=None, access_log=False, lifespan="off", timeout_graceful_shutdown=END)
        self._server = uvicorn.Server(config)
        rest.watch(self._ended, self._end_by_rest)
        threading.Thread(target=self._once_started, args=(then,), name="fidpath browser", daemon=True).start()
        try:
            self._server.run(sockets=[self._listener])
        finally:
            self.end()

    def run_apart(self, app: ASGIApp) -> threading.Thread:
        """Serves in a thread of its own until `end`; it hears no Ctrl-C."""
        config = uvicorn.Config(app, log_config=None, access_log=False, lifespan="off", timeout_graceful_shutdown=END)
        self._server = uvicorn.Server(config)
        thread = threading.Thread(target=self._server.run, args=([self._listener],), name="fidpath phone", daemon=True)
        thread.start()
        return thread

    def _once_started(self, then: Callable[[], None]) -> None:
        assert self._server is not None
        while not self._server.started and not self._server.should_exit:
            time.sleep(0.02)
        if self._server.started:
            then()


def told_end(server: Server, hours: float, warn: Say) -> None:
    """Says why a server has ended by itself, after `hours` of rest. Raises KeyboardInterrupt after a Ctrl-C."""
    if server.ended_by == "signal":
        raise KeyboardInterrupt
    if server.ended_by == "rest":
        warn(rested_words(hours))


def open_browser(url: str) -> bool:
    """Opens an address in this machine's browser; False where there is none that could show the page."""
    try:
        browser = webbrowser.get()
    except webbrowser.Error:
        return False
    in_terminal = type(browser) is webbrowser.GenericBrowser and "BROWSER" not in os.environ
    return not in_terminal and browser.open(url)


NO_BROWSER = "No browser could be opened on this machine. The page is served all the same: open the address above."


def opened(opens: Open | None, url: str, warn: Say) -> None:
    """Opens the browser, or says that none can be opened: the page is served all the same."""
    if opens is not None and not opens(url):
        warn(NO_BROWSER)


def listening(port: int, host: str = HOST) -> socket.socket:
    """A socket that listens on one address, this machine's own by itself. Raises EnvironmentProblem."""
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if os.name == "posix":
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((host, port))
        listener.listen(64)
    except OSError as problem:
        listener.close()
        raise EnvironmentProblem(
            f"port {port} can't be had: {(problem.strerror or str(problem)).lower()}",
            "Leave --port out, and a free one is found",
        ) from problem
    return listener
