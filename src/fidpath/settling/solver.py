"""The settling: thin start, a ramp of the contact thickness, sweeps until the bound is met, and a guard.

No node moves further in a sweep than a share of the least distance between centre lines at its beginning; so
(least distance - 2 x largest move)/thickness > 0 in every sweep certifies that no strand crossed another.

The ramp goes at the pace that contact allows: fast while little is pressed, slow where strands are squeezed. The guard
lets nodes move less where the certificate would fall below KEPT.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.errors import CannotBeMade
from fidpath.geometry import Strands, table
from fidpath.settling import contact_kernels as kernels
from fidpath.states import Draft

RAMP, STEPS = 100, 20
"""Sweeps of the ramp at full pace, and the steps in which the goal is moved from the thin start to the laid braid."""

FIRST_THICKNESS = 0.12
"""Contact thickness at the start, as a share of the strands' own."""

FIRMNESS = 0.5
"""How firmly a strand's displacement from the laid braid is smoothed in a sweep."""

FREE, PRESSED, SLOWEST = 0.08, 0.22, 0.2
"""The ramp goes at full pace up to a worst overlap of FREE, at SLOWEST of it from PRESSED on (measured in trials)."""

CAP, SHARE = 0.08, 0.25
"""A node moves at most CAP of the thickness and SHARE of the least distance in a sweep."""

KEPT, LEAST_SHARE = 0.7, 0.03
"""A node moves so little that the certificate stays at KEPT, but may always move LEAST_SHARE of the least distance."""

SKIN, AHEAD = 0.4, 0.176
"""Neighbours are listed this far beyond contact, in thicknesses, and anew once nodes have moved half of it; during the
ramp for AHEAD more of the full thickness than there is."""

ROUNDING = 1e-9
"""Added to what gaps can have closed by in a sweep, in thicknesses: more than rounding can."""

HOLD = 5
"""Sweeps at full thickness before the first look at the overlap."""

CREEP = 0.1
"""From then on, share by which laid shape and rest lengths give way in every sweep to what contact asks for."""

TELL = 6
"""Sweeps between two reports of progress."""

BOUND = 0.0015
MOST_SWEEPS = 900
INDEX_GAP = 1.5

LAST_SWEEPS = 120
"""Sweeps at most in which strands that lie nearly right are pressed apart."""


@dataclass(frozen=True)
class Effort:
    """How much work a settling may be: sweeps of the ramp at its full pace, and sweeps in all."""

    ramp: int = RAMP
    most_sweeps: int = MOST_SWEEPS


FULL = Effort()


@dataclass(frozen=True)
class Log:
    """What the solver says of itself: its certificate, sweeps, seconds, and the overlap it stopped at."""

    certificate_min: float
    sweeps: int
    settle_seconds: float
    overlap: float


@dataclass(frozen=True)
class Settled:
    """Settled strands, the draft they came from, and the solver's log.

    between: placings `(strands, n, 3)` mm on the way from the thin start to `strands`, in order, where any were kept.
    """

    strands: Strands
    draft: Draft
    log: Log
    between: tuple[Floats, ...] = ()


@dataclass
class Flat:
    """Live nodes as one list, and what the kernels need beside them."""

    x: Floats
    begin: Floats
    begin_rest: Floats
    laid: Floats
    start: Ints
    rest: Floats
    thick: Floats
    strand: Ints
    ignore: Bools
    gap: Ints


def _lengths(x: Floats) -> Floats:
    """Length of the segment after each node, `(m,)`; meaningless after a strand's last."""
    return np.asarray(np.linalg.norm(np.diff(x, axis=0, append=x[-1:]), axis=1))


def _thickest(thickness: Floats) -> Floats:
    """Thickness of the segment after each column, `(n,)`: that of its thicker end."""
    return np.asarray(np.maximum(thickness, np.append(thickness[1:], thickness[-1])))


def flatten(draft: Draft, begin: Floats) -> Flat:
    """Live nodes of a draft, beginning at `begin` `(strands, n, 3)`, as the kernels want them."""
    laid = draft.laid
    alive = laid.alive
    last = np.zeros_like(alive)
    last[np.arange(len(laid.count)), laid.count - 1] = True
    strand = np.where(last, -1, np.arange(len(laid.count))[:, None])
    column = np.broadcast_to(np.arange(alive.shape[1]), alive.shape)
    columns = np.array([rope.braid.diameter / rope.step for rope in laid.ropes])[laid.rope][:, None]
    longest = np.array([laid.count[laid.members(rope)].max() for rope in range(len(laid.ropes))])[laid.rope][:, None]
    ignore = (column < np.ceil(columns)) | (column >= longest - np.ceil(columns))
    return Flat(
        x=begin[alive],
        begin=begin[alive],
        begin_rest=_lengths(begin[alive]),
        laid=laid.points[alive],
        start=np.concatenate([[0], np.cumsum(laid.count)]).astype(np.int64),
        rest=np.pad(draft.rest, ((0, 0), (0, 1)))[alive],
        thick=laid.by_strand(lambda rope: _thickest(rope.thickness))[alive],
        strand=strand[alive].astype(np.int64),
        ignore=ignore[alive],
        gap=np.broadcast_to(np.ceil(INDEX_GAP * columns).astype(np.int64), alive.shape)[alive],
    )


