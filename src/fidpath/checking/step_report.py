"""All checks of one step of a splice, right or wrong, and which of the usual mistakes the measures alone point to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.checking import layout as lay
from fidpath.checking import report
from fidpath.checking.invariants import Linked, linked, turns
from fidpath.checking.passes import Crossings, Found, crossings_found, fids_found, passes_equal
from fidpath.checking.report import SolverLog, Where
from fidpath.geometry.strands import Strands
from fidpath.meshing.sections import Sections

Measures = dict[str, Any]

MARK_OFF = 0.5
"""How far H1 may be from its planned place, in picks."""

HOLES_OFF = 1.0
"""How much more rope than planned may lie between the holes, in diameters."""

BURY_LEAST = 0.9
"""Least share of the planned bury."""

TOGETHER = 1.6
"""Greatest distance of the two legs between the holes of a lock that is drawn up, in diameters."""

INSIDE = 0.4
"""The tail is buried where its centre line lies nearer than this to the standing part's, in diameters."""

FID_NEAR = 3.0
"""A fid further than this from a hole's planned place isn't in that hole, in diameters."""

BY_INVARIANTS: Mapping[tuple[int, int, int], str] = {
    (-1, -1, 2): "tail-other-face",
    (-1, 1, -2): "bight-other-face",
    (-1, 1, 0): "both-other-face",
    (-1, -1, 1): "no-tail-pass",
}
"""Mistakes of the lock by (s_1, s_2, I_2), for a tail that crosses the standing part from its left."""


@dataclass(frozen=True)
class Planned:
    """What the plan says. In mm: the rope's diameter, stations of H1 and H2, rope between the holes, bury.

    `strands_at_tip`: how many strands the taper leaves at the tail's tip. `locked` is false for a plain buried eye,
    which has neither hole; `invariants`, where given, are (s_1, s_2, I_2) as the step must have them.
    """

    diameter: float
    h1: float
    h2: float
    rope_between_holes: float
    bury_length: float
    strands_at_tip: int
    locked: bool = True
    invariants: tuple[int, int, int] | None = None


def measure_step(
    strands: Strands, before: Floats, sections: Sections, log: SolverLog, planned: Planned
) -> dict[str, Any]:
    """Every measure of one step, `failures` as in `report.measure`, and the mistake they name, `named`, if any.

    `before`: `(strands, n, 3)`, the same strands before settling. Stations are rope in mm from the throat (H1).
    """
    found: dict[str, Any] = {}
    where: Where = {}
    report.contact(strands, before, sections, log, found, where)
    report.lengths(strands, found, where)
    crossings = crossings_found(strands)
    _passed(strands, crossings, found, where)
    _linked(strands, crossings, planned, found)
    _places(strands, crossings, planned, found, where)
    _buried(strands, found, where)
    found["nodes"] = strands.nodes
    found["settle_seconds"] = log.settle_seconds
    found["failures"] = report.listed(_failures(found, planned, len(strands.count)), where, planned.h1)
    found["named"] = name_wrong_way(found, planned)
    found["caught"] = found["named"] is not None
    return found


def _passed(strands: Strands, crossings: Crossings, found: Measures, where: Where) -> None:
    """Enters the passes, their splits, the fids in holes, and crossings that no hole explains."""
    found["passes"] = [_as_data(one) for one in crossings.passes]
    found["passes_as_declared"] = passes_equal(crossings.passes, strands.holes, strands.braid.diameter)
    found["crossings_outside_holes"] = len(crossings.outside)
    where["crossings_outside_holes"] = crossings.outside[0][0] if crossings.outside else None
    found["fids"] = [{"host_mm": station, "split": list(split)} for station, split in fids_found(strands)]
    for one in found["passes"]:
        where[f"split at {one['hole']}"] = one["host_mm"]


def _as_data(one: Found) -> dict[str, Any]:
    return {
        "hole": one.hole,
        "host_mm": one.host,
        "guest_mm": one.guest,
        "face": one.face,
        "split": list(one.split),
    }


