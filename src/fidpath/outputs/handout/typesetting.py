"""The handout typeset: data and figures into one PDF, the same bytes for the same job wherever it is made."""

from __future__ import annotations

import io
import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib.resources import files
from types import MappingProxyType
from typing import Literal

from fidpath.errors import OutputError
from fidpath.methods.method import Method
from fidpath.outputs.font import font_file
from fidpath.outputs.handout.contents import contents
from fidpath.planning.plan import Plan

PaperName = Literal["a4", "letter"]


@dataclass(frozen=True)
class Paper:
    """A sheet of paper, mm, and the margins printers leave: sides, and top and bottom."""

    width: float
    height: float
    side: float = 16.0
    ends: float = 15.0

    @property
    def strip_room(self) -> tuple[float, float]:
        """Room for the mark strip on the sheet lying down, its heading and words taken off, mm."""
        return self.height - 2 * 14.0, self.width - 2 * self.ends - 24.0


PAPERS: Mapping[PaperName, Paper] = MappingProxyType({"a4": Paper(210.0, 297.0), "letter": Paper(215.9, 279.4)})
"""Sheets the handout is made for: ISO 216 A4, and US letter."""

STANDARD = "ua-1"
"""The typesetter's own check: PDF/UA-1, tagged PDF that can be read aloud. It refuses what breaks its rules."""


def handout(plan: Plan, method: Method, figures: Mapping[str, bytes], paper: PaperName) -> bytes:
    """The handout as a PDF. `figures` holds SVG by name: `step_key`, `wrong_key`, "finished"; one may be missing.

    Raises OutputError where a figure can't be typeset, EnvironmentProblem where the type is missing.
    """
    sheet = PAPERS[paper]
    named = {name: f"figures/{i}.svg" for i, name in enumerate(sorted(figures))}
    data = contents(plan, method, named, sheet.strip_room)
    data["page"] = {"width": sheet.width, "height": sheet.height, "side": sheet.side, "ends": sheet.ends}
    sources = {
        "main.typ": (files("fidpath.outputs.handout") / "handout.typ").read_bytes(),
        "data.json": json.dumps(data, ensure_ascii=False).encode("utf-8"),
        **{named[name]: content for name, content in figures.items()},
    }
    return finished(typeset(sources))


def typeset(sources: Mapping[str, bytes]) -> bytes:
    """A PDF of "main.typ" and what it reads, from memory alone; no clock, no type of the machine's.

    Raises OutputError with the typesetter's own words.
    """
    import typst

    compiler: Callable[..., object] = typst.compile
    try:
        made: object = compiler(
            dict(sources),
            format="pdf",
            font_paths=[str(font_file().parent)],
            ignore_system_fonts=True,
            pdf_standards=[STANDARD],
            timestamp=0,
        )
    except (typst.TypstError, RuntimeError, ValueError) as problem:
        raise OutputError(f"the handout can't be typeset: {problem}", "Report this job: a fault of ours") from problem
    assert isinstance(made, bytes)
    return made


def finished(pdf: bytes) -> bytes:
    """The PDF with "actual size" as its printing dialogue's first choice, which the typesetter can't ask for."""
    import pikepdf

    out = io.BytesIO()
    with pikepdf.open(io.BytesIO(pdf)) as document:
        wanted = document.Root.get("/ViewerPreferences", pikepdf.Dictionary())
        wanted["/PrintScaling"] = pikepdf.Name("/None")
        wanted["/DisplayDocTitle"] = True
        document.Root["/ViewerPreferences"] = wanted
        document.save(out, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return out.getvalue()
