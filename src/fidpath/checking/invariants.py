"""What tells right from wrong: how the legs go through a hole's two groups, and how the groups are turned.

The rope is cut in the eye into a standing leg and a tail leg. From its ends every strand of a leg is carried on to
where the plain braid has it, and then straight out of the picture, which is seen along z: the standing leg's down, the
tail leg's up. Ends lie where the other leg is out of the way, so what is carried out adds no crossing. Linking of two
strands is half their signed crossings; a strand's own crossings don't count. From what the tail's strands are linked
with one another, what they are linked in plain rope over the same stretch is taken off.
Source: definitions of our own.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fidpath.arrays import Bools, Floats, Ints
from fidpath.checking.crossings import View, signed_crossings
from fidpath.checking.found_passes import Crossings, crossings_found, top_by_law
from fidpath.checking.rope_measures import centre_line
from fidpath.geometry import Strands, strand_offsets

Complex = NDArray[np.complex128]

VIEW: View = (0.011, 0.017, 1.0)
"""Nearly along z: exactly along it, some strands of plain rope hide one another over its whole length."""

ASKEW = np.arange(0.0, 0.42, 0.02)
"""Angles by which a leg's ends may be turned from the braid's law, so that no two strands end one over the other."""

LEANING = np.array([-0.02, 0.0, 0.02])
"""How far the view may lean over a leg's end, to its left."""

UP = np.array([0.0, 0.0, 1.0])

CUT = 0.8
"""Rope left out either side of the cut in the eye, in diameters."""

CUTS = (0.5, 0.3, 0.7, 0.4, 0.6)
"""Where a stretch of the eye that no leg crosses may be cut, as shares of it."""

CLEAR = 0.95
"""Least distance from a leg's end to the other leg's centre line, seen along z, in diameters."""

REACH = 6.0
"""Rope either side of a hole over which its groups may be turned, in diameters."""


@dataclass(frozen=True)
class Invariants:
    """Whole numbers but for rounding, as means over strands.

    `s_1`, `s_2`: linking of the guest leg with the host's top group, minus with its bottom group, at H1 and H2. `I_2`:
    half of what H2's top group is linked with itself, strand by strand, more than its bottom group.
    """

    s_1: float
    s_2: float
    I_2: float

    @property
    def nearest(self) -> tuple[int, int, int]:
        """The nearest whole numbers."""
        return round(self.s_1), round(self.s_2), round(self.I_2)

    @property
    def whole(self) -> bool:
        """Whether all three are whole numbers but for rounding."""
        return bool(np.allclose((self.s_1, self.s_2, self.I_2), self.nearest, rtol=0, atol=1e-9))


@dataclass(frozen=True)
class Linked:
    """Linking of strands, `(strands, strands)` each, and the top groups of H1 and H2, `(strands,) bool`.

    across: of every strand of the standing leg with every one of the tail leg.
    within: of the tail leg's strands with one another, less what they are linked in plain rope.
    cut: station of the cut in the eye, mm.
    """

    across: Floats
    within: Floats
    top_1: Bools
    top_2: Bools
    cut: float

    @property
    def invariants(self) -> Invariants:
        """What the linkings come to as means over the groups."""
        across, top_1, top_2 = self.across, self.top_1, self.top_2
        return Invariants(
            s_1=float(across[top_1].mean() - across[~top_1].mean()),
            s_2=float(across[:, top_2].mean() - across[:, ~top_2].mean()),
            I_2=float(_among(self.within, top_2).mean() - _among(self.within, ~top_2).mean()) / 2,
        )

    @property
    def odd_pairs(self) -> int:
        """Pairs of strands not linked as the rest of their groups: hooked round one another; 0 if all is well."""
        blocks = [self.across[np.ix_(a, b)] for a in (self.top_1, ~self.top_1) for b in (self.top_2, ~self.top_2)]
        blocks += [_among(self.within, group) for group in (self.top_2, ~self.top_2)]
        return sum(int((np.abs(block - np.median(block)) > 1e-9).sum()) for block in blocks)


def linked(
    strands: Strands, h1: float, h2: float, cut: float | None = None, crossings: Crossings | None = None
) -> Linked:
    """How the strands are linked, for holes H1 in the standing part and H2 in the tail at stations h1 < h2 in mm.

    `cut`: station of the cut in the eye. Where it isn't given, it is `cut_in_eye`, or if some pair is odd then, another
    place at which none is: where the rope is bent sharply, ends carried on may count a crossing to the wrong leg, while
    strands that are really hooked are odd wherever it is cut. `crossings`: as found, where that is known.
    """
    found = crossings or crossings_found(strands)
    if cut is not None:
        return _linked_at(strands, found, h1, h2, cut)
    first = _linked_at(strands, found, h1, h2, cut_in_eye(strands, found, h1, h2))
    if not first.odd_pairs:
        return first
    places = (start + share * (end - start) for start, end in _uncrossed(strands, found, h1, h2) for share in CUTS)
    others = (_linked_at(strands, found, h1, h2, at) for at in places)
    return next((link for link in others if not link.odd_pairs), first)


