"""What the routes of a server share: answers as data or files, a request's body as a table, problems in words."""

from __future__ import annotations

import json
import re
from collections.abc import Awaitable, Callable, Mapping
from importlib import resources
from typing import Any

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from fidpath.errors import FidpathError

Endpoint = Callable[[Request], Awaitable[Response]]

PAGE_POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]+)">')

FRAMED = "frame-ancestors 'self'"
"""A splice's page may stand in a frame of our own pages, and in no other."""

TYPES = {"html": "text/html", "css": "text/css", "js": "text/javascript"}


def asset(package: str, name: str) -> Endpoint:
    """One of a package's own files."""
    content = resources.files(package).joinpath("assets", name).read_bytes()

    async def endpoint(_request: Request) -> Response:
        return Response(content, media_type=TYPES[name.rpartition(".")[2]])

    return endpoint


async def said(_request: Request, problem: Exception) -> Response:
    """A problem in words, where a file was asked for."""
    assert isinstance(problem, FidpathError)
    return JSONResponse({"problem": words_of(problem)}, 422)


def words_of(problem: FidpathError) -> str:
    """A problem's words as sentences, with the place in a file where it has one."""
    place = f"Line {problem.line}: " if problem.line is not None else ""
    key = f"{problem.key}: " if problem.key and problem.key not in problem.what else ""
    words = f"{problem.what}. {problem.remedy}".rstrip(". ") + "."
    return f"{place}{key}{words if place or key else words[:1].upper() + words[1:]}"


async def table(request: Request) -> Mapping[str, Any]:
    """A request's body as a table."""
    try:
        body = json.loads(await request.body())
    except (ValueError, RecursionError):
        raise HTTPException(400, "JSON is required.") from None
    if not isinstance(body, dict):
        raise HTTPException(400, "A table is required.")
    return body


def texts_in(body: Mapping[str, Any], name: str = "texts") -> dict[str, str]:
    """Texts by field in a request's body."""
    texts = body.get(name)
    if not isinstance(texts, dict) or not all(isinstance(text, str) for text in texts.values()):
        raise HTTPException(400, "Texts by field are wanted.")
    return texts


def text_in(body: Mapping[str, Any], name: str, left_out: str | None = None) -> str:
    """One text in a request's body."""
    text = body.get(name, left_out)
    if not isinstance(text, str):
        raise HTTPException(400, f"The text {name} is wanted.")
    return text


def file(content: str | bytes, name: str, kind: str) -> Response:
    """A file that a browser saves under this name."""
    plain = name.encode("ascii", "replace").decode().replace("?", "-")
    return Response(content, media_type=kind, headers={"Content-Disposition": f'attachment; filename="{plain}"'})


def page_answer(text: str) -> Response:
    """A splice's page, under the content policy that it states itself."""
    own = PAGE_POLICY.search(text)
    policy = f"{own.group(1).rstrip('; ')}; {FRAMED}" if own else f"default-src 'none'; {FRAMED}"
    return Response(text, media_type="text/html", headers={"Content-Security-Policy": policy})
