"""One self-contained page: markup, style and script of our own, and the data of one splice as JSON beside them.

The data are one block of their own, so that a page can be given others while it is open (`fidpathLoad` in start.js).
Nothing is fetched: a content policy of hashes allows this page's own script and style and no connection at all.
"""

from __future__ import annotations

import base64
import hashlib
import json
import zlib
from collections.abc import Mapping, Sequence
from functools import lru_cache
from html import escape
from importlib import resources
from typing import Any

import numpy as np

from fidpath.bodies import terminator_mesh
from fidpath.method import Method
from fidpath.page.images import as_links
from fidpath.page.plain import plain_html
from fidpath.page.practice import questions
from fidpath.page.record import bodies_record, law
from fidpath.page.words import home_views, state_records, step_records, tables, wrong_records
from fidpath.plan import Plan
from fidpath.scene import PALETTE, Solid
from fidpath.step_words import CAUTION
from fidpath.steps import Made
from fidpath.units import is_imperial

SCHEMA = 1

BOUND = 1_200_000
"""Characters that a whole page may have."""

GEOMETRY = ("decode", "sections", "clip", "bodies", "tubes", "make")
"""Scripts that make tubes of centre lines: in the page, and in its worker."""

SCRIPT = (
    "vectors", "dom", "gpu", "shaders", "ropes", "painter", "camera", "pick", "store", "stage", "draw", "labels",
    "measure", "entries", "wordview", "look", "hands", "practice", "frame", "handles", "start",
)  # fmt: skip
"""Scripts of the page itself, in their order."""

LINE = (28, 26, 30)
"""Colour of the fine lines between strands, as in the pictures."""


def splice_page(plan: Plan, made: Sequence[Made], method: Method, pictures: Mapping[str, bytes] | None = None) -> str:
    """The whole page as HTML text, the same for the same job.

    made: settled states of the method's steps and mistakes, as many as there are; pictures: PNG by state, shown where
    a browser can't draw the model.
    """
    data = page_record(plan, made, method)
    text = as_text(data)
    room = BOUND - len(text) - len(_filled(data, text, ""))
    links = as_links(pictures or {}, max(room, 0))
    return _filled(data, text, plain_html(data, links))


def page_data(plan: Plan, made: Sequence[Made], method: Method) -> str:
    """The data alone, as JSON text: what an open page can be given instead of its own."""
    return as_text(page_record(plan, made, method))


def as_text(data: Mapping[str, Any]) -> str:
    """Data as JSON that can stand in a page: ASCII, without any `<`."""
    text = json.dumps(data, separators=(",", ":"), ensure_ascii=True, allow_nan=False)
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")


def page_record(plan: Plan, made: Sequence[Made], method: Method) -> dict[str, Any]:
    """All that a page shows of a splice, as plain data."""
    by_kind = {found.kind: found for found in made}
    shown = {step.state for step in method.steps} | {way.name for way in method.wrong_ways}
    shown |= {way.beside for way in method.wrong_ways}
    kept = {kind: found for kind, found in by_kind.items() if kind in shown}
    there = [step.state for step in method.steps if step.state in kept]
    aim = there[-1] if there else method.steps[-1].state
    return {
        "page": SCHEMA,
        "name": plan.job.name,
        "method": method.name,
        "title": method.title,
        "summary": method.summary,
        "unit": "in" if is_imperial(plan.job.length_unit) else "mm",
        "diameter": plan.braid.diameter,
        "caution": CAUTION,
        "law": law(),
        "palette": _palette(),
        "aim": aim,
        "home": {"views": home_views(kept[aim], plan)} if there else {},
        "cutPlace": _cut_place(kept[aim], plan) if there else 0.5,
        "steps": step_records(plan, kept, method),
        "wrong": wrong_records(plan, kept, method),
        "practice": questions(plan, method, kept),
        "terminator": bodies_record(
            [Solid("terminator", terminator_mesh(plan.job.terminator), PALETTE.metal, gloss=0.06)]
        ),
        "tables": tables(plan),
        "states": state_records(kept),
    }


def _palette() -> dict[str, Any]:
    return {
        "groups": [PALETTE.top_group, PALETTE.bottom_group],
        "dot": PALETTE.dotted_face,
        "plainFace": PALETTE.plain_face,
        "ink": PALETTE.ink,
        "line": LINE,
    }


def _cut_place(made: Made, plan: Plan) -> float:
    """Where a cut across shows most, as a share of the model's columns: in the bury, a little below the entry."""
    station = made.settled.strands.station
    wanted = plan.station_entry_host - 4 * plan.braid.diameter
    return round(float(np.interp(wanted, station, np.linspace(0, 1, len(station)))), 3)


def _filled(data: Mapping[str, Any], text: str, plain: str) -> str:
    """The template with everything in it."""
    parts = _assets()
    policy = (
        f"default-src 'none'; script-src {_hash(parts['geometry'])} {_hash(parts['script'])}; worker-src blob:; "
        f"style-src {_hash(parts['style'])} {_hash(parts['last'])}; img-src data:; base-uri 'none'; form-action 'none'"
    )
    return _put(
        parts["page"],
        {
            "policy": policy,
            "title": escape(f"{data['name']}: {data['title']}"),
            "job": escape(data["name"]),
            "method": escape(data["title"]),
            "style": parts["style"],
            "last": parts["last"],
            "geometry": parts["geometry"],
            "script": parts["script"],
            "length": str(len(text)),
            "crc": str(zlib.crc32(text.encode("ascii"))),
            "data": text,
            "plain": plain,
        },
    )


def _put(template: str, values: Mapping[str, str]) -> str:
    """A template with its `@@name@@` places filled, each once; what is put in is not looked at again."""
    pieces = template.split("@@")
    return "".join(piece if i % 2 == 0 else values[piece] for i, piece in enumerate(pieces))


def _hash(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode('utf-8')).digest()).decode('ascii')}'"


@lru_cache(maxsize=1)
def _assets() -> Mapping[str, str]:
    """Template, styles and scripts of the page."""
    return {
        "page": _asset("page.html"),
        "style": _asset("page.css"),
        "last": _asset("last.css"),
        "geometry": '"use strict";\n' + "\n".join(_asset(f"{name}.js") for name in GEOMETRY),
        "script": '"use strict";\n(() => {\n' + "\n".join(_asset(f"{name}.js") for name in SCRIPT) + "\n})();\n",
    }


def _asset(name: str) -> str:
    return resources.files("fidpath.page").joinpath("assets", name).read_text(encoding="utf-8")