def _linked_at(strands: Strands, found: Crossings, h1: float, h2: float, at: float) -> Linked:
    """How the strands are linked, the eye cut at a station."""
    standing, tail = legs(strands, at, found, h1, h2)
    across, within = _linking(carried_on(strands, standing), carried_on(strands, tail))
    alone = _linking(*[_plain(strands, tail)] * 2)[1]
    return Linked(across, within - alone, _top(strands, found, h1), _top(strands, found, h2), at)


def invariants(strands: Strands, h1: float, h2: float, cut: float | None = None) -> Invariants:
    """The invariants of holes H1 and H2, see `linked`."""
    return linked(strands, h1, h2, cut).invariants


def _top(strands: Strands, found: Crossings, hole: float) -> Bools:
    """A hole's top group as it lies about what goes through it; by the braid's law where nothing does, `(strands,)`."""
    passed = next((p for p in found.passes if abs(p.host - hole) < 2 * strands.braid.diameter), None)
    if passed is None:
        return top_by_law(strands.braid, hole)
    return np.isin(np.arange(len(strands.count)), passed.top)


def cut_in_eye(strands: Strands, found: Crossings, h1: float, h2: float) -> float:
    """The middle of the longest stretch of the eye that no leg crosses, mm."""
    return float(np.mean(_uncrossed(strands, found, h1, h2)[0]))


def _uncrossed(strands: Strands, found: Crossings, h1: float, h2: float) -> list[tuple[float, float]]:
    """The stretches of the eye that no leg crosses, the longest first, mm.

    The eye runs from H1 to where the tail goes through it, or to H2 where that comes first.
    """
    back = [p.guest for p in found.passes if abs(p.host - h1) < strands.braid.diameter and p.guest > h1]
    end = min([h2, *back])
    places = np.array([h1, *[u for u in found.stations if h1 < u < end], end])
    order = np.argsort(-np.diff(places), kind="stable")
    return [(float(places[k]), float(places[k + 1])) for k in order]


def legs(strands: Strands, cut: float, found: Crossings, h1: float, h2: float) -> tuple[Ints, Ints]:
    """Columns of the standing and of the tail leg, every strand alive, all ends clear of the other leg."""
    here, gap = strands.station, CUT * strands.braid.diameter
    columns = np.arange(int(strands.count.min()))
    standing = columns[here[columns] < cut - gap]
    tail = columns[here[columns] > cut + gap]
    last = max([h2, *[u for u in found.stations if u > cut]])
    tail = tail[: _clear_end(strands, tail, standing, here[tail] > last)]
    first = min([h1, *[u for u in found.stations if u < cut]])
    back = standing[::-1]
    standing = back[: _clear_end(strands, back, tail, here[back] < first)][::-1]
    return _between_picks(strands, standing), _between_picks(strands, tail)


def _clear_end(strands: Strands, leg: Ints, other: Ints, free: Bools) -> int:
    """How many of a leg's columns, from the cut on, reach up to where it is last clear of the other leg.

    Looked for among the `free` ones, beyond all crossings; where none is clear, the clearest of them.
    """
    line = centre_line(strands)[:, :2]
    off = np.linalg.norm(line[leg][:, None] - line[other][None], axis=2).min(axis=1)
    clear = np.nonzero(free & (off > CLEAR * strands.braid.diameter))[0]
    if len(clear):
        return int(clear[-1]) + 1
    return int(np.argmax(np.where(free, off, -1.0))) + 1 if free.any() else len(leg)


def _between_picks(strands: Strands, leg: Ints) -> Ints:
    """A leg's columns, its ends drawn in to where no strands cross: halfway between two picks."""
    off = (strands.station[leg] / strands.braid.pick) % 1.0 - 0.5
    per_pick = int(np.ceil(strands.braid.pick / float(strands.station[1] - strands.station[0])))
    first = int(np.argmin(np.abs(off[: per_pick + 1])))
    last = len(leg) - 1 - int(np.argmin(np.abs(off[::-1][: per_pick + 1])))
    return leg[first : last + 1]


def _linking(standing: Floats, tail: Floats) -> tuple[Floats, Floats]:
    """Linking of two legs' strands `(strands, n, 3)` and `(strands, m, 3)`, `(strands, strands)` each.

    Of every strand of the standing leg with every one of the tail leg, and of the tail leg's with one another.
    """
    number, long = len(standing), max(standing.shape[1], tail.shape[1])
    points = np.concatenate([np.pad(leg, ((0, 0), (0, long - leg.shape[1]), (0, 0))) for leg in (standing, tail)])
    count = np.repeat([standing.shape[1], tail.shape[1]], number).astype(np.int64)
    found = signed_crossings(points, count, VIEW, np.zeros(long - 1, dtype=np.int64))
    half = np.zeros((2 * number, 2 * number))
    np.add.at(half, (found[:, 0], found[:, 1]), found[:, 2] / 2)
    half += half.T
    return half[:number, number:], half[number:, number:]


