"""The wrap at true size: a paper sleeve once round the rope, the braid's lattice unrolled on it, to find a hole by.

On paper x runs along the rope toward the tail's end and y round it, downward from the host's left over its top to its
right, as seen from outside; a strand's slope is pi d/P, exactly, after `braid.strand_angles`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Bools, Floats, Ints
from fidpath.geometry import Braid, Part, hands, lift, strand_angles
from fidpath.outputs.handout.true_size import BOLD, FINE, THIN, Dot, Drawing, Polygon, Stroke, Word, box

LONGEST = 160.0
"""Longest sleeve, mm."""

UNDER = 0.16
"""Share of a pick that a strand's line stops short of one it runs under, either side."""

STEPS = ((0,), (0, 1), (1, 0), (0, 1, 2), (2, 1, 0))
"""Ways to set every other number further from the hole, in picks."""

CHIP = 1.75
"""Radius of a strand's number, mm; sleeves with less room leave numbers to the enlarged one."""


@dataclass(frozen=True)
class LatticePlace:
    """Where a fid may go in or out: picks along the rope from the hole's middle, and N-ths of the way round."""

    along: int
    round: int


@dataclass(frozen=True)
class Numbered:
    """A strand in one of a hole's groups, numbered from the host's left, as on the fid steps."""

    strand: int
    group: Part
    number: int


@dataclass(frozen=True)
class Sleeve:
    """A sleeve's measures, mm: `along` the rope to either side of the hole, `round` it; `scale` 1 at true size.

    mirrored: whether the fid goes in at the host's right.
    """

    braid: Braid
    picks: int
    scale: float = 1.0
    mirrored: bool = False

    @property
    def along(self) -> float:
        """From the hole's middle to the sleeve's end."""
        return self.picks * self.braid.pick * self.scale

    @property
    def round(self) -> float:
        """The rope's circumference."""
        return math.pi * self.braid.diameter * self.scale

    @property
    def flap(self) -> float:
        """What overlaps for pasting."""
        return min(max(self.round / 5, 4.0), 9.0)

    def across(self, angle: Floats | float) -> Floats:
        """Where an angle round the rope lies on the sleeve, before it is brought into one turn, mm."""
        quarter = math.pi / 2
        return np.asarray((np.asarray(angle) + quarter) * self.round / (2 * math.pi))


