"""Job -> Plan: every number of the splice. What each is called and where it comes from: `lengths`, `marks`."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations_with_replacement

from fidpath.errors import CannotBeMade
from fidpath.geometry import braid_of, cover, seat_of, side_by_side, taper
from fidpath.job import Job, Rope, Tools, closes, rule
from fidpath.planning.locked import locked_eye
from fidpath.planning.plain import plain_eye
from fidpath.planning.plan import SLIP, Openings, Plan


def make_plan(job: Job) -> Plan:
    """Every number of the splice at the job's first end. Raises CannotBeMade where the job's geometry can't be."""
    try:
        return _planned(job)
    except CannotBeMade as refused:
        refused.file = refused.file or job.source or None
        raise


def _planned(job: Job) -> Plan:
    check_weave(job.rope)
    fids = openings_of(job.rope, job.tools)
    braid, seat = braid_of(job.rope), seat_of(job.terminator)
    d, practice = braid.diameter, job.practice
    cut = taper(braid.strands, practice.bury_diameters * d, practice.taper_share, practice.taper_drops, d)
    swallowed = cover(braid, job.rope.squeeze, cut)
    if job.line.ends[0].splice == "plain":
        return Plan(job, braid, seat, fids, *plain_eye(job, seat), swallowed, cut)
    eye, neck, lock = locked_eye(job, braid, seat, swallowed)
    return Plan(job, braid, seat, fids, eye, neck, swallowed, cut, lock)


def check_weave(rope: Rope) -> None:
    """Raises CannotBeMade where the braid doesn't close, or a straight hole can't part it evenly."""
    if not closes(rope.strands, rope.weave):
        raise CannotBeMade(
            f"a braid of {rope.strands} strands doesn't close on itself {rope.weave}",
            "Use a number of strands that is a multiple of 4, or over-one",
            key="rope.weave",
        )
    if rope.strands % 4:
        raise CannotBeMade(
            f"a straight hole can't part {rope.strands} strands evenly: a gap faces a crossing",
            "A straight hole needs a number of strands that is a multiple of 4",
            key="rope.strands",
        )


def openings_of(rope: Rope, tools: Tools) -> Openings:
    """Which fids open the rope and pass it, and how far each hole is opened.

    A squeezed tail is `squeeze` d across, and two such legs lie side by side in H2. The fids' bounds are rules of
    practice.
    """
    d = rope.diameter_mm
    first, second = _fid_within("fid_opens", rope, tools), _fid_within("fid_passes", rope, tools)
    most = rule("fid_passes_most").value * d
    h1 = rope.squeeze * d
    h2 = side_by_side(h1, h1)
    return Openings(first, second, h1, h2, most, _h2_fids({*tools.fids_mm, first, second}, h2, most))


def suits(name: str, rope: Rope, fid: float) -> bool:
    """Whether a fid of so many mm lies within the bounds of a rule of practice."""
    low, high = (rule(f"{name}_{end}").value * rope.diameter_mm for end in ("least", "most"))
    return low <= fid <= high


def _fid_within(name: str, rope: Rope, tools: Tools) -> float:
    """The fid for a pass, mm: of those at hand the thickest that opens the rope, the thinnest that passes it.

    Where none at hand will do, the size next to one of theirs that would.
    """
    good = [fid for fid in tools.fids_mm if suits(name, rope, fid)]
    if good:
        return max(good) if name == "fid_opens" else min(good)
    low, high = (rule(f"{name}_{end}").value * rope.diameter_mm for end in ("least", "most"))
    nearest = min(tools.fids_mm, key=lambda fid: abs(fid - min(max(fid, low), high)))
    return min(max(nearest, low), high)


def _h2_fids(fids: Iterable[float], least: float, most: float) -> tuple[float, float]:
    """The two fids, maybe of one size, that side by side open H2 the least of those that open it wide enough.

    Where no two keep between `least` and `most` mm, those that come nearest to it.
    """

    def off(pair: tuple[float, float]) -> tuple[float, float]:
        opened = side_by_side(*pair)
        beyond = max(least - opened, opened - most)
        return (beyond if beyond > SLIP else 0.0), opened

    return min(combinations_with_replacement(sorted(fids), 2), key=off)
