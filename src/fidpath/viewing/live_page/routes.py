"""What the live page's server answers: the page, its data, news of the settling, changes, and files to take away."""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator, Awaitable, Callable, Sequence
from dataclasses import asdict, dataclass, field
from itertools import pairwise
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response, StreamingResponse
from starlette.routing import BaseRoute, Mount, Route
from starlette.types import ASGIApp

from fidpath.errors import FidpathError
from fidpath.machine import files as output
from fidpath.outputs import page
from fidpath.planning import Plan, sheet
from fidpath.viewing.live_page import downloads, saving
from fidpath.viewing.live_page.fields import described, fields
from fidpath.viewing.live_page.form import Refused
from fidpath.viewing.live_page.lengths import switched
from fidpath.viewing.live_page.page_pictures import page_pictures
from fidpath.viewing.live_page.session import Session, Shown
from fidpath.viewing.results import Builds, Phone, Results, results_routes
from fidpath.viewing.serving import (
    Address,
    Endpoint,
    Guard,
    asset,
    file,
    page_answer,
    said,
    table,
    text_in,
    texts_in,
    words_of,
)

OWN, SHARED = "fidpath.viewing.live_page", "fidpath.viewing.serving"
ASSETS = {
    "": (OWN, "live.html"),
    "live.css": (OWN, "live.css"),
    "live.js": (OWN, "bundle.js"),
    "base.css": (SHARED, "base.css"),
}

MOST_STREAMS = 8
"""Browser windows that are told the news at a time."""

PAUSE, QUIET = 0.1, 100
"""Seconds between two looks for news, and looks without any after which a line is sent to see who still listens."""


@dataclass
class Served:
    """One job's session, what it may write into, whether its server is closing, and where it was opened from.

    `home`: the address of the page that lists the jobs, as this page's links have it; "" where there is none.
    """

    session: Session
    folder: Path
    closing: Callable[[], bool]
    builds: Builds
    phone: Phone
    home: str = ""
    streams: int = 0
    heavy: asyncio.Lock = field(default_factory=asyncio.Lock)

    def job(self) -> tuple[str, str, str]:
        """The text of the job as it stands, the name messages give its file, and its own name."""
        form = self.session.form
        return form.text, form.job.source, form.job.name

    def busy(self) -> bool:
        """Whether something is built, or shown to a phone."""
        return self.builds.building or self.phone.sharing is not None

    def close(self) -> None:
        """Stops what is under way."""
        self.builds.stop()
        self.phone.stop()
        self.session.close()


def app_of(served: Served, address: Address) -> ASGIApp:
    """The application behind its guard."""
    handlers = {FidpathError: said}
    return Guard(
        Starlette(routes=[Mount(f"/{address.token}", routes=routes_of(served))], exception_handlers=handlers), address
    )


def routes_of(served: Served) -> Sequence[BaseRoute]:
    """All that is answered for one job, below whatever address it stands at."""
    answers: dict[str, tuple[Callable[[Served, Request], Awaitable[Response]], str]] = {
        "/state": (_state, "GET"),
        "/news": (_news, "GET"),
        "/data": (_data, "GET"),
        "/splice.html": (_page, "GET"),
        "/job": (_change, "POST"),
        "/units": (_units, "POST"),
        "/look": (_look, "POST"),
        "/save": (_save, "POST"),
        "/take/{what}": (_take, "GET"),
    }
    routes: list[BaseRoute] = [Route(f"/{path}", asset(*found), methods=["GET"]) for path, found in ASSETS.items()]
    routes += results_routes(Results(served.job, served.builds, served.phone))
    return routes + [Route(path, _with(served, answer), methods=[way]) for path, (answer, way) in answers.items()]


def _with(served: Served, answer: Callable[[Served, Request], Awaitable[Response]]) -> Endpoint:
    async def endpoint(request: Request) -> Response:
        return await answer(served, request)

    return endpoint


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
        "pictures": downloads.pictures_of(shown) if shown is not None else [],
        "folder": str(served.folder),
        "suggested": saving.suggested(served.folder, form.job.source),
        "home": served.home,
        "file": Path(form.job.source).name,
    }


def plan_data(plan: Plan) -> dict[str, Any]:
    """The plan's numbers as they are read at the bench, its warnings and the cautions."""
    data = {**sheet.figures_as_data(plan), **sheet.notices_as_data(plan)}
    groups = {
        group: [{key: entry[key] for key in ("name", "label", "shown", "measured_from")} for entry in data[group]]
        for group in ("marks", "lengths", "figures")
    }
    said = [f"{warning['text']} ({warning['source']})" for warning in data["warnings"]]
    return {**groups, "warnings": said, "cautions": data["cautions"]}


