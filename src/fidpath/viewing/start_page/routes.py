"""What the start page's server answers: the list of files, new ones, those opened, sheets of lines and sets."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import BaseRoute, Mount, Route
from starlette.types import ASGIApp

from fidpath.errors import FidpathError
from fidpath.viewing.serving import Address, Endpoint, Guard, Server, asset, said, table, text_in, texts_in, words_of
from fidpath.viewing.start_page.jobs import Jobs
from fidpath.viewing.start_page.reports import REPORTS, Given, made
from fidpath.viewing.start_page.workshop import Workshop, digest

if TYPE_CHECKING:
    from fidpath.viewing.start_page.examples import Example

OWN, SHARED = "fidpath.viewing.start_page", "fidpath.viewing.serving"
ASSETS = {
    "": (OWN, "start.html"),
    "start.css": (OWN, "start.css"),
    "start.js": (OWN, "bundle.js"),
    "base.css": (SHARED, "base.css"),
}

TAKEN = "There is a job of this name already, and results go into a folder of that name. Give another name."

MOST_BODY = 4_000_000
"""Bytes of a request: a file of the folder and what its letters take in JSON."""


@dataclass(frozen=True)
class Started:
    """One start page: its folder, the jobs that are open, and its server."""

    workshop: Workshop
    jobs: Jobs
    server: Server


Answer = Callable[[Started, Request], Awaitable[Response]]


def app_of(started: Started, address: Address) -> ASGIApp:
    """The application behind its guard."""
    answers: tuple[tuple[str, Answer, str], ...] = (
        ("/home", _home, "GET"),
        ("/here", _here, "GET"),
        ("/questions/{system}", _questions, "GET"),
        ("/new", _new, "POST"),
        ("/open", _open, "POST"),
        ("/add", _add, "POST"),
        ("/example", _example, "POST"),
        ("/text/{file}", _text, "GET"),
        ("/text/{file}", _change, "POST"),
        ("/report", _report, "POST"),
        ("/end", _end, "POST"),
    )
    routes: list[BaseRoute] = [Route(f"/{path}", asset(*found), methods=["GET"]) for path, found in ASSETS.items()]
    routes += [Route(path, _with(started, answer), methods=[way]) for path, answer, way in answers]
    routes += [Mount("/job/{file}", app=started.jobs)]
    inner = Starlette(routes=[Mount(f"/{address.token}", routes=routes)], exception_handlers={FidpathError: said})
    return Guard(inner, address, MOST_BODY)


def _with(started: Started, answer: Answer) -> Endpoint:
    async def endpoint(request: Request) -> Response:
        return await answer(started, request)

    return endpoint


async def _home(started: Started, _request: Request) -> Response:
    """The folder and its files."""

    def found() -> dict[str, Any]:
        return {
            "folder": str(started.workshop.folder),
            "files": [asdict(one) for one in started.workshop.listed()],
            "examples": [{"key": key, "words": example.words} for key, example in _examples().items()],
        }

    return JSONResponse(await run_in_threadpool(found))


async def _here(_started: Started, _request: Request) -> Response:
    """Says that the server is there, and to the server that a page of it is open."""
    return JSONResponse({})


def _examples() -> Mapping[str, Example]:
    from fidpath.viewing.start_page.examples import EXAMPLES

    return EXAMPLES


async def _questions(_started: Started, request: Request) -> Response:
    """The questions for a new job, with an example in millimetres or in inches."""
    from fidpath.viewing.start_page.questions import questions

    system = request.path_params["system"]
    if system not in ("mm", "in"):
        raise HTTPException(404, "Millimetres or inches.")
    return JSONResponse(await run_in_threadpool(questions, system))


async def _new(started: Started, request: Request) -> Response:
    """A new job from the answers: its file and where it is opened, or what is wrong, field by field."""
    from fidpath.viewing.live_page import Refused
    from fidpath.viewing.start_page.questions import answered, file_name

    body = await table(request)
    system, texts = text_in(body, "system", "mm"), texts_in(body)

    def new() -> dict[str, Any]:
        outcome = answered(system, texts)
        if isinstance(outcome, Refused):
            return {"errors": dict(outcome.errors), "general": outcome.general}
        if outcome.job.name in {one.title for one in started.workshop.listed() if one.kind == "job"}:
            return {"errors": {"name": TAKEN}, "general": ""}
        return _opened(started, started.workshop.add(file_name(outcome.job.name), outcome.text))

    return JSONResponse(await run_in_threadpool(new))


async def _open(started: Started, request: Request) -> Response:
    """Opens a job of the folder."""
    name = text_in(await table(request), "file")
    return JSONResponse(await run_in_threadpool(_opened, started, name))


def _opened(started: Started, name: str) -> dict[str, Any]:
    started.jobs.open(started.workshop.path(name))
    started.workshop.note_opened(name)
    return {"file": name, "url": f"job/{quote(name)}/"}


async def _add(started: Started, request: Request) -> Response:
    """A copy of a file that a person has chosen, in the folder; nothing there is written over."""
    body = await table(request)
    name, text = text_in(body, "name"), text_in(body, "text")
    return JSONResponse({"file": await run_in_threadpool(started.workshop.add, name, text)})


async def _example(started: Started, request: Request) -> Response:
    """A file to begin with, of the kind asked for."""
    example = _examples().get(text_in(await table(request), "key"))
    if example is None:
        raise HTTPException(404, "There is no such example.")
    return JSONResponse({"file": await run_in_threadpool(started.workshop.add, example.file, example.text)})


async def _text(started: Started, request: Request) -> Response:
    """What a file says, to be edited."""
    name = request.path_params["file"]
    text = await run_in_threadpool(started.workshop.text, name)
    return JSONResponse({"file": name, "text": text, "digest": digest(text)})


async def _change(started: Started, request: Request) -> Response:
    """A file as a person has edited it; written where it is still what they were shown, and read as a check."""
    name, body = request.path_params["file"], await table(request)
    text, was = text_in(body, "text"), text_in(body, "digest")

    def change() -> dict[str, Any]:
        from fidpath.viewing.start_page.reading import problem_in

        started.workshop.change(name, text, was)
        return {"digest": digest(text), "problem": problem_in(started.workshop.path(name))}

    return JSONResponse(await run_in_threadpool(change))


async def _report(started: Started, request: Request) -> Response:
    """A sheet of a line, a set, a calibration or a comparison, of files in the folder."""
    body = await table(request)
    kind, chosen = text_in(body, "kind"), texts_in(body, "files")
    if kind not in REPORTS:
        raise HTTPException(404, "There is no such sheet.")

    def report() -> dict[str, Any]:
        try:
            found = made(kind, Given({part: started.workshop.path(name) for part, name in chosen.items() if name}))
        except FidpathError as problem:
            place = f"{problem.file}: " if problem.file else ""
            return {"problem": place + words_of(problem)}
        return {"text": found.text, "files": dict(found.files), "name": found.name}

    return JSONResponse(await run_in_threadpool(report))


async def _end(started: Started, _request: Request) -> Response:
    """Ends fidpath once this is answered."""
    started.server.end_by_button()
    return JSONResponse({})