def _seat(laid: Strands) -> Floats | None:
    s = laid.seat
    return None if s is None else np.array([s.crown, s.nose, s.reach, s.groove, s.lip, s.half_width])


def _pace(overlap: float) -> float:
    """Share of the ramp's full pace where the worst overlap is `overlap` of the thickness."""
    return min(max((PRESSED - overlap) / (PRESSED - FREE), SLOWEST), 1.0)


def _most(least: float, thickness: float, cap: float) -> float:
    """How far a node may move, mm, where centre lines of strands now so thick are `least` mm apart."""
    return min(cap, SHARE * least, max((least - KEPT * thickness) / 2, LEAST_SHARE * least))


class _Sweeper:
    """One settling under way: the nodes, their neighbours, the shape they are drawn to, and the guard's record.

    `share` is how much of the ramp is done.
    """

    def __init__(self, draft: Draft, effort: Effort, guarded: bool) -> None:
        self.flat = flatten(draft, draft.thin if guarded else draft.laid.points)
        self.effort, self.guarded = effort, guarded
        self.seat = _seat(draft.laid)
        self.centre = draft.laid.seat_centre
        self.rods = table(draft.laid.rods)
        self.thickness = min(rope.braid.thickness for rope in draft.laid.ropes)
        self.goal = self.flat.laid
        self.rest = self.flat.rest
        self.pairs = np.empty((0, 2), np.int64)
        self.active = np.empty(0, np.int64)
        self.apart_until = np.empty(0)
        self.closed = 0.0
        self.least = np.zeros(2)
        self.certificate = 1.0
        self.listed = -1.0
        self.listed_at = self.flat.x
        self.grown = 0.0
        self.wandered = 0.0
        self.moved = self.thickness
        self.share, self.drawn = (0.0, 0) if guarded else (1.0, STEPS)

    def _list_neighbours(self, grown: float) -> None:
        """Lists the neighbours anew where the thickness has grown or nodes have moved too far for the old list."""
        if grown <= self.listed and not self._strayed():
            return
        flat = self.flat
        grown = min(1.0, max(grown, self.listed) + AHEAD)
        room = (SKIN + 2 * CAP) * self.thickness
        self.pairs = kernels.neighbours(flat.x, flat.strand, flat.gap, flat.thick * grown, room)
        self.active = np.empty(len(self.pairs), np.int64)
        self.apart_until = np.full(len(self.pairs), -np.inf)
        self.listed, self.listed_at, self.wandered, self.closed = grown, flat.x.copy(), 0.0, 0.0

    def _strayed(self) -> bool:
        """Whether a node has moved too far since the neighbours were listed: the cheap sum of moves first."""
        most = SKIN * self.thickness / 2
        if self.wandered >= most:
            off = self.flat.x - self.listed_at
            self.wandered = float(np.sqrt(np.einsum("ij,ij->i", off, off).max()))
        return self.wandered >= most

    def _grow(self, grown: float) -> None:
        """Notes how far gaps close as the thickness grows."""
        self.closed += max(grown - self.grown, 0.0) * float(self.flat.thick.max())
        self.grown = grown

    def draw_toward_laid(self) -> None:
        """Moves the goal from the thin start to the laid braid, in steps, as far as the ramp has come."""
        step = min(int(self.share * STEPS) + 1, STEPS)
        if step > self.drawn:
            flat, share = self.flat, step / STEPS
            self.goal = flat.begin + share * (flat.laid - flat.begin)
            self.rest = flat.begin_rest + share * (flat.rest - flat.begin_rest)
            self.drawn = step

    def give_way(self) -> None:
        """Lets the goal creep toward what contact has made of it."""
        self.goal = self.goal + CREEP * (self.flat.x - self.goal)
        self.rest = self.rest + CREEP * (_lengths(self.flat.x) - self.rest)

    def sweep(self) -> float:
        """One sweep at the thickness of this place on the ramp, and a step up it; returns the sweep's certificate.

        Pairs not listed are further apart than contact and twice the cap, so they neither touch nor set the guard.
        """
        flat, grown = self.flat, FIRST_THICKNESS + (1 - FIRST_THICKNESS) * self.share
        self._list_neighbours(grown)
        self._grow(grown)
        thick = flat.thick * grown
        before = flat.x.copy()
        cap = min(CAP * self.thickness, max(2 * self.moved, 0.01 * self.thickness))
        count = kernels.near_pairs(
            flat.x, self.pairs, thick, 2 * cap, self.apart_until, self.closed, self.active, self.least
        )
        least = min(float(self.least[0]), float(thick.min()) + 2 * cap)
        kernels.relax(flat.x, self.goal, flat.start, self.rest, FIRMNESS, 2)
        if self.seat is not None:
            kernels.keep_out(flat.x, self.seat, self.centre, thick)
        if len(self.rods):
            kernels.keep_out_of_rods(flat.x, self.rods, thick, grown)
        kernels.push_apart(flat.x, self.pairs, self.active, count, thick)
        most = _most(least, self.thickness * grown, cap) if self.guarded else 10 * self.thickness
        self.moved = kernels.hold_back(flat.x, before, most)
        self.wandered += self.moved
        self.closed += 2 * self.moved + ROUNDING * self.thickness
        self.share = min(self.share + _pace(float(self.least[1])) / self.effort.ramp, 1.0)
        certificate = (least - 2 * self.moved) / (self.thickness * grown)
        self.certificate = min(self.certificate, certificate)
        return certificate

    def overlap(self) -> float:
        """Worst overlap now, away from the model's own cut ends."""
        flat = self.flat
        worst = kernels.worst_overlap(flat.x, self.pairs, flat.thick, self.apart_until, self.closed, flat.ignore)
        return float(worst)


