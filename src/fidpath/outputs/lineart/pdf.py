"""A line drawing as a PDF page of its own size, type embedded, the same bytes for the same drawing.

ReportLab writes it: pure Python, paths and embedded type without a detour over another format, and a mode in which no
date or random name gets into the file.
"""

from __future__ import annotations

import io
from typing import Any

from fidpath.arrays import Floats
from fidpath.errors import EnvironmentProblem
from fidpath.outputs.font import font_file
from fidpath.outputs.lineart.ink import Area, Disc, Ink, LineDrawing, Lines, TextLine

MM = 72 / 25.4
"""Points to a mm."""

TYPE = "DejaVuSans"


def pdf(drawing: LineDrawing) -> bytes:
    """The drawing as a PDF of one page. Raises EnvironmentProblem where ReportLab is missing."""
    try:
        from reportlab import rl_config
        from reportlab.pdfgen.canvas import Canvas
    except ImportError as problem:
        raise EnvironmentProblem(
            "PDF drawings need ReportLab, which isn't installed", "pip install reportlab"
        ) from problem
    _register()
    rl_config.useA85 = 0  # plain bytes: a fifth smaller than as letters
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
        pdfmetrics.registerFont(TTFont(TYPE, str(font_file())))


def _draw(canvas: Any, ink: Ink) -> None:
    if isinstance(ink, Area):
        canvas.setFillGray(ink.grey)
        canvas.addLiteral(f"{_path(ink.loops, 'h')} f*")
    elif isinstance(ink, Lines):
        canvas.setStrokeGray(ink.grey)
        canvas.setLineWidth(ink.width)
        canvas.setDash(list(ink.dash))
        canvas.addLiteral(f"{_path(ink.lines)} S")
        canvas.setDash([])
    elif isinstance(ink, Disc):
        canvas.setFillGray(ink.grey)
        canvas.setStrokeGray(0)
        canvas.setLineWidth(ink.rim)
        canvas.circle(*ink.at, ink.radius, stroke=int(ink.rim > 0), fill=1)
    else:
        _text(canvas, ink)


def _path(lines: tuple[Floats, ...], end: str = "") -> str:
    """Lines `(n, 2)` mm as a path's operators (ISO 32000-1, 8.5.2), to a hundredth of a mm; end: "h" closes each.

    Written here since ReportLab takes a call for every number.
    """
    parts = []
    for line in lines:
        places = [f"{x:.2f} {y:.2f}" for x, y in line.tolist()]
        parts.append(f"{places[0]} m {' l '.join(places[1:])}{' l' if len(places) > 1 else ''} {end}")
    return " ".join(parts)


def _text(canvas: Any, ink: TextLine) -> None:
    """Type set upright: the page's own y axis runs down."""
    canvas.saveState()
    canvas.translate(*ink.at)
    canvas.scale(1, -1)
    canvas.setFillGray(ink.grey)
    canvas.setFont(TYPE, ink.size)
    canvas.drawString(0, 0, ink.text)
    canvas.restoreState()
