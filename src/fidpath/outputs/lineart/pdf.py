"""A line drawing as a PDF page of its own size: its SVG typeset, type embedded, the same bytes for the same drawing."""

from __future__ import annotations

import json

from fidpath.machine import in_xml
from fidpath.outputs.font import font_file
from fidpath.outputs.lineart.ink import LineDrawing
from fidpath.outputs.lineart.svg import svg
from fidpath.outputs.typesetter import typeset

PAGE = b"""\
#let drawing = json("drawing.json")
#set document(title: drawing.title)
#set page(width: drawing.width * 1mm, height: drawing.height * 1mm, margin: 0mm)
#place(top + left, image("drawing.svg", width: 100%, alt: drawing.title))
"""


def pdf(drawing: LineDrawing, shown: str = "") -> bytes:
    """The drawing as a PDF of one page; shown: its SVG, where that is there already.

    Raises OutputError and EnvironmentProblem as `typeset` does.
    """
    width, height = drawing.size
    about = {"title": in_xml(drawing.title), "width": width, "height": height}
    sources = {
        "main.typ": PAGE,
        "drawing.json": json.dumps(about, ensure_ascii=False).encode("utf-8"),
        "drawing.svg": (shown or svg(drawing)).encode("utf-8"),
    }
    return typeset(sources, font_file().parent, "the line drawing")
