"""All checks of one step of a splice, right or wrong, and which of the usual mistakes the measures alone point to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.checking import report, rope_measures
from fidpath.checking.found_passes import Crossings, Found, crossings_found, fids_found, passes_equal
from fidpath.checking.invariants import Linked, linked, turns
from fidpath.checking.report import SolverLog, Where
from fidpath.checking.throat import loop_of_rope, throat_to_crown
from fidpath.geometry import Strands
from fidpath.job import Bar
from fidpath.meshing import Sections
from fidpath.states import KINDS

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

GONE_IN = 0.5
"""The tail has gone in through its cover's wall where its centre line lies this near, in diameters (measured: then the
eye from there round to there is within a third of a pick of the planned one)."""

CROWN_OFF = 0.02
"""How much nearer or farther than planned the crown may be from the throat, in diameters (measured: 0.002)."""

LOOP_OFF = 0.1
"""How much longer or shorter than planned the loop's rope may be, in diameters (measured: at most 0.073)."""

EYE_OFF = 1.0
"""How much longer or shorter than planned an eye without a lock may be, in picks."""

BY_INVARIANTS: Mapping[tuple[int, int, int], tuple[str, ...]] = {
    one.invariants: tuple(kind.name for kind in KINDS.values() if kind.mistake and kind.invariants == one.invariants)
    for one in KINDS.values()
    if one.mistake and one.invariants is not None
}
"""Mistakes of the lock by (s_1, s_2, I_2), for a tail that crosses the standing part from its left."""


@dataclass(frozen=True)
class Planned:
    """What the plan says. In mm: the rope's diameter, rope between the holes, bury.

    holes: the lock's two by letter and station in mm, the standing part's first; none for a splice without a lock.
    throat_to_crown: from the first hole's middle straight to the crown's bearing, where the step is laid so.
    loop: rope from there round to the point of the tail in it or beside it, mm, before the lock is made.
    eye_length: from the entry round to the entry where there is no lock. mistakes: those that the splice can have, by
    name; none of them stands for any. mirrored: whether the tail crosses the standing part from its
    right. bars: the terminator's, about its crown's centre. moving: whether it is a moment in which the second hole's
    groups have part of a turn: then passes aren't as declared, turns aren't whole, and no lock is drawn up yet.
    `strands_at_tip`: how many strands the taper leaves at the tail's tip. `invariants`, where given, are
    (s_1, s_2, I_2) as the step must have them.
    """

    diameter: float
    holes: tuple[tuple[str, float], ...]
    rope_between_holes: float
    bury_length: float
    strands_at_tip: int
    invariants: tuple[int, int, int] | None = None
    eye_length: float | None = None
    throat_to_crown: float | None = None
    loop: float | None = None
    mistakes: tuple[str, ...] = ()
    mirrored: bool = False
    moving: bool = False
    bars: tuple[Bar, ...] = ()

    @property
    def zero(self) -> float:
        """Station that places are told from: the first hole's, mm."""
        return self.holes[0][1] if self.holes else 0.0


def measure_step(
    strands: Strands,
    before: Floats,
    sections: Sections,
    log: SolverLog,
    planned: Planned,
    between: Sequence[Floats] = (),
) -> dict[str, Any]:
    """Every measure of one step, `failures` as in `report.measure`, and the mistake they name, `named`, if any.

    `before`: `(strands, n, 3)`, the same strands before settling; `between`: placings on the way, in order.
    Stations are rope in mm from the first hole.
    """
    found: dict[str, Any] = {}
    where: Where = {}
    report.contact(strands, before, sections, log, planned.bars, found, where, between)
    report.lengths(strands, found, where)
    crossings = crossings_found(strands)
    _passed(strands, crossings, found, where)
    _linked(strands, crossings, planned, found, between)
    _places(strands, crossings, planned, found, where)
    _buried(strands, planned, found, where)
    found["nodes"] = strands.nodes
    found["settle_seconds"] = log.settle_seconds
    found["failures"] = report.listed(_failures(found, planned), where, planned.zero)
    found["named"] = mistake_named(found, planned)
    found["caught"] = found["named"] is not None
    return found


