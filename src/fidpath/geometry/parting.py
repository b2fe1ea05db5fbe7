"""The law of a parted braid: where its strands run beside a hole, and how much of the rope's length the hole takes.

Near an opening the rope's phase dwells at the diamond's centre, so that top and bottom group lie apart over its whole
length, and makes up for it on both sides; the groups are lifted, and turned about themselves where they hold turns.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from fidpath.arrays import Bools, Floats
from fidpath.geometry.braid import Braid, straight, strand_angles, strand_offsets
from fidpath.geometry.bury import smooth_step

DWELL = 0.7
"""Picks of phase either side of the centre that an opening's whole length holds."""

CATCH_UP = 1.6
"""How much faster than the station the phase runs beside an opening, until it has caught up."""

RISE = 1.2
"""Rope over which the groups part and close again at an opening's ends, in rope diameters."""

NARROWED = 0.75
"""Share of its width a group keeps where it turns about itself."""

NODE_SPACING = 0.15
"""Greatest spacing of nodes along the rope, in rope diameters; wider costs overlap (0.20: 1.9 %, 0.25: 3.5 %)."""


@dataclass(frozen=True)
class Opening:
    """A place where a braid is parted in two groups; lengths in mm, `turns` whole turns of (top, bottom) group.

    It goes by its letter, `name`, and lies at station `host` of the rope of that number. Strands lie `lift` apart from
    where the braid would have them over `flat` either side of the centre, falling to nothing at `half`. The groups'
    turns, right-handed ones positive, lie half before and half after `flat`. `moved` names strands that lie in the
    other group by mistake.
    """

    name: str
    host: float
    half: float
    flat: float
    lift: float
    turns: tuple[int, int] = (0, 0)
    moved: tuple[int, ...] = ()
    rope: int = 0


def passed_hole(name: str, host: float, diameter: float) -> Opening:
    """A hole one leg goes through."""
    return Opening(name, host, 1.4 * diameter, 0.5 * diameter, 0.35 * diameter)


def side_by_side(one: float, other: float) -> float:
    """Diameter of the round hole whose girth is that of two round things side by side, mm (elementary geometry).

    A braid's opening gives no more girth than its strands have, whatever its shape: the belt round both, by pi.
    """
    apart, more = (one + other) / 2, abs(one - other) / 2
    straight, lean = 2 * np.sqrt(apart**2 - more**2), np.arcsin(more / apart)
    return float(straight / np.pi + apart + 2 * more * lean / np.pi)


def stations(braid: Braid, first: float, last: float) -> Floats:
    """Evenly spaced stations of the node columns, `(n,)` mm, H1's centre among them."""
    step = _step(braid)
    return np.asarray(np.arange(np.ceil(first / step - 1e-9), np.floor(last / step + 1e-9) + 1) * step)


def _step(braid: Braid) -> float:
    return float(braid.pick / np.ceil(braid.pick / (NODE_SPACING * braid.diameter)))


def _held(braid: Braid, opening: Opening, station: Floats) -> Floats:
    """How far the phase is ahead of the station near an opening, `(n,)` mm."""
    hold = DWELL * braid.pick
    free = (CATCH_UP * opening.half - hold) / (CATCH_UP - 1)
    knots = np.array([-free, -opening.half, opening.half, free])
    ahead = np.array([-free, -hold, hold, free]) - knots
    blend = np.linspace(-0.3, 0.3, 13) * braid.diameter
    off = station - opening.host
    return np.asarray(np.mean([np.interp(off + b, knots, ahead, 0.0, 0.0) for b in blend], axis=0))


def parted_ones(openings: tuple[Opening, ...]) -> list[Opening]:
    """The openings whose groups lie apart; round a leg drawn tight only settling parts the braid."""
    return [opening for opening in openings if opening.lift > 0 or any(opening.turns)]


def top_group(braid: Braid, opening: Opening, phase: float = 0.0) -> Bools:
    """Which strands the braid's law puts in an opening's top group, `(strands,) bool`."""
    at = np.array([opening.host + braid.pick + phase])
    return np.asarray(np.sin(strand_angles(braid.strands, braid.pitch, at)[:, 0]) > 0)


