"""Rope states between rope states: headings, lengths and anchors shared out, and the passes closed again.

Headings are piecewise linear in the arc length from H1, before they are blended. Between two states every piece gets
its share of both lengths and of both turns, so it bends no tighter than the tighter of the two; then the least change
of the pieces' turns (square of the change over the length) brings every guest back into its hole.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.errors import CannotBeMade
from fidpath.geometry import DWELL, Braid, Chain, Opening, arc_lengths, curvature, heading, points, stations
from fidpath.states import Pass, Pull, RopeState, axis_of

Anchors = tuple[Floats, Floats, Floats]

FAR = 1e-6
"""A pass is closed when its guest is this near its place in the host, in rope diameters."""

TRIES = 30
"""Rounds of the closing before it is given up."""

GRID = 0.25
"""Spacing of the places at which the effect of a turn is summed, in rope diameters."""

SLIDE = 3.0
"""How lightly a guest slides: so many rope diameters for what a piece a millimetre long turns in a radian."""

HANDED_ON = 0.5
"""Share of the way at which a hand lets one place go and holds the other."""

MOST_TURN = 0.6
"""Largest change of a piece's turn in a round of the closing, radians."""


@dataclass(frozen=True)
class HeadingCurve:
    """A plane curve by its headings: knots `arc` `(n,)` mm from H1, `heading` `(n,)` radians there, blended over
    `blend` mm."""

    arc: Floats
    heading: Floats
    blend: float


@dataclass(frozen=True)
class Closure:
    """Where the rope at arc length `guest` has to be: `off` (along the host, to its left) from the rope at `host`, mm.

    Without a host `off` is a place on the table, H1 at its origin. `turn`: how far the guest has turned from the host's
    heading (from the table's x axis), radians. Either is left free where it is None. `slides`: the guest's arc length
    is only a guess.
    """

    guest: float
    off: tuple[float, float] | None
    host: float | None = None
    turn: float | None = None
    slides: bool = False


def shape_of(state: RopeState) -> HeadingCurve:
    """The state's curve by its headings."""
    line = state.chain
    arc = np.concatenate([[0.0], np.cumsum(line.lengths)]) - state.arc_zero
    return HeadingCurve(arc, line.heading + np.concatenate([[0.0], np.cumsum(line.turns)]), line.blend)


def chain_of(shape: HeadingCurve) -> tuple[Chain, float]:
    """The chain of a shape with H1 at the table's origin, and H1's arc length on it."""
    line = Chain(np.diff(shape.arc), np.diff(shape.heading), shape.blend, float(shape.heading[0]))
    h1 = -float(shape.arc[0])
    x, y = points(line, np.array([h1]))[0]
    return replace(line, start=(-float(x), -float(y))), h1


def shared(
    a: HeadingCurve, b: HeadingCurve, anchors: Anchors, share: float, beyond: float | None = None
) -> HeadingCurve:
    """The shape `share` of the way from a to b; `anchors`: rising arc lengths `(m,)` in a, in b and in the shape, mm.

    Between anchors arc lengths are matched by their share, beyond the outer ones by their distance from them. Turns
    after the last anchor are `beyond` of the way, if it is given.
    """
    arcs, headings = [], []
    for j in range(-1, len(anchors[0])):
        u, to_a, to_b, to = _stretch(a, b, anchors, j)
        arcs.append(to(u))
        both = [np.interp(t(u), s.arc, s.heading) for s, t in ((a, to_a), (b, to_b))]
        headings.append((1 - share) * both[0] + share * both[1])
    if beyond is not None:
        headings[-1] += (beyond - share) * ((both[1] - both[1][0]) - (both[0] - both[0][0]))
    arc, first = np.unique(np.concatenate(arcs).round(9), return_index=True)
    return HeadingCurve(arc, np.concatenate(headings)[first], a.blend)


def straightened(shape: HeadingCurve, start: float, end: float) -> HeadingCurve:
    """The shape with whole turns left out of the rope between two arc lengths: it turns the short way."""
    first, last = np.interp([start, end], shape.arc, shape.heading)
    whole = 2 * np.pi * np.round((last - first) / (2 * np.pi))
    before, after = shape.arc < start - 1e-9, shape.arc > end + 1e-9
    arc = np.concatenate([shape.arc[before], [start, end], shape.arc[after]])
    return replace(
        shape,
        arc=arc,
        heading=np.concatenate([shape.heading[before], [first, last - whole], shape.heading[after] - whole]),
    )