def _passed(strands: Strands, crossings: Crossings, found: Measures, where: Where) -> None:
    """Enters the passes, their splits, the fids in holes, and crossings that no hole explains."""
    found["passes"] = [_as_data(one) for one in crossings.passes]
    widest = max(rope.braid.diameter for rope in strands.ropes)
    found["passes_as_declared"] = passes_equal(crossings.passes, strands.holes, widest)
    found["crossings_outside_holes"] = len(crossings.outside)
    where["crossings_outside_holes"] = crossings.outside[0].u if crossings.outside else None
    found["fids"] = [{"host_mm": one.host, "split": list(one.split)} for one in fids_found(strands)]
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


def _linked(
    strands: Strands, crossings: Crossings, planned: Planned, found: Measures, between: Sequence[Floats]
) -> None:
    """Enters the invariants, whether passes and turns say the same, and hooked strands, where both holes are there.

    Linking doesn't change on the way from one placing to the next unless strands pass through one another, which is
    counted by itself. So where a sharply bent eye leaves no place for the cut, the first of the placings is measured.
    """
    if len(planned.holes) != 2 or not _holds(strands, planned):
        return
    stations = {name: _hole_station(strands, crossings, name, at) for name, at in planned.holes}
    h1, h2 = stations.values()
    link = linked(strands, h1, h2, crossings=crossings)
    if link.odd_pairs and between:
        link = linked(replace(strands, points=between[0]), h1, h2)
    values = link.invariants
    counted = values.nearest if values.whole else (values.s_1, values.s_2, values.I_2)
    found["invariants"] = dict(zip(("s_1", "s_2", "I_2"), counted, strict=True))
    found["invariants_whole"] = values.whole
    found["strands_hooked"] = link.odd_pairs
    found["turns"] = {name: list(turns(strands, at)) for name, at in stations.items()}
    found["invariants_agreed"] = by_passes(crossings.passes, link, found["turns"]) == values.nearest


def _holds(strands: Strands, planned: Planned) -> bool:
    """Whether the lock's one rope reaches beyond both holes."""
    if len(strands.ropes) > 1:
        return False
    (_, h1), (_, h2) = planned.holes
    reach = 2 * strands.braid.diameter
    return bool(strands.station[0] + reach < h1 < h2 < strands.station[-1] - reach)


def _hole_station(strands: Strands, crossings: Crossings, name: str, planned: float) -> float:
    """Where a hole is on the braid's lattice: at the whole diamond nearest to what goes through it; else as planned."""
    hosts = [one.host for one in crossings.passes if one.hole == name]
    diamond = 2 * strands.braid.pick
    return round(float(np.mean(hosts)) / diamond) * diamond if hosts else planned


def by_passes(passes: Sequence[Found], link: Linked, turned: Mapping[str, Sequence[float]]) -> tuple[int, int, int]:
    """(s_1, s_2, I_2) as the passes found and the second hole's measured turns make them; -1 a pass from the left.

    turned: of either hole by letter, in their order, its (top, bottom) group's turns.
    """
    step = {"left": -1, "right": 1}
    h1, h2 = turned
    top, bottom = turned[h2]

    def through(name: str, tail: bool) -> int:
        return sum(step[p.face] for p in passes if p.hole == name and (p.guest > link.cut) == tail)

    return through(h1, True), through(h2, False), through(h2, True) + round((top - bottom) / 2)


