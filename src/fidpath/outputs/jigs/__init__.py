"""Gauges, rules, formers and models to print and to cut, sized to a plan. Sizes and geometry, never strength.

A `Plan` and the jigs wanted come in; STL, 3MF, STEP, DXF and SVG go out. Open `catalogue` first, then `parts`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from fidpath.outputs.jigs.catalogue import (
    FORMATS,
    JIGS,
    MODEL,
    NAMES,
    TEACHING,
    USUAL,
    Settle,
    Wanted,
    files,
    jig_or_refusal,
)
from fidpath.outputs.jigs.jig_report import ReportEntry, as_json, as_text, report_entry
from fidpath.planning import Plan

__all__ = ["BUILT", "FORMATS", "NAMES", "USUAL", "ReportEntry", "Wanted", "one", "report_files", "taught", "written"]

Files = list[tuple[str, bytes]]

EVERYTHING = Wanted()
"""All jigs in their usual formats, the model that of the locked step."""

BUILT = Wanted((*JIGS, MODEL))
"""The same without the teaching models."""


def one(plan: Plan, name: str, wanted: Wanted = EVERYTHING, settled: Settle | None = None) -> tuple[Files, ReportEntry]:
    """One jig's files, name and bytes, and what the report says of it; both may cross to another process.

    settled: gives the step that a model shows, by its state; without it the step is settled anew. A jig that can't be
    made has no files, and its entry the reason; asked for alone it raises CannotBeMade. Raises EnvironmentProblem where
    a format lacks its extra.
    """
    outcome = jig_or_refusal(plan, name, wanted, settled)
    content = list(files(plan, outcome.jig, wanted.formats)) if outcome.jig is not None else []
    return content, report_entry(plan, outcome, [file for file, _ in content])


def report_files(plan: Plan, entries: Iterable[ReportEntry]) -> Files:
    """The report on the jigs, `jigs.txt` and `jigs.json`, name and bytes."""
    listed = list(entries)
    return [
        ("jigs.txt", as_text(plan, listed).encode("utf-8")),
        ("jigs.json", as_json(plan, listed).encode("utf-8")),
    ]


def written(plan: Plan, wanted: Wanted = EVERYTHING, settled: Settle | None = None) -> Iterator[tuple[str, bytes]]:
    """Every file of the jigs asked for, name and bytes, as each is made; last the report, `jigs.txt` and `jigs.json`.

    Raises as `one`.
    """
    entries: list[ReportEntry] = []
    for name in wanted.names:
        content, entry = one(plan, name, wanted, settled)
        yield from content
        entries.append(entry)
    yield from report_files(plan, entries)


def taught(plan: Plan, settled: Settle) -> Iterator[tuple[str, bytes]]:
    """Files of the teaching models, name and bytes; last a report of their own, which says why if there are none."""
    content, entry = one(plan, TEACHING, settled=settled)
    yield from content
    yield f"{TEACHING}.txt", as_text(plan, [entry]).encode("utf-8")