class _Scale:
    """Arc length of a shape from a stretch's own measure: shares of it between anchors, mm beyond the outer ones."""

    def __init__(self, anchors: Floats, j: int) -> None:
        self.start = float(anchors[max(j, 0)])
        outer = j < 0 or j == len(anchors) - 1
        self.long = 1.0 if outer else float(anchors[j + 1] - anchors[j])

    def __call__(self, u: Floats) -> Floats:
        return self.start + self.long * u

    def knots(self, shape: HeadingCurve) -> Floats:
        """The shape's own knots in the stretch's measure; none where the stretch has no length."""
        return np.empty(0) if self.long < 1e-9 else (shape.arc - self.start) / self.long


def _stretch(a: HeadingCurve, b: HeadingCurve, anchors: Anchors, j: int) -> tuple[Floats, _Scale, _Scale, _Scale]:
    """Both shapes' knots in the stretch after anchor j (-1: before the first), and the scales to all three."""
    to_a, to_b, to = (_Scale(at, j) for at in anchors)
    last = len(anchors[0]) - 1
    low, high = (-np.inf, 0.0) if j < 0 else (0.0, np.inf if j == last else 1.0)
    knots = np.concatenate([to_a.knots(a), to_b.knots(b), [low, high]])
    knots = knots[(knots >= low) & (knots <= high) & np.isfinite(knots)]
    return np.unique(knots.round(12)), to_a, to_b, to


def closed(shape: HeadingCurve, closures: Sequence[Closure], unit: float) -> tuple[HeadingCurve, list[Closure]]:
    """The shape with the least change of its turns from H1 on that meets the closures, and these with their guests
    where they have slid to; `unit`: a rope diameter, mm.

    Raises CannotBeMade where they can't be met.
    """
    reach = max((max(c.guest, c.host or 0.0) for c in closures), default=0.0)
    free = np.flatnonzero((shape.arc[:-1] >= -1e-9) & (shape.arc[:-1] < reach) & (np.diff(shape.arc) > 1e-9))
    slides = [i for i, c in enumerate(closures) if c.slides]
    ease = np.concatenate([np.sqrt(np.diff(shape.arc)[free]), np.full(len(slides), SLIDE * unit)])
    change = np.zeros(len(ease))
    for _ in range(TRIES if closures else 0):
        turned, now = _changed(shape, closures, free, slides, ease * change)
        miss, slope = _misses(turned, now, free, slides, unit)
        if np.abs(miss).max() < FAR * unit:
            return turned, now
        slope = slope * ease
        step = np.linalg.lstsq(slope, slope @ change - miss, rcond=1e-10)[0] - change
        turn = float(np.abs(ease * step)[: len(free)].max(initial=0.0))
        change = change + step * min(1.0, MOST_TURN / max(turn, 1e-9))
    if not closures:
        return shape, []
    raise CannotBeMade(
        f"no bend of the rope brings its passes together: {np.abs(miss).max() / unit:.2g} d are left",
        "Make the eye longer",
        key="line.ends.eye_length",
    )


def _changed(
    shape: HeadingCurve, closures: Sequence[Closure], pieces: Ints, slides: list[int], change: Floats
) -> tuple[HeadingCurve, list[Closure]]:
    """The shape with turns added to its pieces, and the closures with their guests slid on; both from `change`."""
    more = np.zeros(len(shape.arc))
    more[pieces + 1] = change[: len(pieces)]
    slid = dict(zip(slides, change[len(pieces) :].tolist(), strict=True))
    now = [replace(c, guest=c.guest + slid.get(i, 0.0)) for i, c in enumerate(closures)]
    return replace(shape, heading=shape.heading + np.cumsum(more)), now


def _swing(shape: HeadingCurve, pieces: Ints, s: Floats) -> Floats:
    """Change of the heading at arc lengths `(n,)` for a unit turn of each piece, `(n, m)`: blended ramps."""
    start, long = shape.arc[pieces], np.diff(shape.arc)[pieces]

    def area(x: Floats) -> Floats:
        inside = np.clip(x, 0.0, long)
        return np.asarray(inside**2 / (2 * long) + np.maximum(x - long, 0.0))

    off = s[:, None] - start
    return np.asarray((area(off + shape.blend / 2) - area(off - shape.blend / 2)) / shape.blend)


