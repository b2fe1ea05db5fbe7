"""A line drawing as a PDF page of its own size, type embedded, the same bytes for the same drawing.

ReportLab writes it: pure Python, paths and embedded type without a detour over another format, and a mode in which no
date or random name gets into the file.
"""

from __future__ import annotations

import io
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fidpath.errors import EnvironmentProblem
from fidpath.lineart_ink import Area, Disc, Ink, LineDrawing, Lines, Text
from fidpath.lineart_words import font_file

Floats = NDArray[np.float64]

MM = 72 / 25.4
"""Points to a mm."""

TYPE = "DejaVuSans"


def pdf(drawing: LineDrawing) -> bytes:
    """The drawing as a PDF of one page. Raises EnvironmentProblem where ReportLab is missing."""
    try:
        from reportlab.pdfgen.canvas import Canvas
    except ImportError as problem:
        raise EnvironmentProblem(
            "PDF drawings need ReportLab, which isn't installed", "pip install reportlab"
        ) from problem
    _register()
    out = io.BytesIO()
    width, height = drawing.size
    canvas = Canvas(out, pagesize=(width * MM, height * MM), invariant=1, pageCompression=1)
    canvas.setTitle(drawing.title)
    canvas.setCreator("fidpath")
    canvas.transform(MM, 0, 0, -MM, 0, height * MM)
    canvas.setLineCap(1)
    canvas.setLineJoin(1)
    for ink in drawing.inks:
        _draw(canvas, ink)
    canvas.showPage()
    canvas.save()
    return out.getvalue()


def _register() -> None:
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    if TYPE not in pdfmetrics.getRegisteredFontNames():
        pdfmetrics.registerFont(TTFont(TYPE, font_file()))


def _draw(canvas: Any, ink: Ink) -> None:
    if isinstance(ink, Area):
        canvas.setFillGray(ink.grey)
        canvas.drawPath(_path(canvas, ink.loops, closed=True), stroke=0, fill=1, fillMode=0)
    elif isinstance(ink, Lines):
        canvas.setStrokeGray(ink.grey)
        canvas.setLineWidth(ink.width)
        canvas.setDash(list(ink.dash))
        canvas.drawPath(_path(canvas, ink.lines, closed=False), stroke=1, fill=0)
        canvas.setDash([])
    elif isinstance(ink, Disc):
        canvas.setFillGray(ink.grey)
        canvas.setStrokeGray(0)
        canvas.setLineWidth(ink.rim)
        canvas.circle(*ink.at, ink.radius, stroke=int(ink.rim > 0), fill=1)
    else:
        _text(canvas, ink)


def _path(canvas: Any, lines: tuple[Floats, ...], closed: bool) -> Any:
    path = canvas.beginPath()
    for line in lines:
        places = line.round(3).tolist()
        path.moveTo(*places[0])
        for place in places[1:]:
            path.lineTo(*place)
        if closed:
            path.close()
    return path


def _text(canvas: Any, ink: Text) -> None:
    """Type set upright: the page's own y axis runs down."""
    canvas.saveState()
    canvas.translate(*ink.at)
    canvas.scale(1, -1)
    canvas.setFillGray(ink.grey)
    canvas.setFont(TYPE, ink.size)
    canvas.drawString(0, 0, ink.text)
    canvas.restoreState()
