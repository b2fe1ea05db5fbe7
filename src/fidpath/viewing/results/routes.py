"""What is answered about a job's results: the build, its progress, the list of files, each file, and the phone."""

from __future__ import annotations

import mimetypes
from collections.abc import Awaitable, Callable, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import BaseRoute, Route

from fidpath.machine import folder_name
from fidpath.viewing.results.builds import MORE, Builds
from fidpath.viewing.results.listing import listing, result_file
from fidpath.viewing.results.phone import Phone, code_svg
from fidpath.viewing.serving import Endpoint, page_answer, table

SHOWN = {"pdf", "png", "svg", "webp", "txt", "json"}
"""Kinds of files that a browser shows; it saves all others."""

DRAWING = "default-src 'none'; style-src 'unsafe-inline'; sandbox"
PAPER = "default-src 'none'; object-src 'self'; style-src 'unsafe-inline'"
"""Content policies of drawings and of PDF files, which a browser shows by a plugin of its own."""


@dataclass(frozen=True)
class Results:
    """Whose results are spoken of: `job` gives the text of its file, the name messages give that, and its own name."""

    job: Callable[[], tuple[str, str, str]]
    builds: Builds
    phone: Phone

    @property
    def folder(self) -> Path:
        """The folder of the job's results."""
        return self.builds.folder(self.job()[2])


def results_routes(results: Results) -> Sequence[BaseRoute]:
    """All that is answered for one job's results."""
    answers: tuple[tuple[str, Callable[[Results, Request], Awaitable[Response]], str], ...] = (
        ("/build", _news, "GET"),
        ("/build", _build, "POST"),
        ("/build/stop", _stop, "POST"),
        ("/results", _listed, "GET"),
        ("/results/{path:path}", _file, "GET"),
        ("/phone", _phone, "POST"),
        ("/phone.svg", _code, "GET"),
    )
    return [Route(path, _with(results, answer), methods=[way]) for path, answer, way in answers]


def _with(results: Results, answer: Callable[[Results, Request], Awaitable[Response]]) -> Endpoint:
    async def endpoint(request: Request) -> Response:
        return await answer(results, request)

    return endpoint


async def _news(results: Results, _request: Request) -> Response:
    """How far the build is, and what a phone is shown."""
    sharing = results.phone.sharing
    return JSONResponse({**asdict(results.builds.news), "phone": None if sharing is None else asdict(sharing)})


async def _build(results: Results, request: Request) -> Response:
    """Begins to build everything of the job as it stands."""
    wanted = await table(request)
    more = [option for option in MORE if wanted.get(option) is True]
    text, source, name = results.job()
    await run_in_threadpool(results.builds.start, text, source, name, more)
    return await _news(results, request)


async def _stop(results: Results, request: Request) -> Response:
    await run_in_threadpool(results.builds.stop)
    return await _news(results, request)


async def _listed(results: Results, _request: Request) -> Response:
    """The files that are there, in groups."""

    def found() -> dict[str, Any]:
        groups = [{"title": title, "files": [asdict(one) for one in files]} for title, files in listing(results.folder)]
        return {"folder": str(results.folder), "groups": groups}

    return JSONResponse(await run_in_threadpool(found))


async def _file(results: Results, request: Request) -> Response:
    """One of those files: pages, pictures and papers to look at, all others to save, by the job's own name."""
    name = request.path_params["path"]
    path = await run_in_threadpool(result_file, results.folder, name)
    if path is None:
        raise HTTPException(404, "There is no such result here.")
    suffix = path.suffix.removeprefix(".")
    if suffix == "html":
        return page_answer(await run_in_threadpool(path.read_text, "utf-8"))
    kind = mimetypes.guess_type(path.name)[0] or "application/octet-stream"
    saved = f"{folder_name(results.job()[2])}-{path.name}".encode("ascii", "replace").decode().replace("?", "-")
    way = "inline" if suffix in SHOWN else "attachment"
    headers = {
        "Content-Disposition": f'{way}; filename="{saved}"',
        "Content-Security-Policy": PAPER if suffix == "pdf" else DRAWING,
    }
    return Response(await run_in_threadpool(path.read_bytes), media_type=kind, headers=headers)


async def _phone(results: Results, request: Request) -> Response:
    """Shows the built page to phones in the same network, or no more."""
    if (await table(request)).get("on") is True:
        await run_in_threadpool(results.phone.start, results.folder / "splice.html", results.job()[2])
    else:
        await run_in_threadpool(results.phone.stop)
    return await _news(results, request)


async def _code(results: Results, _request: Request) -> Response:
    """The address for the phone as a code that its camera reads."""
    sharing = results.phone.sharing
    if sharing is None:
        raise HTTPException(404, "Nothing is shown to a phone.")
    return Response(await run_in_threadpool(code_svg, sharing.url), media_type="image/svg+xml")