def _misses(
    shape: HeadingCurve, closures: Sequence[Closure], pieces: Ints, slides: list[int], unit: float
) -> tuple[Floats, Floats]:
    """How far the closures are from being met, `(rows,)` mm, and the change of that with each piece's turn and each
    sliding guest's arc length, `(rows, m)`."""
    line, h1 = chain_of(shape)
    arcs = np.array([[c.guest, 0.0 if c.host is None else c.host] for c in closures])
    grid = np.unique(np.concatenate([arcs.ravel(), [0.0], np.arange(arcs.min(), arcs.max(), GRID * unit)]))
    place, at = points(line, grid + h1), heading(line, grid + h1)
    ahead = np.stack([np.cos(at), np.sin(at)], axis=1)
    left = np.stack([-ahead[:, 1], ahead[:, 0]], axis=1)
    swing = _swing(shape, pieces, grid)
    moved = _summed(grid, left[:, None, :] * swing[:, :, None])
    bend = curvature(line, grid + h1)
    misses, slopes = [], []
    for number, (c, (i, j)) in enumerate(zip(closures, np.searchsorted(grid, arcs), strict=True)):
        hosted = c.host is not None
        own = np.zeros(len(slides)) + [float(number == k) for k in slides]
        if c.off is not None:
            to = np.array(c.off) if not hosted else place[j] + c.off[0] * ahead[j] + c.off[1] * left[j]
            carried = moved[j] + np.outer(swing[j], c.off[0] * left[j] - c.off[1] * ahead[j]) if hosted else 0.0
            misses.append(place[i] - to)
            slopes.append(np.column_stack([(moved[i] - carried).T, np.outer(ahead[i], own)]))
        if c.turn is not None:
            base, swung = (at[j], swing[j]) if hosted else (0.0, 0.0)
            misses.append(unit * np.array([at[i] - base - c.turn]))
            slopes.append(unit * np.concatenate([swing[i] - swung, bend[i] * own])[None, :])
    return np.concatenate(misses), np.concatenate(slopes)


def _summed(grid: Floats, rate: Floats) -> Floats:
    """Integral of `rate` `(n, ...)` over the grid `(n,)` from 0."""
    step = np.diff(grid).reshape(-1, *[1] * (rate.ndim - 1))
    total = np.concatenate([np.zeros((1, *rate.shape[1:])), np.cumsum((rate[1:] + rate[:-1]) / 2 * step, axis=0)])
    return np.asarray(total - total[np.searchsorted(grid, 0.0)])


def shut(braid: Braid, opening: Opening) -> Opening:
    """The opening as it is before it is opened: the braid undisturbed but for turns its groups hold."""
    half = opening.half if any(opening.turns) else DWELL * braid.pick
    return replace(opening, half=half, flat=0.0, lift=opening.lift if any(opening.turns) else 0.0)


def openings_between(braid: Braid, a: RopeState, b: RopeState, share: float) -> tuple[Opening, ...]:
    """Every opening of both states, its sizes shared out; one that a state lacks is shut there.

    Raises CannotBeMade where the turns of its groups differ.
    """
    names = list(dict.fromkeys(o.name for o in (*a.openings, *b.openings)))
    found = []
    for name in names:
        pair = [next((o for o in s.openings if o.name == name), None) for s in (a, b)]
        one = next(o for o in pair if o is not None)
        first, last = (shut(braid, one) if o is None else o for o in pair)
        found.append(resized(first, last, share))
    return tuple(found)


def resized(a: Opening, b: Opening, share: float) -> Opening:
    """The opening `share` of the way from a to b in size. Raises CannotBeMade where its groups' turns differ."""
    if a.turns != b.turns or a.host != b.host:
        raise CannotBeMade(f"{a.name}'s groups can't change their turns while the rope only moves")
    half, flat, lift = ((1 - share) * x + share * y for x, y in ((a.half, b.half), (a.flat, b.flat), (a.lift, b.lift)))
    return replace(a, half=half, flat=flat, lift=lift)


def offsets(braid: Braid, state: RopeState) -> Floats:
    """Where each pass's guest lies from its hole's centre, along the host and to its left, mm, and its turn from the
    host's heading, radians: `(passes, 3)`."""
    found = []
    for passing in state.passes:
        both = np.array([state.opening(passing.hole).host, passing.guest])
        axis, left = axis_of(state, both)
        arc = arc_lengths(braid, state.openings, both, state.phase) + state.arc_zero
        off, at = (axis[1] - axis[0])[:2], heading(state.chain, arc)
        found.append((off @ [left[0, 1], -left[0, 0]], off @ left[0, :2], at[1] - at[0]))
    return np.asarray(found, dtype=float).reshape(-1, 3)


