"""Who may speak to a server of ours: only a page of its own, with the token of its address."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass

from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

HOST = "127.0.0.1"

MOST_BODY = 64_000
"""Bytes; a form's texts are a few thousand."""

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
"""Content policy of all that has none of its own."""

OPENER = "Cross-Origin-Opener-Policy"

HEADERS = {
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cache-Control": "no-store",
    OPENER: "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}


@dataclass(frozen=True)
class Address:
    """Where a page is served, under a token that nobody can guess: on this machine alone unless `host` is another."""

    port: int
    token: str
    host: str = HOST

    @property
    def url(self) -> str:
        """The address to open."""
        return f"http://{self.host}:{self.port}/{self.token}/"

    @property
    def hosts(self) -> tuple[str, ...]:
        """What a browser calls the server."""
        own = (f"{self.host}:{self.port}",)
        return (*own, f"localhost:{self.port}") if self.host == HOST else own


def new_token() -> str:
    """A token of 192 random bits."""
    return secrets.token_urlsafe(24)


class Guard:
    """Refuses strangers before the application hears of them, and what is too large; adds the headers of safety."""

    def __init__(self, app: ASGIApp, address: Address, most_body: int = MOST_BODY) -> None:
        self.app = app
        self.address = address
        self.most_body = most_body

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Passes on what may come in."""
        if scope["type"] != "http":
            return
        refused = self._refusal(Headers(scope=scope), str(scope["path"]))
        if refused is not None:
            await PlainTextResponse(refused.detail, refused.status_code)(scope, receive, self._with_headers(send))
            return
        await self.app(scope, _limited(receive, self.most_body), self._with_headers(send))

    def _with_headers(self, send: Send) -> Send:
        """Answers with the headers of safety; one of them means something to browsers on this machine alone."""
        kept = {name: value for name, value in HEADERS.items() if self.address.host == HOST or name != OPENER}
        return _with_headers(send, kept)

    def _refusal(self, headers: Headers, path: str) -> HTTPException | None:
        """Why a request isn't answered, or None where it is."""
        if headers.get("host", "") not in self.address.hosts:
            return HTTPException(403, "This address is not served here.")
        origin = headers.get("origin")
        if origin is not None and origin not in [f"http://{host}" for host in self.address.hosts]:
            return HTTPException(403, "Another page has no business here.")
        token = path.split("/", 2)[1].encode("utf-8", "replace")
        if not secrets.compare_digest(token, self.address.token.encode()):
            return HTTPException(404, "There is nothing here: open the address that fidpath printed.")
        length = headers.get("content-length", "0")
        if not length.isdecimal() or int(length) > self.most_body:
            return HTTPException(413, "This is too large.")
        return None


def _limited(receive: Receive, most: int) -> Receive:
    """A request's body no longer than `most` bytes, whatever its header says."""
    taken = 0

    async def limited() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > most:
            raise HTTPException(413, "This is too large.")
        return message

    return limited


def _with_headers(send: Send, given: Mapping[str, str]) -> Send:
    """Answers with these headers, and the content policy where they bring none of their own."""

    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in given.items():
                headers.setdefault(name, value)
            headers.setdefault("Content-Security-Policy", POLICY)
        await send(message)

    return sending