def _linked(strands: Strands, crossings: Crossings, planned: Planned, found: Measures) -> None:
    """Enters the invariants, whether passes and turns say the same, and hooked strands, where H2 is in the model."""
    reach = 2 * strands.braid.diameter
    if not planned.locked or not strands.station[0] + reach < planned.h1 < planned.h2 < strands.station[-1] - reach:
        return
    h1, h2 = (_hole_station(strands, crossings, name, at) for name, at in (("H1", planned.h1), ("H2", planned.h2)))
    link = linked(strands, h1, h2, crossings=crossings)
    values = link.invariants
    counted = values.nearest if values.whole else (values.s_1, values.s_2, values.I_2)
    found["invariants"] = dict(zip(("s_1", "s_2", "I_2"), counted, strict=True))
    found["invariants_whole"] = values.whole
    found["strands_hooked"] = link.odd_pairs
    found["turns"] = {name: list(turns(strands, at)) for name, at in (("H1", h1), ("H2", h2))}
    found["invariants_agreed"] = by_passes(crossings.passes, link, found["turns"]["H2"]) == values.nearest


def _hole_station(strands: Strands, crossings: Crossings, name: str, planned: float) -> float:
    """Where a hole is on the braid's lattice: at the whole diamond nearest to what goes through it; else as planned."""
    hosts = [one.host for one in crossings.passes if one.hole == name]
    diamond = 2 * strands.braid.pick
    return round(float(np.mean(hosts)) / diamond) * diamond if hosts else planned


def by_passes(passes: Sequence[Found], link: Linked, turned: Sequence[float]) -> tuple[int, int, int]:
    """(s_1, s_2, I_2) as the passes found and H2's measured turns (top, bottom) make them; -1 a pass from the left."""
    step = {"left": -1, "right": 1}

    def through(name: str, tail: bool) -> int:
        return sum(step[p.face] for p in passes if p.hole == name and (p.guest > link.cut) == tail)

    return through("H1", True), through("H2", False), through("H2", True) + round((turned[0] - turned[1]) / 2)


def _places(strands: Strands, crossings: Crossings, planned: Planned, found: Measures, where: Where) -> None:
    """Enters how far off H1 is in picks, and of a lock drawn up the eye's picks and the rope between the holes."""
    pick, d = strands.braid.pick, strands.braid.diameter
    in_h1 = [one.host for one in crossings.passes if one.hole == "H1"]
    fids = [one["host_mm"] for one in found["fids"] if abs(one["host_mm"] - planned.h1) < FID_NEAR * d]
    if in_h1 or fids:
        at = float(np.mean(in_h1 or fids))
        where["h1_off_picks"], found["h1_off_picks"] = at, (at - planned.h1) / pick
    lock = drawn_up(strands, crossings.passes)
    if lock is not None:
        h1, h2 = lock
        found["eye_mm"] = h1.guest - h1.host
        found["eye_off_picks"] = round((h2.host - h1.host - (planned.h2 - planned.h1)) / pick)
        where["eye_off_picks"] = where["rope_between_holes_mm"] = h2.host
        found["rope_between_holes_mm"] = ((h2.host - h1.guest) + (h1.host - h2.guest)) / 2
    found["terminator_in"] = strands.seat is not None


def drawn_up(strands: Strands, passes: Sequence[Found]) -> tuple[Found, Found] | None:
    """The passes of H1 and H2 where each leg goes once through the other and both lie together between; else None."""
    if [one.hole for one in passes] != ["H1", "H2"]:
        return None
    h1, h2 = passes
    if not h2.guest < h1.host < h1.guest < h2.host:
        return None
    line, station = lay.centre_line(strands), strands.station
    standing = line[(station > h2.guest) & (station < h1.host)]
    halfway = line[np.searchsorted(station, (h1.guest + h2.host) / 2)]
    apart = float(np.linalg.norm(standing - halfway, axis=1).min())
    return (h1, h2) if apart < TOGETHER * strands.braid.diameter else None


def _buried(strands: Strands, found: Measures, where: Where) -> None:
    """Enters how long the bury is, whether its cover surrounds it, and how many strands reach the tail's tip."""
    if strands.bury is None:
        return
    exposed = lay.exposed_tail(strands)
    found["tail_enclosed"] = len(exposed) == 0
    where["tail_enclosed"] = float(exposed[0]) if len(exposed) else None
    found["bury_length_mm"] = bury_length(strands)
    where["bury_length_mm"] = strands.bury.host[0]
    found["strands_at_tip"] = int((strands.count == strands.count.max()).sum())
    where["strands_at_tip"] = strands.bury.host[1]


