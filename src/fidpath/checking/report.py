"""All checks of one settled splice, their bounds, and which failed where."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.checking import drawn_overlap as drawn
from fidpath.checking import overlap, rope_measures
from fidpath.checking.crossings import passages_on_the_way
from fidpath.checking.overlap import Worst
from fidpath.checking.throat import throat_angle
from fidpath.geometry import Strands
from fidpath.job import Bar
from fidpath.meshing import Sections

Where = dict[str, float | None]
Bad = tuple[str, Any, Any]


@dataclass(frozen=True)
class SolverLog:
    """The solver's own log, passed on and not measured here."""

    certificate_min: float
    settle_seconds: float


UPPER = {
    "overlap_max": 0.02,
    "overlap_p99": 0.001,
    "drawn_overlap_max": 0.06,
    "drawn_overlap_p99": 0.0,
    "terminator_overlap_max_mm": 0.05,
    "crossings_changed": 0,
    "strand_length_change_max": 0.02,
    "take_up_error": 0.02,
    "throat_angle_error_deg": 1.0,
}
"""Greatest values allowed."""

LEAST_CERTIFICATE = 0.05


def measure(
    strands: Strands,
    before: Floats,
    sections: Sections,
    log: SolverLog,
    planned_take_up: float,
    planned_throat: float,
    letters: Sequence[str],
    bars: Sequence[Bar] = (),
) -> dict[str, Any]:
    """Every measure of the finished splice, its bounds, and `failures`: which, how much, and where.

    `before`: `(strands, n, 3)`, the same strands before settling. `letters`: the planned holes' in their order from
    the eye. bars: the terminator's, about its crown's centre. `where` is rope in mm from the throat, the first of them.
    """
    found: dict[str, Any] = {}
    where: Where = {}
    contact(strands, before, sections, log, bars, found, where)
    _lie(strands, found, where)
    lengths(strands, found, where)
    _taken_up(strands, planned_take_up, found, where)
    found["throat_angle_deg"] = float(np.degrees(throat_angle(strands)))
    found["throat_angle_error_deg"] = abs(found["throat_angle_deg"] - float(np.degrees(planned_throat)))
    found["nodes"] = strands.nodes
    found["settle_seconds"] = log.settle_seconds
    found["order_planned"] = [*letters, "bury"]
    throat = next((hole.host for hole in strands.holes if hole.name in letters[:1]), 0.0)
    where["throat_angle_error_deg"] = throat
    found["failures"] = listed(_failures(found), where, throat)
    return found


def contact(
    strands: Strands,
    before: Floats,
    sections: Sections,
    log: SolverLog,
    bars: Sequence[Bar],
    found: dict[str, Any],
    where: Where,
    between: Sequence[Floats] = (),
) -> None:
    """Enters overlaps of centre lines and drawn strands, the solver's certificate, and passages of strands.

    between: placings of the strands on the way from `before`, in order.
    """
    _enter(found, where, "overlap", overlap.overlap(strands))
    _tubes(strands, sections, bars, found, where)
    found["certificate_min"] = log.certificate_min
    found["crossings_changed"], where["crossings_changed"] = passages_on_the_way((before, *between), strands)


def _enter(found: dict[str, Any], where: Where, name: str, worst: Worst) -> None:
    """Enters a measure's worst and 99th percentile, and where the worst lies."""
    found[f"{name}_max"], found[f"{name}_p99"] = worst.max, worst.p99
    where[f"{name}_max"] = where[f"{name}_p99"] = worst.station


def _tubes(strands: Strands, sections: Sections, bars: Sequence[Bar], found: dict[str, Any], where: Where) -> None:
    _enter(found, where, "drawn_overlap", drawn.drawn_overlap(strands, sections))
    terminator = drawn.terminator_overlap(strands, sections, bars)
    found["terminator_overlap_max_mm"] = terminator.max
    where["terminator_overlap_max_mm"] = terminator.station


def _lie(strands: Strands, found: dict[str, Any], where: Where) -> None:
    splits = {hole.name: rope_measures.split(strands, hole) for hole in strands.holes}
    found["split"] = {name: counts for name, (counts, _) in splits.items()}
    found["split_agreed"] = all(agreed for _, agreed in splits.values())
    where |= {f"split at {hole.name}": hole.host for hole in strands.holes}
    where["split_agreed"] = next((hole.host for hole in strands.holes if not splits[hole.name][1]), None)
    found["order_from_eye"] = rope_measures.order_from_eye(strands)
    exposed = rope_measures.exposed_tail(strands)
    found["tail_enclosed"] = len(exposed) == 0
    where["tail_enclosed"] = float(exposed[0]) if len(exposed) else None


def lengths(strands: Strands, found: dict[str, Any], where: Where) -> None:
    """Enters the worst change of a strand's length, and where most of it lies."""
    found["strand_length_change_max"] = float(np.abs(rope_measures.length_changes(strands)).max())
    where["strand_length_change_max"] = rope_measures.most_changed(strands)


def _taken_up(strands: Strands, planned: float, found: dict[str, Any], where: Where) -> None:
    found["take_up_mm"] = rope_measures.take_up(strands)
    found["take_up_error"] = abs(found["take_up_mm"] / planned - 1)
    where["take_up_error"] = None if strands.bury is None else strands.bury.host[0]


def over_bounds(found: dict[str, Any]) -> list[Bad]:
    """Measures beyond their bounds, of those that were taken: name, value, bound."""
    bad: list[Bad] = [
        (name, found[name], bound)
        for name, bound in UPPER.items()
        if name in found and not found[name] <= bound + 1e-12
    ]
    if not found["certificate_min"] >= LEAST_CERTIFICATE:
        bad.append(("certificate_min", found["certificate_min"], LEAST_CERTIFICATE))
    return bad


def even(split: Sequence[int]) -> list[int]:
    """The split of as many strands in two equal groups."""
    return [sum(split) // 2] * 2


def _failures(found: dict[str, Any]) -> list[Bad]:
    """Checks of the finished splice out of bounds: name, value, bound."""
    bad = over_bounds(found)
    splits = found["split"].items()
    bad += [(f"split at {name}", counts, even(counts)) for name, counts in splits if counts != even(counts)]
    if found["order_from_eye"] != found["order_planned"]:
        bad.append(("order_from_eye", found["order_from_eye"], found["order_planned"]))
    return bad + [(name, False, True) for name in ("split_agreed", "tail_enclosed") if not found[name]]


def listed(bad: list[Bad], where: Where, throat: float) -> list[dict[str, Any]]:
    """Failures as the report gives them: check, value, bound, and rope from the throat in mm where that is known."""
    places = {name: None if at is None else at - throat for name, at in where.items()}
    return [{"check": name, "value": value, "bound": bound, "where_mm": places.get(name)} for name, value, bound in bad]
