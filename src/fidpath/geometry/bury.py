"""What a braid does when it swallows a tail, and what the tail does inside it.

Every strand keeps its length and its place in the weave: its angle round the axis stays a function of the
rope's own station, so a cover that swells must shorten along the axis, and a squeezed tail gets longer.
On the mean circle that is sin a = (R/R0) sin a0, L/L0 = cos a/cos a0 (follows from Chou & Hannaford's braid of
inextensible strands, IEEE Trans. Robot. Autom. 12(1) (1996) 90, form from memory); here the strand's
over-and-under is counted too.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.geometry.braid import Braid

FOLD = 2.4
"""Length of a bunched cover's folds, in rope diameters of tail."""

BEFORE, AFTER = 0.6, 1.6
"""The cover swells from so many diameters before the entry (toward the eye) to so many after it."""


def smooth_step(x: Floats) -> Floats:
    """Quintic step from 0 at x <= 0 to 1 at x >= 1, flat to the second derivative at both ends."""
    t = np.clip(x, 0.0, 1.0)
    return np.asarray(t * t * t * (10 - t * (15 - 6 * t)))


def wall(braid: Braid) -> float:
    """Half the thickness of the braid's wall, mm: from its mean circle to its outermost."""
    return braid.diameter / 2 - braid.radius


def _slopes(braid: Braid, radius: Floats, wave: Floats | float = 1.0) -> Floats:
    """Squared slope of a strand across the axis, per station, over one period of the weave: `(n, phases)`."""
    phase = np.linspace(0, 2 * np.pi, 48, endpoint=False)
    turn = 2 * np.pi / braid.pitch
    over_two = braid.weave == "over-two"
    amplitude = braid.undulation * (np.sqrt(2.0) if over_two else 1.0)
    rate = braid.strands / 4 * turn if over_two else braid.strands * np.pi / braid.pitch
    height = np.atleast_1d(amplitude * np.asarray(wave))[:, None]
    r = radius[:, None] + height * np.cos(phase)
    return np.asarray((r * turn) ** 2 + (height * rate * np.sin(phase)) ** 2)


def strand_per_rope(braid: Braid) -> float:
    """Length of strand in a unit length of plain straight rope."""
    return float(np.sqrt(1 + _slopes(braid, np.array([braid.radius]))).mean())


def shortening(braid: Braid, radius: Floats, wave: Floats | float = 1.0) -> Floats:
    """Axial length of a unit of the rope's own length where its mean radius is `radius` mm, `(n,) -> (n,)`.

    `wave` scales the over-and-under, scalar or `(n,)`. Stations in a row that are alike are worked out once.
    Raises CannotBeMade where the braid would have to swell beyond what its strands' length allows.
    """
    both = np.stack(np.broadcast_arrays(np.asarray(radius, dtype=float), wave))
    new = np.concatenate([[True], np.any(both[:, 1:] != both[:, :-1], axis=0)])
    return np.asarray(_along(braid, *both[:, new])[np.cumsum(new) - 1])


def _along(braid: Braid, radius: Floats, wave: Floats) -> Floats:
    """The same for stations that all differ."""
    slopes = _slopes(braid, radius, wave)
    length = strand_per_rope(braid)
    if np.any(np.sqrt(slopes).mean(axis=1) > 0.985 * length):
        raise CannotBeMade(
            "the cover can't swell round the tail: its strands would lie straight across the rope",
            "Use a longer pitch, or a smaller squeeze (a tail that packs tighter)",
            key="rope.pitch",
        )
    along = np.ones(len(slopes))
    for _ in range(40):
        path = along[:, None] ** 2 + slopes
        off = np.sqrt(path, out=path).mean(axis=1) - length
        move = off / np.divide(along[:, None], path, out=path).mean(axis=1)
        along = np.clip(along - move, 0.02, 1.5)
        if np.abs(move).max() < 1e-14:
            break
    return along


@dataclass(frozen=True)
class Taper:
    """Where the tail's strands end: stations from the entry along the tail, mm, two strands at each drop."""

    drops: tuple[float, ...]
    tip: float
    stagger: float

    @property
    def start(self) -> float:
        """Where the taper begins."""
        return self.drops[0]


def taper(strands: int, bury_length: float, share: float, drops: int, diameter: float) -> Taper:
    """Drops equally spaced over the last `share` of the bury; the strands left over end at the tip.

    Without drops, or over no share, the tail ends blunt.

    Raises CannotBeMade where more pairs are to be dropped than the tail has to spare.
    """
    if not 0 <= drops < strands // 2:
        raise CannotBeMade(
            f"{drops} drops of two strands leave nothing of a tail of {strands}",
            f"Drop at most {strands // 2 - 1} pairs",
            key="practice.taper_drops",
        )
    if drops == 0 or share == 0:
        return Taper((bury_length,), bury_length, 0.0)
    start = bury_length * (1 - share)
    places = start + (bury_length - start) * np.arange(drops) / drops
    return Taper(tuple(float(x) for x in places), bury_length, diameter / 2)


