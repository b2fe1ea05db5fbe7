"""What the live page's server answers: the page, its data, news of the settling, changes, and files to take away."""

from __future__ import annotations

import asyncio
import json
import re
from collections.abc import AsyncIterator, Awaitable, Callable, Mapping
from dataclasses import asdict, dataclass, field
from importlib import resources
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response, StreamingResponse
from starlette.routing import Mount, Route
from starlette.types import ASGIApp

from fidpath.errors import FidpathError
from fidpath.machine import files as output
from fidpath.methods import Method
from fidpath.planning import Plan, sheet
from fidpath.viewing.live_page import downloads, saving
from fidpath.viewing.live_page.fields import described
from fidpath.viewing.live_page.form import Form, Refused
from fidpath.viewing.live_page.guard import Address, Guard
from fidpath.viewing.live_page.session import Session, Shown

ASSETS = {"": "live.html", "live.css": "live.css", "live.js": "bundle.js"}
TYPES = {"html": "text/html", "css": "text/css", "js": "text/javascript"}

MOST_STREAMS = 8
"""Browser windows that are told the news at a time."""

PAUSE, QUIET = 0.1, 100
"""Seconds between two looks for news, and looks without any after which a line is sent to see who still listens."""

PAGE_POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]+)">')

FRAMED = "frame-ancestors 'self'"
"""The splice's page may stand in a frame of the live page, and in no other."""


@dataclass
class Served:
    """One server's session, what it may write into, how it makes the whole page, and whether it is closing."""

    session: Session
    method: Method
    folder: Path
    page: Callable[[Shown], str]
    closing: Callable[[], bool]
    streams: int = 0
    heavy: asyncio.Lock = field(default_factory=asyncio.Lock)


def app_of(served: Served, address: Address) -> ASGIApp:
    """The application behind its guard."""
    answers: dict[str, tuple[Callable[[Served, Request], Awaitable[Response]], str]] = {
        "/state": (_state, "GET"),
        "/news": (_news, "GET"),
        "/data": (_data, "GET"),
        "/splice.html": (_page, "GET"),
        "/job": (_change, "POST"),
        "/save": (_save, "POST"),
        "/take/{what}": (_take, "GET"),
    }
    routes = [Route(f"/{path}", _asset(name), methods=["GET"]) for path, name in ASSETS.items()]
    routes += [Route(path, _with(served, answer), methods=[method]) for path, (answer, method) in answers.items()]
    inner = Starlette(routes=[Mount(f"/{address.token}", routes=routes)], exception_handlers={FidpathError: _said})
    return Guard(inner, address)


def _with(
    served: Served, answer: Callable[[Served, Request], Awaitable[Response]]
) -> Callable[[Request], Awaitable[Response]]:
    async def endpoint(request: Request) -> Response:
        return await answer(served, request)

    return endpoint


def _asset(name: str) -> Callable[[Request], Awaitable[Response]]:
    content = resources.files("fidpath.viewing.live_page").joinpath("assets", name).read_bytes()

    async def endpoint(_request: Request) -> Response:
        return Response(content, media_type=TYPES[name.rpartition(".")[2]])

    return endpoint


async def _said(_request: Request, problem: Exception) -> Response:
    """A problem in words, where a file was asked for."""
    assert isinstance(problem, FidpathError)
    return JSONResponse({"problem": _words(problem)}, 422)


def _words(problem: FidpathError) -> str:
    words = f"{problem.what}. {problem.remedy}".rstrip(". ") + "."
    return words[:1].upper() + words[1:]


async def _state(served: Served, _request: Request) -> Response:
    """Everything an opening window needs besides the picture."""
    return JSONResponse(await run_in_threadpool(_state_data, served))


def _state_data(served: Served) -> dict[str, Any]:
    form, shown = served.session.form, served.session.shown
    return {
        "name": form.job.name,
        "fields": described(form.job),
        "texts": form.texts,
        "plan": plan_data(form.plan),
        "news": asdict(served.session.news),
        "pictures": downloads.pictures_of(shown, served.method) if shown is not None else [],
        "folder": str(served.folder),
        "suggested": saving.suggested(served.folder, form.job.source),
    }


def plan_data(plan: Plan) -> dict[str, Any]:
    """The plan's numbers as they are read at the bench, its warnings and the cautions."""
    data = sheet.as_data(plan)
    groups = {
        group: [{key: entry[key] for key in ("name", "label", "shown", "measured_from")} for entry in data[group]]
        for group in ("marks", "lengths", "figures")
    }
    said = [f"{warning['text']} ({warning['source']})" for warning in data["warnings"]]
    return {**groups, "warnings": said, "cautions": data["cautions"]}