def _turned(across: Floats, members: Bools, angle: Floats, narrowed: Floats) -> Floats:
    """Offsets `(strands, n, 2)` with the members turned about their own middle by `angle` and narrowed, `(n,)` each."""
    middle = across[members].mean(axis=0)
    y, z = np.moveaxis((across[members] - middle) * narrowed[:, None], -1, 0)
    cos, sin = np.cos(angle), np.sin(angle)
    moved = across.copy()
    moved[members] = np.stack([y * cos - z * sin, y * sin + z * cos], axis=-1) + middle
    return moved


def _parted(
    braid: Braid, opening: Opening, station: Floats, across: Floats, phase: float, lift: float, narrowed: float
) -> Floats:
    """Offsets `(strands, n, 2)` with one opening's groups apart by `lift` more than its own, and turned."""
    off = np.abs(station - opening.host)
    ramp = min(RISE * braid.diameter, opening.half - opening.flat)
    raised = 1 - smooth_step((off - (opening.half - ramp)) / ramp)
    end = opening.half - 0.5 * ramp
    share = smooth_step((off - opening.flat) / (end - opening.flat))
    along = share * np.sign(station - opening.host)
    law = top_group(braid, opening, phase)
    moved = across.copy()
    for members, turns in ((law, opening.turns[0]), (~law, opening.turns[1])):
        if turns:
            narrow = 1 - (1 - narrowed) * np.sin(np.pi * share) ** 2
            moved = _turned(moved, members, np.pi * turns * (1 + along), narrow)
    sides = law.copy()
    sides[list(opening.moved)] ^= True
    moved[..., 1] += np.where(sides, 1.0, -1.0)[:, None] * raised * (opening.lift + lift)
    return moved


def across(
    braid: Braid,
    openings: tuple[Opening, ...],
    phase: float,
    station: Floats,
    radius: Floats | None = None,
    lift: float = 0.0,
    narrowed: float = NARROWED,
) -> Floats:
    """Where each strand runs across the rope, `(strands, n, 2)` mm: along the in-plane normal, and up.

    radius: `(n,)` mm, the strands' mean distance from the axis where it isn't the braid's own. lift: how much further
    than their own lift the openings' groups lie apart, mm; narrowed: share of its width a turned group keeps.
    """
    parted = parted_ones(openings)
    ahead = sum((_held(braid, opening, station) for opening in parted), np.zeros_like(station))
    mean = np.full_like(station, braid.radius) if radius is None else radius
    swollen = np.maximum(mean, braid.radius)
    out, angle = strand_offsets(braid, station + braid.pick + phase + ahead, swollen)
    out = out * (mean / swollen)
    lie = np.stack([out * np.cos(angle), out * np.sin(angle)], axis=-1)
    for opening in parted:
        lie = _parted(braid, opening, station, lie, phase, lift, narrowed)
    return lie


@lru_cache(maxsize=256)
def _taken(braid: Braid, opening: Opening, phase: float) -> tuple[Floats, Floats]:
    """Stations from an opening's centre `(n,)` and the axis it has taken up to there `(n,)`, mm; 0 at the centre.

    The groups' way round what goes between them is made of the strands' own length, so the axis shortens.
    """
    reach = 4 * opening.half + 2 * braid.diameter
    local = replace(opening, host=0.0)
    step = _step(braid)
    off = np.arange(-np.ceil(reach / step), np.ceil(reach / step) + 1) * step
    shift = opening.host + phase
    sideways = np.linalg.norm(np.diff(across(braid, (local,), shift, off), axis=1), axis=2)
    own = np.linalg.norm(np.diff(straight(braid, off + braid.pick + shift), axis=1), axis=2)
    along = np.sqrt(np.maximum(own**2 - sideways**2, (0.2 * step) ** 2)).mean(axis=0)
    taken = np.concatenate([[0.0], np.cumsum(step - along)])
    return off, taken - np.interp(0.0, off, taken)


def arc_lengths(braid: Braid, openings: tuple[Opening, ...], station: Floats, phase: float = 0.0) -> Floats:
    """Arc length of stations `(n,)` along the axis, mm, 0 at H1's centre: openings shorten it."""
    arc = np.asarray(station, dtype=float)
    for opening in parted_ones(openings):
        off, taken = _taken(braid, opening, phase)
        at = np.interp(np.array([0.0]) - opening.host, off, taken)
        arc = arc - (np.interp(station - opening.host, off, taken) - at)
    return arc