def settle(
    draft: Draft,
    *,
    guarded: bool = True,
    progress: Callable[[float], None] | None = None,
    bound: float = BOUND,
    effort: Effort = FULL,
) -> Settled:
    """Settles a draft until no overlap exceeds `bound`.

    `guarded=False` leaves ramp and guard out: the control that must tunnel.

    Raises CannotBeMade where the certificate or the overlap can't be had; the message gives the figures.
    """
    began = time.perf_counter()
    laid = draft.laid
    run = _Sweeper(draft, effort, guarded)
    sweeps, overlap = _run(run, progress, bound)
    points = laid.points.copy()
    points[laid.alive] = run.flat.x
    seconds = time.perf_counter() - began
    return Settled(replace(laid, points=points), draft, Log(run.certificate, sweeps, seconds, overlap))


def pressed_apart(settled: Settled, bound: float = BOUND) -> Settled:
    """Strands that are nearly settled, pressed apart from where they lie until no overlap exceeds `bound`.

    Where that can't be had in LAST_SWEEPS, the overlap that is left is in the log.
    """
    strands = settled.strands
    lies = np.linalg.norm(np.diff(strands.points, axis=1), axis=2)
    run = _Sweeper(Draft(strands, strands.points, lies), FULL, guarded=True)
    run.share, run.drawn = 1.0, STEPS
    sweeps = 0
    while (sweeps == 0 or run.overlap() >= bound) and sweeps < LAST_SWEEPS:
        run.give_way()
        run.sweep()
        sweeps += 1
    points = strands.points.copy()
    points[strands.alive] = run.flat.x
    log = replace(
        settled.log,
        certificate_min=min(settled.log.certificate_min, run.certificate),
        sweeps=settled.log.sweeps + sweeps,
        overlap=run.overlap(),
    )
    return replace(settled, strands=replace(strands, points=points), log=log)


def _run(run: _Sweeper, progress: Callable[[float], None] | None, bound: float) -> tuple[int, float]:
    """Sweeps until no overlap exceeds the bound, or as often as it may: how many there were, and the overlap."""
    held = 0
    for sweep in range(run.effort.most_sweeps):
        if progress is not None and sweep % TELL == 0:
            progress(min(0.99, sweep / (2.5 * run.effort.ramp)))
        if held > HOLD:
            overlap = run.overlap()
            if overlap < bound:
                return sweep, overlap
            run.give_way()
        run.draw_toward_laid()
        held += run.share >= 1
        certificate = run.sweep()
        if run.guarded and certificate < 0.01:
            raise CannotBeMade(
                f"the strands can't be settled: the guard's certificate fell to {certificate:.3f} in sweep {sweep}",
                "Use a longer pitch, a larger hole gap or a narrower throat",
                key="rope.pitch",
            )
    return run.effort.most_sweeps, run.overlap()
