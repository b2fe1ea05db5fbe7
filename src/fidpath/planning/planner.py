"""Job -> Plan: every number of the splice. What each is called and where it comes from: `lengths`, `marks`."""

from __future__ import annotations

from collections.abc import Sequence
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
    opens = (rule("fid_opens_least").value, rule("fid_opens_most").value)
    passes = (rule("fid_passes_least").value, rule("fid_passes_most").value)
    first = [f for f in tools.fids_mm if opens[0] * d <= f <= opens[1] * d]
    second = [f for f in tools.fids_mm if passes[0] * d <= f <= passes[1] * d]
    if not first or not second:
        (low, high), which = (opens, "opens the rope") if not first else (passes, "opens it wide enough to pass")
        raise CannotBeMade(
            f"no fid at hand {which}: {d:g} mm rope wants one of {low * d:.1f} to {high * d:.1f} mm",
            "Add such a fid to tools.fids",
            key="tools.fids",
        )
    h1 = rope.squeeze * d
    h2, most = side_by_side(h1, h1), passes[1] * d
    return Openings(max(first), min(second), h1, h2, most, _h2_fids(tools.fids_mm, h2, most))


def _h2_fids(fids: Sequence[float], least: float, most: float) -> tuple[float, float]:
    """The two fids, maybe of one size, that side by side open H2 the least of those that open it wide enough.

    Where no two keep between `least` and `most` mm, those that come nearest to it.
    """

    def off(pair: tuple[float, float]) -> tuple[float, float]:
        opened = side_by_side(*pair)
        beyond = max(least - opened, opened - most)
        return (beyond if beyond > SLIP else 0.0), opened

    return min(combinations_with_replacement(sorted(fids), 2), key=off)
