"""One page shown to a phone in the same network: only when asked for, to be read only, and not for long.

It is served at this machine's own address in that network, under a token of its own, and nothing else is.
"""

from __future__ import annotations

import socket
import threading
from dataclasses import dataclass
from pathlib import Path

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fidpath.errors import CannotBeMade, EnvironmentProblem
from fidpath.viewing.serving import Address, Endpoint, Guard, Server, listening, new_token, page_answer

LONGEST = 2 * 3600.0
"""Seconds after which it ends by itself."""

NOWHERE = "192.0.2.1"
"""An address that no machine has (RFC 5737): asking for the way to it sends nothing."""


@dataclass(frozen=True)
class Sharing:
    """What is shown to a phone: at which address, and the job it is of."""

    url: str
    name: str


class Phone:
    """Shows one page to phones in the same network, until it is stopped. Off until asked for."""

    def __init__(self) -> None:
        self._sharing: Sharing | None = None
        self._server: Server | None = None
        self._timer: threading.Timer | None = None
        self._lock = threading.Lock()

    @property
    def sharing(self) -> Sharing | None:
        """What is shown now, if anything."""
        with self._lock:
            return self._sharing

    def start(self, page: Path, name: str) -> Sharing:
        """Shows a page. Raises CannotBeMade where there is no such file, EnvironmentProblem without a network."""
        if not page.is_file():
            raise CannotBeMade("there is no page of this job yet", "Build everything first")
        self.stop()
        host = own_address()
        server = Server(listening(0, host))
        address = Address(server.port, new_token(), host)
        app = Starlette(routes=[Route(f"/{address.token}/", _answer(page), methods=["GET"])])
        with self._lock:
            self._server, self._sharing = server, Sharing(address.url, name)
            self._timer = threading.Timer(LONGEST, self.stop)
            self._timer.daemon = True
            self._timer.start()
            server.run_apart(Guard(app, address))
            return self._sharing

    def stop(self) -> None:
        """Shows nothing any more."""
        with self._lock:
            if self._timer is not None:
                self._timer.cancel()
            if self._server is not None:
                self._server.end()
            self._server = self._sharing = self._timer = None


def _answer(page: Path) -> Endpoint:
    async def endpoint(_request: Request) -> Response:
        return page_answer(page.read_text(encoding="utf-8"))

    return endpoint


def own_address() -> str:
    """This machine's address in the network it is in. Raises EnvironmentProblem where it is in none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as outward:
        try:
            outward.connect((NOWHERE, 9))
            found: str = outward.getsockname()[0]
        except OSError:
            found = "127.0.0.1"
    if found.startswith("127.") or found == "0.0.0.0":
        raise EnvironmentProblem("this machine is in no network that a phone could share", "Join one and try again")
    return found


def code_svg(text: str) -> bytes:
    """A text as a QR code, drawn as SVG with its quiet zone."""
    import io

    import segno

    stream = io.BytesIO()
    segno.make(text, error="m", micro=False).save(stream, kind="svg", scale=6, border=4, dark="#000", light="#fff")
    return stream.getvalue()
