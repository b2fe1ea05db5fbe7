"""The handout typeset: data and figures into one PDF, the same bytes for the same job wherever it is made."""

from __future__ import annotations

import io
import json
from collections.abc import Mapping
from dataclasses import dataclass
from importlib.resources import files
from types import MappingProxyType
from typing import Any, Literal

from fidpath.methods import Method
from fidpath.outputs.font import font_file
from fidpath.outputs.handout.contents import contents
from fidpath.outputs.typesetter import typeset
from fidpath.planning import Plan

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
    return finished(typeset(sources, font_file().parent, "the handout", (STANDARD,)))


def finished(pdf: bytes) -> bytes:
    """The PDF with "actual size" as its printing dialogue's first choice, which the typesetter can't ask for.

    An incremental update (ISO 32000-1, 7.5.6): what was written stays as it is, a new catalogue comes after it.
    """
    from pypdf import PdfReader
    from pypdf.generic import BooleanObject, DictionaryObject, NameObject, NumberObject

    trailer: Any = PdfReader(io.BytesIO(pdf)).trailer
    number, catalogue = trailer.raw_get("/Root").idnum, trailer["/Root"]
    wanted = {NameObject("/PrintScaling"): NameObject("/None"), NameObject("/DisplayDocTitle"): BooleanObject(True)}
    name = NameObject("/ViewerPreferences")
    catalogue[name] = DictionaryObject({**catalogue.get(name, {}), **wanted})
    before = int(pdf.rpartition(b"startxref")[2].split()[0])
    out = io.BytesIO(pdf)
    place = out.seek(0, io.SEEK_END) + 1
    out.write(f"\n{number} 0 obj\n".encode("ascii"))
    catalogue.write_to_stream(out)
    table = out.tell() + len("\nendobj\n")
    entries = f"0 1\n0000000000 65535 f\r\n{number} 1\n{place:010} 00000 n\r\n"
    out.write(f"\nendobj\nxref\n{entries}trailer\n".encode("ascii"))
    DictionaryObject({**trailer, NameObject("/Prev"): NumberObject(before)}).write_to_stream(out)
    out.write(f"\nstartxref\n{table}\n%%EOF\n".encode("ascii"))
    return out.getvalue()