def between(
    braid: Braid,
    a: RopeState,
    b: RopeState,
    share: float,
    *,
    openings: tuple[Opening, ...] | None = None,
    passes: Sequence[Pass] | None = None,
    places: Sequence[GuestPlace] | None = None,
    fixed: Sequence[Closure] = (),
    beyond: float | None = None,
) -> RopeState:
    """The state `share` of the way from a to b, which have the same passes in the same order along the rope.

    `openings`, `passes` (the guests' stations) and `places` (in which passes are closed) may be set otherwise than
    shared out; `fixed` are closures without a host met besides, their guests being stations, and anchors too. Beyond
    the last anchor the rope's turns are `beyond` of the way. Both states' hands pull with their share. Extent, tip and
    all else are a's.

    Raises CannotBeMade where no shape closes.
    """
    openings = openings_between(braid, a, b, share) if openings is None else openings
    passes = passes_between(a, b, share) if passes is None else passes
    places = places_between(braid, a, b, share) if places is None else places
    state = replace(a, openings=openings, passes=tuple(passes), heading=(1 - share) * a.heading + share * b.heading)
    shape = shared(shape_of(a), shape_of(b), _anchors(braid, (a, b, state), fixed), share, beyond)
    held = [replace(c, guest=float(arc_lengths(braid, openings, np.array([c.guest]))[0])) for c in fixed]
    shape, met = closed(shape, [*(_closure(braid, state, place) for place in places), *held], braid.diameter)
    slid = {place.index: _station(braid, openings, c.guest) for place, c in zip(places, met, strict=False) if c.slides}
    line, h1 = chain_of(shape)
    slidden = tuple(replace(p, guest=slid.get(i, p.guest)) for i, p in enumerate(state.passes))
    pulls, grips = _pulls_between(a, b, share), (a if share < HANDED_ON else b).grips
    return replace(state.lying(chain=line, arc_zero=h1), passes=slidden, pulls=pulls, grips=grips)


def _pulls_between(a: RopeState, b: RopeState, share: float) -> tuple[Pull, ...]:
    """The pulls of both states' hands: the one's grow weaker as the other's grow stronger."""
    weights = ((a, 1 - share), (b, share))
    return tuple(
        replace(pull, force=weight * pull.force) for state, weight in weights for pull in state.pulls if weight
    )


@dataclass(frozen=True)
class GuestPlace:
    """Where a pass's guest lies from its hole's centre (along the host, to its left; mm), and its turn from the host's
    heading (radians); None leaves either free. `index`: which of the state's passes. `slides`: its station is a guess.
    """

    index: int
    off: tuple[float, float] | None
    turn: float | None = None
    slides: bool = False


def passes_between(a: RopeState, b: RopeState, share: float) -> tuple[Pass, ...]:
    """The passes of both states, their guests' stations shared out."""
    pairs = zip(a.passes, b.passes, strict=True)
    return tuple(replace(p, guest=(1 - share) * p.guest + share * q.guest) for p, q in pairs)


def places_between(braid: Braid, a: RopeState, b: RopeState, share: float) -> tuple[GuestPlace, ...]:
    """Every pass's place in its hole, shared out."""
    found = (1 - share) * offsets(braid, a) + share * offsets(braid, b)
    return tuple(GuestPlace(i, (float(x), float(y)), float(turn)) for i, (x, y, turn) in enumerate(found))


def _closure(braid: Braid, state: RopeState, place: GuestPlace) -> Closure:
    passing = state.passes[place.index]
    both = np.array([passing.guest, state.opening(passing.hole).host])
    guest, host = arc_lengths(braid, state.openings, both)
    return Closure(float(guest), place.off, float(host), place.turn, place.slides)


def _anchors(braid: Braid, states: tuple[RopeState, RopeState, RopeState], fixed: Sequence[Closure]) -> Anchors:
    """Arc lengths of H1, of the passes' guests and hosts, and of fixed places in three states, in one order."""
    at = []
    for state in states:
        hosts = [state.opening(p.hole).host for p in state.passes]
        at.append(np.array([0.0, *(p.guest for p in state.passes), *hosts, *(c.guest for c in fixed)]))
    order = np.lexsort((at[1], at[0]))
    a, b, c = (arc_lengths(braid, state.openings, x[order]) for state, x in zip(states, at, strict=True))
    if min(float(np.diff(arc, append=np.inf).min()) for arc in (a, b, c)) < -1e-6:
        raise CannotBeMade(f"the passes of {states[0].name} and {states[1].name} lie in another order along the rope")
    return np.maximum.accumulate(a), np.maximum.accumulate(b), np.maximum.accumulate(c)


def _station(braid: Braid, openings: tuple[Opening, ...], arc: float) -> float:
    """The station at an arc length from H1's centre."""
    room = 6 * braid.diameter
    grid = stations(braid, arc - room, arc + room)
    return float(np.interp(arc, arc_lengths(braid, openings, grid), grid))