def _places(strands: Strands, crossings: Crossings, planned: Planned, found: Measures, where: Where) -> None:
    """Enters how far off the first hole is in picks, and of a lock drawn up the eye's picks and rope between holes."""
    found["terminator_in"] = strands.seat is not None
    if len(strands.ropes) > 1:
        return
    pick, d = strands.braid.pick, strands.braid.diameter
    in_first = [one.host for one in crossings.passes if one.hole in [name for name, _ in planned.holes[:1]]]
    fids = [one["host_mm"] for one in found["fids"] if abs(one["host_mm"] - planned.zero) < FID_NEAR * d]
    if in_first or fids:
        at = float(np.mean(in_first or fids))
        where["h1_off_picks"], found["h1_off_picks"] = at, (at - planned.zero) / pick
    _held(strands, planned, found, where)
    lock = drawn_up(strands, crossings.passes, [name for name, _ in planned.holes])
    if lock is not None and not planned.moving:
        h1, h2 = lock
        (_, at_h1), (_, at_h2) = planned.holes
        found["eye_mm"] = h1.guest - h1.host
        found["eye_off_picks"] = round((h2.host - h1.host - (at_h2 - at_h1)) / pick)
        where["eye_off_picks"] = where["rope_between_holes_mm"] = h2.host
        found["rope_between_holes_mm"] = ((h2.host - h1.guest) + (h1.host - h2.guest)) / 2


def _held(strands: Strands, planned: Planned, found: Measures, where: Where) -> None:
    """Enters how far the crown is from the throat, and the loop's rope, where the step is laid to them."""
    asked = (("throat_to_crown", planned.throat_to_crown, throat_to_crown), ("loop", planned.loop, loop_of_rope))
    for name, length, measured in asked:
        if length is not None:
            found[f"{name}_mm"] = measured(strands, planned.zero)
            found[f"{name}_off_diameters"] = (found[f"{name}_mm"] - length) / strands.braid.diameter
            where[f"{name}_off_diameters"] = planned.zero


def drawn_up(strands: Strands, passes: Sequence[Found], letters: Sequence[str]) -> tuple[Found, Found] | None:
    """The passes of a lock's two holes where each leg goes once through the other and both lie together between.

    None where they don't; `letters`: the holes', the standing part's first.
    """
    if len(letters) != 2 or [one.hole for one in passes] != list(letters):
        return None
    h1, h2 = passes
    if not h2.guest < h1.host < h1.guest < h2.host:
        return None
    line, station = rope_measures.centre_line(strands), strands.station
    standing = line[(station > h2.guest) & (station < h1.host)]
    halfway = line[np.searchsorted(station, (h1.guest + h2.host) / 2)]
    apart = float(np.linalg.norm(standing - halfway, axis=1).min())
    return (h1, h2) if apart < TOGETHER * strands.braid.diameter else None


def _buried(strands: Strands, planned: Planned, found: Measures, where: Where) -> None:
    """Enters how long bury and plain eye are, whether the cover surrounds the tail, and the strands at its tip."""
    if strands.bury is None:
        return
    exposed = rope_measures.exposed_tail(strands)
    found["tail_enclosed"] = len(exposed) == 0
    where["tail_enclosed"] = float(exposed[0]) if len(exposed) else None
    found["bury_length_mm"] = bury_length(strands)
    where["bury_length_mm"] = strands.bury.host[0]
    if planned.eye_length is not None and len(strands.ropes) == 1:
        found["plain_eye_mm"] = plain_eye(strands)
        found["plain_eye_off_picks"] = (found["plain_eye_mm"] - planned.eye_length) / strands.braid.pick
        where["plain_eye_off_picks"] = strands.bury.host[0]
    tail = strands.alone(strands.bury.guest_rope).count
    found["strands_at_tip"] = int((tail == tail.max()).sum())
    where["strands_at_tip"] = strands.bury.host[1]


def bury_length(strands: Strands) -> float:
    """Tail from where it lies inside the standing part to its tip, mm."""
    tail, _ = _gone_in(strands, INSIDE)
    return float(tail[-1] - tail[0])


def plain_eye(strands: Strands) -> float:
    """Rope from where the tail has gone in through its cover's wall round the eye to the same place, mm."""
    tail, host = _gone_in(strands, GONE_IN)
    return float(tail[0] - host)


