"""Gauges, rules, formers and models to print and to cut, sized to a plan. Sizes and geometry, never strength."""

from __future__ import annotations

from collections.abc import Iterator

from fidpath.jigs.catalogue import FORMATS, NAMES, USUAL, Wanted, files, outcomes
from fidpath.jigs.report import Entry, as_json, as_text, entry_of
from fidpath.plan import Plan

__all__ = ["FORMATS", "NAMES", "USUAL", "Wanted", "written"]


EVERYTHING = Wanted()
"""All jigs in their usual formats, the model that of the locked step."""


def written(plan: Plan, wanted: Wanted = EVERYTHING) -> Iterator[tuple[str, bytes]]:
    """Every file of the jigs asked for, name and bytes, as each is made; last the report, `jigs.txt` and `jigs.json`.

    Raises CannotBeMade where the only jig asked for can't be made, EnvironmentProblem where a format lacks its extra.
    """
    entries: list[Entry] = []
    for outcome in outcomes(plan, wanted):
        names = []
        for name, content in files(plan, outcome.jig, wanted.formats) if outcome.jig is not None else ():
            names.append(name)
            yield name, content
        entries.append(entry_of(plan, outcome, names))
    yield "jigs.txt", as_text(plan, entries).encode("utf-8")
    yield "jigs.json", as_json(plan, entries).encode("utf-8")