def tail_share(strands: int, cut: Taper, station: Floats) -> Floats:
    """Share of the tail's strands present at stations `(n,)` mm from the entry, smoothed between the drops."""
    if cut.stagger == 0:
        left = np.ones_like(station)
    else:
        step = (cut.tip - cut.start) / len(cut.drops)
        left = 1 - 2 / strands * np.clip((station - cut.start) / step + 0.5, 0, len(cut.drops))
    return left


@dataclass(frozen=True)
class Cover:
    """The bury in closed form, on a table along the axis from `axial[0]` (eye side) past the tip. All mm.

    axial: distance along the axis from the entry, positive into the bury.
    tail, host: stations of the tail and of the standing part there, from the entry.
    tail_radius, cover_radius: mean radii of the tail's and the cover's strands.
    cover_rate, tail_rate: axial length of a unit of either's own length.
    packing: share of its free thickness a tail's strand keeps. planned_tip: rope of the standing part from the entry to
    where the tip will lie, where it isn't in so far yet; there a puller goes in.
    """

    axial: Floats
    tail: Floats
    host: Floats
    tail_radius: Floats
    cover_radius: Floats
    cover_rate: Floats
    tail_rate: Floats
    packing: Floats
    swollen_diameter: float
    cover_angle: float
    take_up: float
    tip_axial: float
    planned_tip: float | None = None

    @property
    def puller_in(self) -> float:
        """Rope of the standing part from the entry to where a puller goes in."""
        return self.host_length if self.planned_tip is None else self.planned_tip

    @property
    def host_length(self) -> float:
        """Rope of the standing part from the entry to the tail's tip."""
        return float(np.interp(self.tip_axial, self.axial, self.host))


def cover_radius(braid: Braid, squeeze: float, share: Floats) -> Floats:
    """Mean radius of the cover's strands over a tail of which `share` of the strands are left, `(n,)` mm."""
    core = squeeze * braid.diameter / 2 * np.sqrt(share)
    return np.asarray((braid.radius**8 + (core + wall(braid)) ** 8) ** 0.125)


def cover(braid: Braid, squeeze: float, cut: Taper, bag: float = 0.0) -> Cover:
    """The bury of a tail cut to `cut`, squeezed to `squeeze` of its free radius.

    bag: how much farther out than round the tail the cover's strands lie where it is bunched most, mm.
    """
    d = braid.diameter
    tail = np.arange(-5 * d, cut.tip + 8 * d, 0.02 * d)
    share = tail_share(braid.strands, cut, np.clip(tail, 0, cut.tip))
    inside = smooth_step((tail / d + BEFORE) / (BEFORE + AFTER))
    beyond = 1 - smooth_step((tail - cut.tip) / (2 * d) + 0.25)
    full = cover_radius(braid, squeeze, share)
    swollen = braid.radius + (full - braid.radius) * inside * beyond
    swollen = swollen + bag * _bunch(tail / d, cut.tip / d)
    squeezed = 1 + (squeeze - 1) * inside
    thin = np.sqrt(share)
    core = braid.radius * squeezed * np.where(tail > 0, thin, 1.0)
    cover_rate = shortening(braid, swollen)
    tail_rate = shortening(braid, core, core / braid.radius)
    axial = _from_entry(tail, tail, tail_rate)
    host = _from_entry(tail, axial, 1 / cover_rate)
    take_up = float(np.trapezoid(1 - cover_rate, host))
    widest = float(cover_radius(braid, squeeze, np.ones(1))[0])
    angle = float(np.arctan2(2 * np.pi * widest, braid.pitch * shortening(braid, np.array([widest]))[0]))
    tip = float(np.interp(cut.tip, tail, axial))
    return Cover(
        axial,
        tail,
        host,
        core,
        swollen,
        cover_rate,
        tail_rate,
        squeezed,
        2 * (widest + wall(braid)),
        angle,
        take_up,
        tip,
    )


def _bunch(along: Floats, tip: float) -> Floats:
    """How much a cover is bunched, 0 to 1, at places `(n,)` along a tail, in rope diameters: baggy, in folds."""
    rises, falls = smooth_step((along - 1.0) / 3.0), 1 - smooth_step((along - tip) / 3.0)
    return np.asarray(rises * falls * (0.8 + 0.2 * np.cos(2 * np.pi * along / FOLD)))


def _from_entry(tail: Floats, along: Floats, rate: Floats) -> Floats:
    """Integral of `rate` over `along`, zero at the entry (tail station 0)."""
    total = np.concatenate([[0.0], np.cumsum(np.diff(along) * (rate[1:] + rate[:-1]) / 2)])
    return np.asarray(total - np.interp(0.0, tail, total))