def _gone_in(strands: Strands, near: float) -> tuple[Floats, float]:
    """Stations of the tail `(n,)` from where it stays within `near` diameters of its cover's middle, and the cover's
    station there, mm.
    """
    bury = strands.bury
    assert bury is not None
    hosts, tails = strands.alone(bury.host_rope), strands.alone(bury.guest_rope)
    one = bury.host_rope == bury.guest_rope
    middle = (bury.host[0] + bury.guest[0]) / 2
    line, station = rope_measures.centre_line(tails), tails.station
    tail = np.nonzero(station > middle)[0] if one else np.arange(len(station))
    tail = tail[tail < tails.count.max()]
    cover = np.nonzero(hosts.station < middle)[0] if one else np.arange(len(hosts.station))
    host = rope_measures.centre_line(hosts)[cover]
    off = np.array([np.linalg.norm(host - line[column], axis=1).min() for column in tail])
    outside = np.nonzero(off > near * hosts.braid.diameter)[0]
    tail = tail[min(int(outside[-1]) + 1, len(tail) - 1) if len(outside) else 0 :]
    beside = int(np.linalg.norm(host - line[tail[0]], axis=1).argmin())
    return station[tail], float(hosts.station[cover[beside]])


def _failures(found: Measures, planned: Planned) -> list[report.Bad]:
    """Checks of a step out of bounds: name, value, bound."""
    bad = report.over_bounds(found)
    splits = [(f"split at {one['hole']}", one["split"]) for one in found["passes"]]
    splits += [("split at a fid", one["split"]) for one in found["fids"]]
    bad += [(name, split, report.even(split)) for name, split in splits if split != report.even(split)]
    bad += [(name, found[name], 0) for name in ("crossings_outside_holes", "strands_hooked") if found.get(name)]
    at_rest = () if planned.moving else ("passes_as_declared", "invariants_agreed")
    said = ("invariants_whole", "tail_enclosed", *at_rest)
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
        ("plain_eye_off_picks", -EYE_OFF, EYE_OFF, EYE_OFF),
        ("throat_to_crown_off_diameters", -CROWN_OFF, CROWN_OFF, CROWN_OFF),
        ("loop_off_diameters", -LOOP_OFF, LOOP_OFF, LOOP_OFF),
        ("rope_between_holes_mm", 0, gap, gap),
        ("bury_length_mm", bury, np.inf, bury),
        ("strands_at_tip", 0, planned.strands_at_tip, planned.strands_at_tip),
    )
    return [
        (name, measures[name], bound)
        for name, least, most, bound in checks
        if name in measures and not least <= measures[name] <= most
    ]


def mistake_named(measures: Mapping[str, Any], planned: Planned) -> str | None:
    """The usual mistake of this splice that a step's measures point to; None where they point to none.

    What the step is isn't asked.
    """
    splits = [one["split"] for one in (*measures["passes"], *measures["fids"])]
    off = {name: value for name, value, _ in off_plan(measures, planned)}
    hand = -1 if planned.mirrored else 1
    turned = tuple(hand * round(value) for value in measures.get("invariants", {}).values())
    eye, plain = off.get("eye_off_picks", 0), off.get("plain_eye_off_picks", 0)
    signs: tuple[tuple[bool, tuple[str, ...]], ...] = (
        (any(over != under for over, under in splits), ("split-5-7", "plain-split-5-7")),
        ("h1_off_picks" in off, ("mark-on-strand",)),
        (turned in BY_INVARIANTS, BY_INVARIANTS.get(turned, ())),
        ("rope_between_holes_mm" in off, ("holes-too-far",)),
        (eye > 0, ("eye-loose",)),
        (eye < 0, ("eye-overstretched" if measures["terminator_in"] else "no-lock-allowance",)),
        ("bury_length_mm" in off, ("bury-too-short",)),
        ("strands_at_tip" in off, ("no-taper",)),
        (plain > 0, ("plain-eye-loose",)),
        (plain < 0, ("plain-eye-tight",)),
    )
    names = (name for sign, named in signs if sign for name in named)
    return next((name for name in names if not planned.mistakes or name in planned.mistakes), None)
