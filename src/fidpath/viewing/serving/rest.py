"""The end of a server that nobody needs any more: no page of it open, nothing asked of it, nothing made, for long."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable

from starlette.types import ASGIApp, Receive, Scope, Send

LOOK = 30.0
"""Seconds between two looks, fewer where the rest is short."""


def rested_words(hours: float) -> str:
    """What is said when a server ends by itself."""
    return f"No page has been open for {hours:g} h: fidpath has ended. Start it again when you need it."


class Rest:
    """How long nobody has used a server; ends it after `hours`, never where that is 0.

    An open page is an answer that doesn't end while it is open: every page of ours hears news. `busy` says whether
    something is being made that nobody has to watch.
    """

    def __init__(self, hours: float, busy: Callable[[], bool] = lambda: False) -> None:
        self.hours = hours
        self._busy = busy
        self._answering = 0
        self._used = time.monotonic()

    @property
    def over(self) -> bool:
        """Whether the server has been left alone for long enough."""
        if self._answering or self._busy():
            self._used = time.monotonic()
        return self.hours > 0 and time.monotonic() - self._used > 3600 * self.hours

    def heard(self, app: ASGIApp) -> ASGIApp:
        """The application, every request of which is noticed."""

        async def hearing(scope: Scope, receive: Receive, send: Send) -> None:
            self._answering += 1
            try:
                await app(scope, receive, send)
            finally:
                self._answering -= 1
                self._used = time.monotonic()

        return hearing

    def watch(self, ended: threading.Event, end: Callable[[], None]) -> None:
        """Looks from time to time, in a thread of its own, and calls `end` once; goes with the server."""
        if self.hours > 0:
            threading.Thread(target=self._watch, args=(ended, end), name="fidpath rest", daemon=True).start()

    def _watch(self, ended: threading.Event, end: Callable[[], None]) -> None:
        while not ended.wait(min(LOOK, 360 * self.hours)):
            if self.over:
                end()
                return