async def _change(served: Served, request: Request) -> Response:
    """Texts of the fields: the plan that comes of them, or what is wrong, field by field."""
    texts = _texts(await _json(request))
    outcome = await run_in_threadpool(served.session.change, texts)
    if isinstance(outcome, Refused):
        return JSONResponse({"errors": dict(outcome.errors), "general": outcome.general})
    return JSONResponse(await run_in_threadpool(_changed, served, outcome))


def _changed(served: Served, form: Form) -> dict[str, Any]:
    return {
        "texts": form.texts,
        "fields": described(form.job),
        "plan": plan_data(form.plan),
        "change": served.session.news.change,
    }


def _texts(body: Mapping[str, Any]) -> dict[str, str]:
    """The fields' texts in a request's body."""
    texts = body.get("texts")
    if not isinstance(texts, dict) or not all(isinstance(text, str) for text in texts.values()):
        raise HTTPException(400, "Texts by field are wanted.")
    return texts


async def _json(request: Request) -> Mapping[str, Any]:
    """A request's body as a table."""
    try:
        body = json.loads(await request.body())
    except (ValueError, RecursionError):
        raise HTTPException(400, "JSON is required.") from None
    if not isinstance(body, dict):
        raise HTTPException(400, "A table is required.")
    return body


async def _save(served: Served, request: Request) -> Response:
    """Saves the job as it stands into the chosen folder."""
    body = await _json(request)
    name, replace = body.get("name"), body.get("replace") is True
    if not isinstance(name, str):
        raise HTTPException(400, "A name is required.")

    def saved() -> dict[str, str]:
        try:
            return {"saved": str(saving.save(served.folder, name, served.session.form.text, replace=replace))}
        except FidpathError as problem:
            return {"problem": _words(problem)}

    return JSONResponse(await run_in_threadpool(saved))


async def _news(served: Served, _request: Request) -> Response:
    """News of the settling as it comes, until the window closes or the server ends (server-sent events)."""
    if served.streams >= MOST_STREAMS:
        return PlainTextResponse("Too many windows show this job: close one.", 503)
    return StreamingResponse(_lines(served), media_type="text/event-stream")


async def _lines(served: Served) -> AsyncIterator[str]:
    last, quiet = -1, 0
    served.streams += 1
    try:
        while not served.closing():
            news = served.session.news
            quiet = 0 if news.number != last else quiet + 1
            if news.number != last:
                yield f"data: {json.dumps(asdict(news))}\n\n"
            elif quiet % QUIET == 0:
                yield ": still here\n\n"
            last = news.number
            await asyncio.sleep(PAUSE)
    finally:
        served.streams -= 1


def _settled(served: Served) -> Shown:
    shown = served.session.shown
    if shown is None:
        raise HTTPException(404, "Nothing has settled yet.")
    return shown


async def _data(served: Served, _request: Request) -> Response:
    """The data of the last good picture, for the splice's page to load."""
    return Response(_settled(served).data, media_type="application/json")


async def _page(served: Served, _request: Request) -> Response:
    """The whole page of the last good picture, under the content policy it states itself."""
    text = await run_in_threadpool(served.page, _settled(served))
    own = PAGE_POLICY.search(text)
    policy = f"{own.group(1).rstrip('; ')}; {FRAMED}" if own else f"default-src 'none'; {FRAMED}"
    return Response(text, media_type="text/html", headers={"Content-Security-Policy": policy})


async def _take(served: Served, request: Request) -> Response:
    """A file to take away: the page, the job file, the plan, a picture or a solid."""
    what = request.path_params["what"]
    named = output.folder_name(served.session.form.job.name)
    if what == "job.toml":
        return _file(served.session.form.text, f"{named}.toml", "application/toml")
    if what == "plan.json":
        return _file(sheet.as_json(sheet.as_data(served.session.form.plan)), f"{named}-plan.json", "application/json")
    return await _heavy(served, what, named, _settled(served))


async def _heavy(served: Served, what: str, named: str, shown: Shown) -> Response:
    """A file that takes seconds; one is made at a time."""
    stem, _, suffix = what.rpartition(".")
    async with served.heavy:
        if what == "splice.html":
            return _file(await run_in_threadpool(served.page, shown), f"{named}.html", "text/html")
        if suffix == "png":
            content = await run_in_threadpool(downloads.picture, shown, served.method, stem, served.closing)
            return _file(content, f"{named}-{stem}.png", "image/png")
        if what in ("splice.stl", "splice.glb"):
            content = await run_in_threadpool(downloads.solid, shown, served.method, suffix)
            return _file(
                content,
                f"{named}-mm.stl" if suffix == "stl" else f"{named}.glb",
                "model/stl" if suffix == "stl" else "model/gltf-binary",
            )
    raise HTTPException(404, "There is no such file here.")


def _file(content: str | bytes, name: str, kind: str) -> Response:
    """A file that a browser saves under this name."""
    plain = name.encode("ascii", "replace").decode().replace("?", "-")
    return Response(content, media_type=kind, headers={"Content-Disposition": f'attachment; filename="{plain}"'})
