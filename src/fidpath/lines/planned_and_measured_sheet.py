"""What was made against what was planned, as text, and as a record that a loft's test splices can take in."""

from __future__ import annotations

import dataclasses
import json
import math
import textwrap
from typing import Any

from fidpath.cautions import BESIDE_FIGURES
from fidpath.job import Job
from fidpath.lines.loft_file import TestSplice
from fidpath.lines.planned_and_measured import Measured, Row
from fidpath.planning import WIDTH
from fidpath.units import INCH_MM, is_imperial, show_length

RECORD_SCHEMA = 1


def as_data(job: Job, measured: Measured, rows: tuple[Row, ...]) -> dict[str, Any]:
    """The comparison as plain data, units in the keys; with a test splice where one was measured."""
    test = test_splice(job, measured)
    return {
        "record_schema": RECORD_SCHEMA,
        "kind": "as built",
        "job": job.name,
        "end": job.line.ends[measured.end].name,
        "date": measured.date,
        "tension_n": measured.tension,
        "note": measured.note,
        "rows": [_row(row) for row in rows],
        "outside": [row.name for row in rows if not row.within],
        **({"test_splice": dataclasses.asdict(test)} if test else {}),
        "cautions": list(BESIDE_FIGURES),
    }


def as_json(job: Job, measured: Measured, rows: tuple[Row, ...]) -> str:
    """The same as JSON text that ends with a line end."""
    return json.dumps(as_data(job, measured, rows), indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def test_splice(job: Job, measured: Measured) -> TestSplice | None:
    """The splice as one of a loft's test splices, where the bury and both lengths were measured."""
    lengths = measured.lengths
    if not {"before", "after", "bury"} <= lengths.keys():
        return None
    name = " ".join(part for part in (job.name, job.line.ends[measured.end].name, measured.date) if part)
    measures = (lengths["before"], lengths["after"], lengths["bury"])
    return TestSplice(name, job.rope.name, *measures, tension=measured.tension, date=measured.date)


test_splice.__test__ = False  # type: ignore[attr-defined]


def _row(row: Row) -> dict[str, Any]:
    return {
        "name": row.name,
        "label": row.label,
        "planned_mm": round(row.planned, 6),
        "measured_mm": round(row.measured, 6),
        "difference_mm": round(row.difference, 6),
        "allowed_from_mm": round(row.least, 6),
        "allowed_to_mm": round(row.most, 6) if math.isfinite(row.most) else None,
        "within": row.within,
        "meaning": row.meaning,
    }


def table(job: Job, measured: Measured, rows: tuple[Row, ...]) -> str:
    """The comparison as it is read at the bench; ends with a line end."""
    lines = [f"{job.name}, {job.line.ends[measured.end].name}, as built {measured.date}".rstrip(), ""]
    lines.append(f"  {'':<26} {'planned':>12} {'measured':>12} {'off by':>11}   allowed")
    for row in rows:
        lines += [_line(job, row), *_wrapped(row.meaning, "      ")]
    caution = [text for each in BESIDE_FIGURES for text in _wrapped(each, "  - ")]
    return "\n".join([*lines, "", "CAUTIONS", *caution]) + "\n"


def _line(job: Job, row: Row) -> str:
    most = f"to {_signed(job, row.most)}" if math.isfinite(row.most) else "or more"
    mark = "" if row.within else "  OUT"
    return (
        f"  {row.label:<26} {_shown(job, row.planned):>12} {_shown(job, row.measured):>12} "
        f"{_signed(job, row.difference):>11}   {_signed(job, row.least)} {most}{mark}"
    )


def _shown(job: Job, mm: float) -> str:
    return show_length(mm, job.length_unit, INCH_MM / 64 if is_imperial(job.length_unit) else 0.1)


def _signed(job: Job, mm: float) -> str:
    text = _shown(job, mm)
    return f"+{text}" if mm > 0 else text


def _wrapped(text: str, start: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=start, subsequent_indent=" " * len(start), break_long_words=False)