def sleeve(braid: Braid, scale: float = 1.0, mirrored: bool = False) -> Sleeve:
    """A sleeve half a pitch to either side of the hole, less where the paper is too short; an even number of picks."""
    fit = int(LONGEST / 2 / (braid.pick * scale))
    return Sleeve(braid, min(braid.strands // 2, fit) // 2 * 2, scale, mirrored)


def angles_from(braid: Braid, off: Floats) -> tuple[Floats, Floats]:
    """Every strand's angle from the host's left, radians, and how far over or under it runs, each `(strands, n)`.

    `off` `(n,)` mm: rope from a hole's middle. A hole's mouth lies a pick off the braid's crossings there, as in the
    model: the groups of a hole at station s are parted by the angles at s + P/N.
    """
    station = np.asarray(off) + braid.pick
    angle = strand_angles(braid.strands, braid.pitch, station)
    return angle, lift(braid.strands, braid.weave, braid.pitch, station, angle)


def places(braid: Braid, picks: int) -> tuple[LatticePlace, ...]:
    """Every legal place within so many picks of the hole: middles of diamonds, where n + q is odd; q from the entry."""
    return tuple(LatticePlace(n, q) for n in range(-picks, picks + 1) for q in range(braid.strands) if (n + q) % 2 == 0)


def numbered(braid: Braid) -> tuple[Numbered, ...]:
    """Strands at the hole in the top and bottom groups, each numbered 1 to N/2 from the host's left to its right."""
    angle, over = angles_from(braid, np.zeros(1))
    off = angle[:, 0] % (2 * math.pi)
    left = np.round((braid.radius + braid.undulation * over)[:, 0] * np.cos(off), 9)
    hand = hands(braid.strands)
    found = []
    for group, members in ((Part.TOP_GROUP, off < math.pi), (Part.BOTTOM_GROUP, off >= math.pi)):
        order = sorted(np.flatnonzero(members).tolist(), key=lambda k: (-left[k], -hand[k]))
        found += [Numbered(k, group, i) for i, k in enumerate(order, 1)]
    return tuple(found)


def strand_lines(one: Sleeve) -> tuple[tuple[int, tuple[float, float], tuple[float, float]], ...]:
    """Strands on the sleeve as `(strand, start, end)`, mm, broken where they run under others and at the seam."""
    braid, found = one.braid, []
    crossings = np.arange(-one.picks, one.picks + 1)
    angle, lifted = angles_from(braid, np.asarray(crossings * braid.pick, dtype=np.float64))
    over = lifted > 0
    slope = hands(braid.strands) * one.round / (braid.pitch * one.scale)
    for k in range(braid.strands):
        base = float(one.across(angle[k, one.picks]))
        for a, b in _runs(crossings, over[k]):
            ends = (max(a, -one.picks) * braid.pick * one.scale, min(b, one.picks) * braid.pick * one.scale)
            found += [(k, *piece) for piece in _in_one_turn(ends, base, float(slope[k]), one.round)]
    return tuple(found)


def _runs(crossings: Ints, over: Bools) -> list[tuple[float, float]]:
    """Stretches of a strand between the crossings it runs under, in picks."""
    under = [int(n) for n in crossings[~over]]
    starts = [float(crossings[0]) - 1, *(n + UNDER for n in under)]
    ends = [*(n - UNDER for n in under), float(crossings[-1]) + 1]
    low, high = float(crossings[0]), float(crossings[-1])
    return [(a, b) for a, b in zip(starts, ends, strict=True) if min(b, high) > max(a, low)]


def _in_one_turn(
    ends: tuple[float, float], base: float, slope: float, whole: float
) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """A straight line cut where it leaves the sleeve's one turn, its pieces brought back into it."""
    low, high = sorted((base + slope * ends[0], base + slope * ends[1]))
    found = []
    for turn in range(math.floor(low / whole), math.floor(high / whole) + 1):
        cut = sorted(((turn * whole - base) / slope, ((turn + 1) * whole - base) / slope))
        a, b = max(ends[0], cut[0]), min(ends[1], cut[1])
        if b - a > 1e-6:
            found.append(((a, base + slope * a - turn * whole), (b, base + slope * b - turn * whole)))
    return found


def sleeve_drawing(one: Sleeve, name: str) -> Drawing:
    """A sleeve with its lattice, legal places, mark, fid's line and flap; numbered where its scale leaves room."""
    long, high = 2 * one.along, one.round
    lines = [Stroke((a[0] + one.along, a[1]), (b[0] + one.along, b[1]), 0.35) for _, a, b in strand_lines(one)]
    shapes = [box(0, 0, long, high), _flap(one)]
    chips, words = _numbers(one)
    fid_lines, fid_shapes, fid_words = _fid(one)
    tick, tick_word = _mark(one)
    alt = (
        f"Sleeve {name}, to wrap once round the rope: {one.braid.strands} strands unrolled, legal places for a hole as "
        f"dots, the fid's line from the diamond marked in to the one marked out, half-way round, and the mark's tick "
        f"between them, on top of the rope."
    )
    labels = (*words, *fid_words, tick_word, Word((long + 2.6, high + one.flap / 2), "flap: under"))
    return Drawing(
        (long + 16, high + one.flap),
        alt,
        (*lines, *fid_lines, *tick),
        (*shapes, *fid_shapes),
        (*_dots(one), *chips),
        labels,
    )


def _spacing(one: Sleeve) -> float:
    """Room for a number: the smaller of a pick and an N-th of the way round, mm, twice over."""
    return 2 * min(one.braid.pick * one.scale, one.round / one.braid.strands)


def _flap(one: Sleeve) -> Polygon:
    long, high = 2 * one.along, one.round
    return Polygon(((0, high), (long, high), (long - 2, high + one.flap), (2, high + one.flap)), None, THIN)


def _dots(one: Sleeve) -> tuple[Dot, ...]:
    """Legal places: small dots; black and larger in the fid's own two lines."""
    half = one.braid.strands // 2
    size = min(_spacing(one) / 10, 0.9)
    return tuple(
        Dot(at, size if place.round % half == 0 else 0.5 * size)
        for place in places(one.braid, one.picks)
        if abs(place.along) < one.picks
        for at in [where(one, place)]
    )


def where(one: Sleeve, place: LatticePlace) -> tuple[float, float]:
    """A legal place on the sleeve, mm from its top left corner."""
    turn = (0.25 + place.round / one.braid.strands) % 1.0
    return one.along + place.along * one.braid.pick * one.scale, turn * one.round


def _fid(one: Sleeve) -> tuple[tuple[Stroke, ...], tuple[Polygon, ...], tuple[Word, ...]]:
    """The fid's line round the sleeve at the hole's middle, the two diamonds framed, the way through in words."""
    half = one.braid.strands // 2
    x, entry = where(one, LatticePlace(0, 0))
    _, out = where(one, LatticePlace(0, half))
    wide, tall = 0.62 * one.braid.pick * one.scale, 0.62 * one.round / one.braid.strands
    frames = tuple(
        Polygon(((x - wide, y), (x, y - tall), (x + wide, y), (x, y + tall)), None, BOLD) for y in (entry, out)
    )
    right = 2 * one.along
    across = Stroke((x, 0.0), (x, one.round + one.flap), FINE, 1.2)
    along = tuple(Stroke((0.0, y), (right + 2.0, y), THIN, 1.0) for y in (entry, out))
    said = ("fid out", "fid in") if one.mirrored else ("fid in", "fid out")
    words = tuple(Word((right + 2.6, y), text) for y, text in zip((entry, out), said, strict=True))
    return (across, *along), frames, words


def mark_at(one: Sleeve) -> tuple[float, float]:
    """Where the hole's mark sits on the sleeve, mm: on top of the rope, a quarter round from where the fid goes in.

    Strands cross there where N/4 is odd; else it is the middle of a diamond.
    """
    return one.along, one.round / 2


def _mark(one: Sleeve) -> tuple[tuple[Stroke, ...], Word]:
    """The mark as a tick across the rope, a line to it from the right, and its name."""
    x, y = mark_at(one)
    tall = 0.45 * one.round / one.braid.strands
    right = 2 * one.along
    tick = Stroke((x, y - tall), (x, y + tall), 3 * BOLD)
    return (tick, Stroke((x, y), (right + 2.0, y), THIN, 1.0)), Word((right + 2.6, y), "mark")


def _numbers(one: Sleeve) -> tuple[tuple[Dot, ...], tuple[Word, ...]]:
    """Numbers on the strands beside the hole, black in the bottom group; none where the sleeve has no room for them."""
    found = numbered(one.braid)
    ways = [[_number_at(one, number, steps) for number in found] for steps in STEPS]
    spots = max(ways, key=lambda way: _apart(way, one.round))
    if _apart(spots, one.round) < 2.1 * CHIP:
        return (), ()
    dots = tuple(Dot(at, CHIP, n.group is Part.BOTTOM_GROUP) for n, at in zip(found, spots, strict=True))
    labels = [
        Word(at, str(n.number), 7.0, "centre", True, n.group is Part.BOTTOM_GROUP)
        for n, at in zip(found, spots, strict=True)
    ]
    return dots, tuple(labels)


def _number_at(one: Sleeve, found: Numbered, steps: tuple[int, ...]) -> tuple[float, float]:
    """A number's place on its strand, mm: odd ones after the hole, even ones before it, some of them further."""
    side = 1 if found.number % 2 else -1
    x = side * (0.5 + steps[(found.number - 1) // 2 % len(steps)]) * one.braid.pick
    angle = angles_from(one.braid, np.array([x]))[0][found.strand, 0]
    return one.along + x * one.scale, float(one.across(angle)) % one.round


def _apart(spots: list[tuple[float, float]], whole: float) -> float:
    """Least distance of two numbers, or twice that from the seam where it is less, mm."""
    at = np.array(spots)
    off = np.hypot(*(at[:, None] - at[None]).transpose(2, 0, 1)) + 1e9 * np.eye(len(at))
    seam = np.minimum(at[:, 1], whole - at[:, 1])
    return float(min(off.min(), 2.0 * seam.min()))
