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
from fidpath.lines.planned_and_measured import READING, Measured, Row
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
        "rows": [_row(job, row) for row in rows],
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


def _row(job: Job, row: Row) -> dict[str, Any]:
    return {
        "name": row.name,
        "label": row.label,
        "planned_mm": round(row.planned, 6),
        "measured_mm": round(row.measured, 6),
        "difference_mm": round(row.difference, 6),
        "allowed_from_mm": round(row.least, 6),
        "allowed_to_mm": round(row.most, 6) if math.isfinite(row.most) else None,
        "within": row.within,
        "verdict": verdict(job, row),
        "allowed_because": row.allowance,
        "meaning": row.meaning,
    }


def table(job: Job, measured: Measured, rows: tuple[Row, ...]) -> str:
    """The comparison as it is read at the bench; ends with a line end."""
    date = f", measured {measured.date}" if measured.date else ""
    lines = [f"{job.name}, {job.line.ends[measured.end].name}{date}"]
    for row in rows:
        lines += ["", *_wrapped(f"{row.label}: {verdict(job, row)}", ""), *_wrapped(_held(job, row), "    ")]
        lines += _wrapped(row.meaning, "    ")
    caution = [text for each in BESIDE_FIGURES for text in _wrapped(each, "  - ")]
    return "\n".join([*lines, "", "CAUTIONS", *caution]) + "\n"


LONG_SHORT = ("long", "short")
MORE_LESS = {"swollen_diameter": ("thicker than planned", "thinner than planned")}
MORE_LESS["take_up"] = ("more than planned", "less than planned")


def verdict(job: Job, row: Row) -> str:
    """How a figure came out, in a few words: "2 mm short: fine"."""
    if abs(row.difference) <= READING:
        return "as planned"
    above, below = MORE_LESS.get(row.name, LONG_SHORT)
    said = f"{_shown(job, abs(row.difference))} {above if row.difference > 0 else below}"
    return f"{said}: {'fine' if row.within else 'out'}"


def _held(job: Job, row: Row) -> str:
    """Planned, measured and allowed, and where the allowance comes from."""
    if math.isinf(row.most):
        allowed = f"up to {_shown(job, -row.least)} short, or any longer"
    else:
        allowed = f"{_shown(job, row.most)} either way"
    measures = f"Planned {_shown(job, row.planned)}, measured {_shown(job, row.measured)}."
    return f"{measures} Allowed: {allowed} ({row.allowance})."


def _shown(job: Job, mm: float) -> str:
    return show_length(mm, job.length_unit, INCH_MM / 64 if is_imperial(job.length_unit) else 0.1)


def _wrapped(text: str, start: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=start, subsequent_indent=" " * len(start), break_long_words=False)