def carried_on(strands: Strands, leg: Ints) -> Floats:
    """A leg's strands `(strands, m, 3)` with one more point at either end, where the plain braid has them."""
    line, askew = centre_line(strands), _askew(strands, leg)
    ends = []
    for at, sign in ((int(leg[0]), -1.0), (int(leg[-1]), 1.0)):
        ahead = _ahead(line, at)
        plain = _law(strands, strands.station[at : at + 1])[:, 0]
        lie = _across(strands, line, np.array([at]))[:, 0]
        over = 1.0 if (lie * plain.conj()).sum().real > 0 else -1.0
        turned = over * plain * np.exp(1j * askew)
        off = turned.real[:, None] * np.cross(UP, ahead) + turned.imag[:, None] * UP
        ends.append(line[at] + off + sign * 0.2 * strands.braid.diameter * ahead)
    return np.concatenate([ends[0][:, None], strands.points[:, leg], ends[1][:, None]], axis=1)


def _plain(strands: Strands, leg: Ints) -> Floats:
    """A leg as straight plain rope along x, its ends carried on alike, `(strands, m, 3)` mm."""
    station = strands.station[leg]
    where = np.concatenate([station[:1], station, station[-1:]])
    along = np.concatenate([[0.0], station - station[0], station[-1:] - station[0]])
    along[[0, -1]] += np.array([-0.2, 0.2]) * strands.braid.diameter
    lie = _law(strands, where) * np.exp(
        1j * np.where(np.arange(len(where)) % (len(where) - 1) == 0, _askew(strands, leg), 0.0)
    )
    return np.stack([np.broadcast_to(along, lie.shape), lie.real, lie.imag], axis=-1)


def _askew(strands: Strands, leg: Ints) -> float:
    """The angle of turning at which, seen along z, the strands at a leg's two ends lie farthest apart, radians."""
    lie = _law(strands, strands.station[leg[[0, -1]]])[..., None, None] * np.exp(1j * ASKEW)[:, None]
    gaps = np.diff(np.sort(lie.real + LEANING * lie.imag, axis=0), axis=0)
    return float(ASKEW[gaps.min(axis=(0, 1, 3)).argmax()])


def _ahead(line: Floats, at: int) -> Floats:
    """Direction `(3,)` of the centre line on the table at a column."""
    low, high = max(at - 3, 0), min(at + 3, len(line) - 1)
    step = (line[high] - line[low]) * np.array([1.0, 1.0, 0.0])
    return np.asarray(step / np.linalg.norm(step))


def _law(strands: Strands, station: Floats) -> Complex:
    """Where plain rope's strands lie across it, `(strands, n) complex` mm: to the left, and up as imaginary part."""
    out, angle = strand_offsets(strands.braid, station + strands.braid.pick)
    return np.asarray(out * np.exp(1j * angle))


def _across(strands: Strands, line: Floats, columns: Ints) -> Complex:
    """Where the strands lie across the rope at some columns, `(strands, m) complex` mm, like `_law`."""
    ahead = np.stack([_ahead(line, int(at)) for at in columns])
    off = strands.points[:, columns] - line[columns]
    return np.asarray(off[..., 1] * ahead[:, 0] - off[..., 0] * ahead[:, 1] + 1j * off[..., 2])


def _among(link: Floats, group: Bools) -> Floats:
    """Linking of the pairs of different strands of a group, `(pairs,)`."""
    i, j = np.triu_indices(int(group.sum()), 1)
    return np.asarray(link[np.ix_(group, group)][i, j])


def turns(strands: Strands, hole: float, reach: float | None = None) -> tuple[float, float]:
    """Turns of a hole's (top, bottom) group about itself within `reach` mm of it, right-handed ones positive.

    Measured on the settled strands: how far each pair winds about itself more than in plain rope, as a mean over pairs.
    """
    room = REACH * strands.braid.diameter if reach is None else reach
    columns = np.nonzero(np.abs(strands.station - hole) <= room)[0]
    columns = columns[columns < int(strands.count.min())]
    lie = _across(strands, centre_line(strands), columns)
    plain = _law(strands, strands.station[columns])
    top = top_by_law(strands.braid, hole)
    return _wound(lie[top]) - _wound(plain[top]), _wound(lie[~top]) - _wound(plain[~top])


def _wound(lie: Complex) -> float:
    """Turns by which pairs of strands `(strands, n) complex` wind about each other, mean over pairs."""
    i, j = np.triu_indices(len(lie), 1)
    angle = np.unwrap(np.angle(lie[i] - lie[j]), axis=1)
    return float((angle[:, -1] - angle[:, 0]).mean() / (2 * np.pi))