def bury_length(strands: Strands) -> float:
    """Tail from where it lies inside the standing part to its tip, mm."""
    assert strands.bury is not None
    middle = (strands.bury.host[0] + strands.bury.guest[0]) / 2
    line = lay.centre_line(strands)
    tail = np.nonzero(strands.station > middle)[0]
    tail = tail[tail < strands.count.max()]
    host = line[strands.station < middle]
    off = np.array([np.linalg.norm(host - line[column], axis=1).min() for column in tail])
    outside = np.nonzero(off > INSIDE * strands.braid.diameter)[0]
    first = tail[min(int(outside[-1]) + 1, len(tail) - 1)] if len(outside) else tail[0]
    return float(strands.station[tail[-1]] - strands.station[first])


def _failures(found: Measures, planned: Planned, strands: int) -> list[report.Bad]:
    """Checks of a step out of bounds: name, value, bound."""
    even = [strands // 2, strands // 2]
    bad = report.over_bounds(found)
    bad += [(f"split at {one['hole']}", one["split"], even) for one in found["passes"] if one["split"] != even]
    bad += [("split at a fid", one["split"], even) for one in found["fids"] if one["split"] != even]
    bad += [(name, found[name], 0) for name in ("crossings_outside_holes", "strands_hooked") if found.get(name)]
    said = ("passes_as_declared", "invariants_whole", "invariants_agreed", "tail_enclosed")
    bad += [(name, False, True) for name in said if not found.get(name, True)]
    return bad + _not_as_asked(found, planned) + off_plan(found, planned)


def _not_as_asked(found: Measures, planned: Planned) -> list[report.Bad]:
    """Invariants that aren't what the step must have."""
    if planned.invariants is None or "invariants" not in found:
        return []
    both = zip(found["invariants"].items(), planned.invariants, strict=True)
    return [(name, value, asked) for (name, value), asked in both if value != asked]


def off_plan(measures: Mapping[str, Any], planned: Planned) -> list[report.Bad]:
    """Places and lengths that aren't the plan's, of those measured: name, value, bound."""
    gap = float(planned.rope_between_holes + HOLES_OFF * planned.diameter)
    bury = float(BURY_LEAST * planned.bury_length)
    checks: tuple[tuple[str, float, float, float], ...] = (
        ("h1_off_picks", -MARK_OFF, MARK_OFF, MARK_OFF),
        ("eye_off_picks", 0, 0, 0),
        ("rope_between_holes_mm", 0, gap, gap),
        ("bury_length_mm", bury, np.inf, bury),
        ("strands_at_tip", 0, planned.strands_at_tip, planned.strands_at_tip),
    )
    return [
        (name, measures[name], bound)
        for name, least, most, bound in checks
        if name in measures and not least <= measures[name] <= most
    ]


def name_wrong_way(measures: Mapping[str, Any], planned: Planned) -> str | None:
    """The usual mistake a step's measures point to; None where they point to none. What the step is isn't asked."""
    splits = [one["split"] for one in (*measures["passes"], *measures["fids"])]
    off = {name: value for name, value, _ in off_plan(measures, planned)}
    turned = tuple(round(value) for value in measures.get("invariants", {}).values())
    eye = off.get("eye_off_picks", 0)
    signs = (
        (any(over != under for over, under in splits), "split-5-7"),
        ("h1_off_picks" in off, "mark-on-strand"),
        (turned in BY_INVARIANTS, BY_INVARIANTS.get(turned)),
        ("rope_between_holes_mm" in off, "holes-too-far"),
        (eye > 0, "eye-loose"),
        (eye < 0, "eye-overstretched" if measures["terminator_in"] else "no-lock-allowance"),
        ("bury_length_mm" in off, "bury-too-short"),
        ("strands_at_tip" in off, "no-taper"),
    )
    return next((name for sign, name in signs if sign), None)
