"""What is put together once every piece of work is there: the page, the contact sheet, the plan's and check's texts."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path
from typing import Any

from fidpath.building.worker import WHOLE, file_name
from fidpath.methods.method import Method, worded
from fidpath.outputs import handout, page
from fidpath.outputs.pictures.contact_sheet import Entry, contact_sheet, thumbnail
from fidpath.planning import sheet
from fidpath.planning.plan import Plan

Data = Mapping[str, Mapping[str, Any]]


@dataclass(frozen=True)
class Small:
    """How a build's pictures become small ones, each only once in each size."""

    thumbnail: Callable[[bytes], Any] = field(default_factory=lambda: cache(thumbnail))
    link: page.Link = field(default_factory=page.linker)
    hands: int = 2


def without_time(report: Mapping[str, Any]) -> dict[str, Any]:
    """A report without its run time, so that the same job gives the same bytes."""
    return {key: value for key, value in report.items() if key != "settle_seconds"}


def texts(plan: Plan, way: Method | None, data: Data) -> dict[str, bytes]:
    """plan.json, and verify.json with the check's report on every state. data: by the names of the pieces."""
    report = {"name": plan.job.name, "finished": data["finished"]["report"]}
    if way is not None:
        report["steps"] = [
            {"name": step.state, **data[f"state-{file_name(way, k)}"]["report"]} for k, step in enumerate(way.steps)
        ]
        report["wrong_ways"] = [
            {"name": wrong.name, **data[f"mistake-{wrong.name}"]["report"]} for wrong in way.wrong_ways
        ]
    found = json.dumps(report, indent=2, ensure_ascii=False) + "\n"
    return {"plan.json": sheet.as_json(plan).encode("utf-8"), "verify.json": found.encode("utf-8")}


def ahead(plan: Plan, way: Method, out: Path, data: Data, small: Small) -> None:
    """Makes small the pictures of those pieces that are there, so that the page and the sheet find them ready.

    On one processor, since the crew is at work on the others.
    """
    for k in range(len(way.steps)):
        name = file_name(way, k)
        if f"step-{name}" in data:
            small.thumbnail(_step_picture(out, name))
    whole_page(plan, way, out, data, replace(small, hands=1))


def steps_sheet(plan: Plan, way: Method, out: Path, small: Small) -> bytes:
    """All steps' pictures on one sheet, as PNG."""
    entries = []
    for k, step in enumerate(way.steps):
        picture = small.thumbnail(_step_picture(out, file_name(way, k)))
        entries.append(Entry(way.numbered(k), worded(step, plan).caption, picture))
    return contact_sheet(f"{plan.job.name}: {way.title}", entries)


def _step_picture(out: Path, name: str) -> bytes:
    return (out / "steps" / f"{name}.png").read_bytes()


def handouts(plan: Plan, way: Method, data: Data) -> dict[str, bytes]:
    """The printed handout on A4 and on letter paper."""
    figures = {"finished": data[WHOLE]["figure"]}
    figures |= {handout.step_key(way, k): data[f"step-{file_name(way, k)}"]["figure"] for k in range(len(way.steps))}
    figures |= {handout.wrong_key(wrong): data[f"wrong-{wrong.name}"]["figure"] for wrong in way.wrong_ways}
    drawn = {name: figure.encode("utf-8") for name, figure in figures.items()}
    return {f"handout-{paper}.pdf": handout.handout(plan, way, drawn, paper) for paper in handout.PAPERS}


def whole_page(plan: Plan, way: Method, out: Path, data: Data, small: Small) -> bytes:
    """The shareable page of a method's steps and mistakes, as many of them as there are."""
    states: dict[str, Any] = {}
    steps, wrong, pictures, aim = {}, {}, {}, {}
    for k, step in enumerate(way.steps):
        name = file_name(way, k)
        state, drawn = data.get(f"state-{name}"), data.get(f"step-{name}")
        if state is not None:
            states |= state["state"]
            aim = state["aim"]
        if drawn is not None:
            steps[step.state] = drawn["shown"]
            pictures[step.state] = _step_picture(out, name)
    for mistake in way.wrong_ways:
        state, drawn = data.get(f"mistake-{mistake.name}"), data.get(f"wrong-{mistake.name}")
        if state is not None:
            states = state["state"] | states
        if drawn is not None:
            wrong[mistake.name] = drawn["shown"]
            pictures[mistake.name] = (out / "wrong" / f"{mistake.name}.png").read_bytes()
    parts = page.Parts(states, steps, wrong, aim)
    return page.page_of(plan, way, parts, pictures, small.link, small.hands).encode("utf-8")