async def _change(served: Served, request: Request) -> Response:
    """Texts of the fields: the plan that comes of them, or what is wrong, field by field; and what should follow."""
    body = await table(request)
    return JSONResponse(await run_in_threadpool(_changed, served, texts_in(body), body.get("agreed") is True))


def _changed(served: Served, texts: dict[str, str], agreed: bool) -> dict[str, Any]:
    outcome = served.session.change(texts, agreed)
    follows = {"follows": [asdict(one) for one in served.session.follows(texts)]}
    if isinstance(outcome, Refused):
        return {"errors": dict(outcome.errors), "general": outcome.general, **follows}
    return {
        "texts": outcome.texts,
        "fields": described(outcome.job),
        "name": outcome.job.name,
        "plan": plan_data(outcome.plan),
        "change": served.session.news.change,
        **follows,
    }


async def _units(_served: Served, request: Request) -> Response:
    """Texts of the fields with every length in the other system: nothing is changed by asking."""
    body = await table(request)
    system = text_in(body, "to")
    if system not in ("mm", "in"):
        raise HTTPException(400, "Millimetres or inches.")
    return JSONResponse({"texts": switched(fields(), texts_in(body), system)})  # type: ignore[arg-type]


async def _look(served: Served, request: Request) -> Response:
    """Says what a person looks at, by its entry in the splice's page."""
    served.session.look(kinds_of(served.session, text_in(await table(request), "key")))
    return JSONResponse({})


def kinds_of(session: Session, key: str) -> tuple[str, ...]:
    """The states that an entry of the splice's page needs, the aim where there is no such entry.

    A step's picture also says what has changed since the step before; a mistake stands beside the right way.
    """
    method = session.method
    before = {step.state: (last.state,) for last, step in pairwise(method.steps)}
    steps = {
        f"step-{method.numbered(i)}": (step.state, *before.get(step.state, ())) for i, step in enumerate(method.steps)
    }
    wrong = {f"wrong-{way.name}": (way.name, way.beside, *before.get(way.beside, ())) for way in method.mistakes}
    return (steps | wrong).get(key, (method.finished,))


async def _save(served: Served, request: Request) -> Response:
    """Saves the job as it stands into the chosen folder, once its names say what its rope is."""
    body = await table(request)
    name, replace, agreed = text_in(body, "name"), body.get("replace") is True, body.get("agreed") is True

    def saved() -> dict[str, Any]:
        """The file, or what has to be answered first."""
        lying = [] if agreed else served.session.lying_names()
        if lying:
            return {"follows": [asdict(one) for one in lying]}
        try:
            return {"saved": str(saving.save(served.folder, name, served.session.form.text, replace=replace))}
        except FidpathError as problem:
            return {"problem": words_of(problem)}

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
    """The data of the newest picture, for the splice's page to load."""
    shown = _settled(served)
    return Response(await run_in_threadpool(lambda: shown.data), media_type="application/json")


async def _page(served: Served, _request: Request) -> Response:
    """The whole page of the newest picture, under the content policy it states itself."""
    shown = _settled(served)
    text = await run_in_threadpool(page.page_of, shown.plan, shown.method, shown.parts)
    return page_answer(text)


async def _take(served: Served, request: Request) -> Response:
    """A file to take away: the page, the job file, the plan, a picture or a solid."""
    what, form = request.path_params["what"], served.session.form
    named = output.folder_name(form.job.name)
    if what == "job.toml":
        return file(form.text, f"{named}.toml", "application/toml")
    if what == "plan.json":
        return file(sheet.as_json(sheet.as_data(form.plan)), f"{named}-plan.json", "application/json")
    return await _heavy(served, what, _settled(served))


async def _heavy(served: Served, what: str, shown: Shown) -> Response:
    """A file that takes seconds, of the splice in the picture and by its job's name; one is made at a time."""
    stem, _, suffix = what.rpartition(".")
    named = output.folder_name(shown.plan.job.name)
    async with served.heavy:
        if what == "splice.html":
            links = await run_in_threadpool(page_pictures, shown, served.closing)
            text = await run_in_threadpool(page.page_of, shown.plan, shown.method, shown.fresh, links)
            return file(text, f"{named}.html", "text/html")
        if suffix == "png":
            content = await run_in_threadpool(downloads.picture, shown, stem, served.closing)
            return file(content, f"{named}-{stem}.png", "image/png")
        if what in ("splice.stl", "splice.glb"):
            content = await run_in_threadpool(downloads.solid, shown, suffix)
            if suffix == "stl":
                return file(content, f"{named}-mm.stl", "model/stl")
            return file(content, f"{named}.glb", "model/gltf-binary")
    raise HTTPException(404, "There is no such file here.")
