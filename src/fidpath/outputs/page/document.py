"""One self-contained page: markup, style and script of our own, and the data of one splice as JSON beside them.

The data are one block of their own, so that a page can be given others while it is open (`fidpathLoad`).
Nothing is fetched: a content policy of hashes allows this page's own script and style and no connection at all.
"""

from __future__ import annotations

import base64
import hashlib
import json
import zlib
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from html import escape
from importlib import resources
from typing import Any

from fidpath.cautions import BESIDE_MISTAKES, BESIDE_PICTURES
from fidpath.geometry import Part
from fidpath.meshing import terminator_mesh
from fidpath.methods import Method
from fidpath.outputs.page.content import step_records, tables, wrong_records
from fidpath.outputs.page.exercises import questions
from fidpath.outputs.page.images import fitting, small
from fidpath.outputs.page.measuring import measuring_record
from fidpath.outputs.page.parts import Parts, parts_of
from fidpath.outputs.page.record import bodies_record, law
from fidpath.outputs.page.static import plain_html
from fidpath.planning import Plan
from fidpath.scene import Solid, colour_of
from fidpath.settling import SettledState
from fidpath.units import is_imperial

SCHEMA = 1

BOUND = 1_200_000
"""Characters that a whole page may have."""

SLACK = 20_000
"""Characters of that which are left free: for the marks round pictures, and for letters of more than one byte."""

NO_PICTURES: Mapping[str, str] = {}

LINE = (28, 26, 30)
"""Colour of the fine lines between strands, as in the pictures."""


def splice_page(
    plan: Plan,
    made: Sequence[SettledState],
    method: Method,
    pictures: Mapping[str, bytes] | None = None,
    notice: str = "",
) -> str:
    """The whole page as HTML text, the same for the same job.

    made: settled states of the method's steps and mistakes, as many as there are; pictures: PNG by state, shown where
    a browser can't draw the model; notice: said before the method's summary.
    """
    links = {state: small(picture) for state, picture in (pictures or {}).items()}
    told = replace(method, summary=f"{notice} {method.summary}".strip())
    return page_of(plan, told, parts_of(plan, made, method), links)


def page_of(plan: Plan, method: Method, parts: Parts, pictures: Mapping[str, str] = NO_PICTURES) -> str:
    """The whole page, put together. pictures: data links by state (`small`)."""
    data = page_record(plan, method, parts)
    text = as_text(data)
    bare = _filled(data, text, plain_html(data, {}))
    links = fitting(pictures, BOUND - SLACK - len(bare))
    return _filled(data, text, plain_html(data, links)) if links else bare


def page_data(plan: Plan, method: Method, parts: Parts) -> str:
    """The data alone, as JSON text: what an open page can be given instead of its own."""
    return as_text(page_record(plan, method, parts))


def as_text(data: Mapping[str, Any]) -> str:
    """Data as JSON that can stand in a page: ASCII, without any `<`."""
    text = json.dumps(data, separators=(",", ":"), ensure_ascii=True, allow_nan=False)
    return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")


def page_record(plan: Plan, method: Method, parts: Parts) -> dict[str, Any]:
    """All that a page shows of a splice, as plain data."""
    return {
        "page": SCHEMA,
        "name": plan.job.name,
        "method": method.name,
        "title": method.title,
        "summary": method.summary,
        "unit": "in" if is_imperial(plan.job.length_unit) else "mm",
        "diameter": plan.braid.diameter,
        "caution": BESIDE_PICTURES,
        "doubt": BESIDE_MISTAKES,
        "law": law(),
        "palette": _palette(),
        **({"aim": method.steps[-1].state, "home": {}, "cutPlace": 0.5} | dict(parts.aim)),
        "steps": step_records(plan, method, parts.steps),
        "wrong": wrong_records(plan, method, parts.wrong),
        "practice": questions(plan, method, parts.states),
        "terminator": bodies_record([Solid(terminator_mesh(plan.job.terminator), Part.TERMINATOR)]),
        "tables": tables(plan),
        "measuring": measuring_record(plan),
        "states": parts.states,
        **({"old": list(parts.old)} if parts.old else {}),
    }


def _palette() -> dict[str, Any]:
    return {
        "groups": [colour_of(part) for part in (Part.TOP_GROUP, Part.BOTTOM_GROUP, Part.FOLLOWED_STRAND)],
        "dot": [colour_of(Part.FACE_DOT), colour_of(Part.FACE_DOT_RIM)],
        "plainFace": colour_of(Part.PLAIN_FACE),
        "ink": colour_of(Part.PEN_MARK),
        "line": LINE,
    }


def _filled(data: Mapping[str, Any], text: str, plain: str) -> str:
    """The template with everything in it."""
    parts = _assets()
    policy = (
        f"default-src 'none'; script-src {_hash(parts['script'])}; worker-src blob:; "
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
    """Template, styles and script of the page; the script is built from page/src of the repository."""
    return {
        "page": _asset("page.html"),
        "style": _asset("page.css"),
        "last": _asset("last.css"),
        "script": _asset("bundle.js"),
    }


def _asset(name: str) -> str:
    return resources.files("fidpath.outputs.page").joinpath("assets", name).read_text(encoding="utf-8")
