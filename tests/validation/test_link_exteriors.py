"""Link exteriors compared with SnapPy: the lock made with one end captive is the lock made with both ends free.

The links are read off the settled strands of the rope states, strand by strand, by a crossing count of this file's
own. The states are read as they settle, before they are relaxed to lie in the hand: the check shows that strands
don't pass through one another on that way.

How a link is closed: the rope is cut in the eye, away from all crossings. Of the standing leg two right-handed
strands are kept, one of either group of H1; of the tail leg three, two of H2's top group and one of its bottom group.
Beyond its ends a leg goes on as plain rope, the standing leg's downward, the tail leg's upward, to where the braid's
pattern begins anew; from there the tail leg's three strands run over the whole picture back to their beginning, the
standing leg's two under the whole picture. On the way back they are braided: the standing leg's two cross once; the
tail leg's three go through the braid word (1, -2) for the first closing and twice through it for the second. Before
that come whole turns of the strands as one, as many as unlink two strands that never share a group: a leg whose own
end is free to turn has no other way to count its turns.
Both braids keep strands that nowhere part from bounding a ribbon, which would leave no volume to compare.
"""

from __future__ import annotations

import importlib
import random
import sys
import warnings
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from fidpath.checking.found_passes import top_by_law
from fidpath.checking.invariants import linked
from fidpath.checking.rope_measures import centre_line
from fidpath.geometry.braid import strand_offsets
from fidpath.geometry.strands import Strands
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.settling.settled_states import settled_state
from jobs import a_job

Floats = NDArray[np.float64]
Word = tuple[int, ...]

UP = np.array([0.0, 0.0, 1.0])
D = 10.0
STANDING: Word = (1,)
CLOSINGS: tuple[Word, ...] = ((1, -2), (1, -2, 1, -2))
AROUND = 80 * D
"""Radius of the circle that strands on their way back follow, far outside the picture."""

SPACING = 0.5 * D
"""Room along the way back for one letter of a braid word."""

PHASE = 0.4
"""Share of a pitch at which every leg is taken to end and to begin."""


@pytest.fixture(scope="module", autouse=True)
def apart() -> Iterator[None]:
    """SnapPy, from a folder of its own: distributed takes a module named snappy for a compressor of that name."""
    home = str(Path(sys.prefix) / "apart")
    before = set(sys.modules)
    sys.path.insert(0, home)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        pytest.importorskip("snappy", reason="SnapPy isn't installed apart: `make test` does it")
        importlib.import_module("spherogram")
    yield
    sys.path.remove(home)
    for name in set(sys.modules) - before:
        if str(getattr(sys.modules[name], "__file__", None)).startswith(home):
            del sys.modules[name]


# Closing a leg.


@dataclass(frozen=True)
class Leg:
    """Strands `(k, n, 3)` mm carried on to where the braid's pattern begins anew; headings `(3,)` at either end.

    side: +1 where they are to be closed over the picture, -1 under it.
    """

    lines: Floats
    out: Floats
    home: Floats
    side: float


def _heading(line: Floats, at: int) -> Floats:
    step = (line[min(at + 3, len(line) - 1)] - line[max(at - 3, 0)]) * [1.0, 1.0, 0.0]
    return np.asarray(step / np.linalg.norm(step))


def _carried_on(strands: Strands, members: list[int], at: int, sign: int, side: float) -> Floats:
    """Plain rope beyond a column, up or down, to the next place of the pattern's PHASE, `(k, m, 3)`."""
    line, pitch, here = centre_line(strands), strands.braid.pitch, float(strands.station[at])
    whole = np.ceil(here / pitch - PHASE) if sign > 0 else np.floor(here / pitch - PHASE)
    station = np.linspace(here, (whole + PHASE) * pitch, 60)
    ahead = _heading(line, at)
    left = np.cross(UP, ahead)
    out, angle = strand_offsets(strands.braid, station + strands.braid.pick)
    plain = out * np.exp(1j * angle)
    lie = (strands.points[:, at] - line[at]) @ left + 1j * (strands.points[:, at] - line[at])[:, 2]
    plain *= 1.0 if (lie * plain[:, 0].conj()).sum().real > 0 else -1.0
    off = plain[members, 1:]
    far = np.abs(station[1:] - here)[:, None]
    middle = line[at] + far * (sign * ahead + 1.2 * side * UP)
    return np.asarray(middle + off.real[..., None] * left + off.imag[..., None] * UP)


def _leg(strands: Strands, members: list[int], columns: NDArray[np.int64], side: float) -> Leg:
    first, last = int(columns[0]), int(columns[-1])
    before = _carried_on(strands, members, first, -1, side)[:, ::-1]
    after = _carried_on(strands, members, last, 1, side)
    line = centre_line(strands)
    lines = np.concatenate([before, strands.points[members][:, columns], after], axis=1)
    return Leg(lines, _heading(line, last), _heading(line, first), side)


def _from_left(points: Floats, ahead: Floats) -> tuple[list[int], Floats]:
    """Order of strands' ends `(k, 3)` from left to right, and how far to the left of their middle each lies."""
    off = (points - points.mean(axis=0)) @ np.cross(UP, ahead)
    return [int(k) for k in np.argsort(-off)], off


def _braided(order: list[int], word: Word, lanes: Floats) -> tuple[list[list[Floats]], list[int]]:
    """Strands through a braid word as places (along, left, up) in mm, and their order after it.

    1 crosses the two leftmost lanes, the one that goes to the right over the other; -1 under it.
    """
    order = list(order)
    lines = [[np.array([0.0, lanes[order.index(k)], 0.0])] for k in range(len(order))]
    for step, letter in enumerate(word):
        lane = abs(letter) - 1
        order[lane], order[lane + 1] = order[lane + 1], order[lane]
        at = SPACING * (step + 1)
        middle = 0.4 * lanes[lane] + 0.6 * lanes[lane + 1]
        lines[order[lane + 1]].append(np.array([at - 0.4 * SPACING, middle, np.sign(letter) * D]))
        for place, k in enumerate(order):
            lines[k].append(np.array([at, lanes[place], 0.0]))
    return lines, order


def _to_circle(place: Floats, ahead: Floats) -> Floats:
    """Where a ray `(2,)` from inside leaves the circle of radius AROUND about the origin."""
    along = place @ ahead
    return place + (np.sqrt(along**2 + AROUND**2 - place @ place) - along) * ahead


def _way_round(leg: Leg) -> Floats:
    """The band's way `(n, 2)` from a leg's end out to a circle, along it, and in to just outside its beginning."""
    end, begin = leg.lines[:, -1, :2].mean(axis=0), leg.lines[:, 0, :2].mean(axis=0)
    out, back = _to_circle(end, leg.out[:2]), _to_circle(begin, -leg.home[:2])
    first, last = (float(np.arctan2(*place[::-1])) for place in (out, back))
    turn = (last - first + np.pi) % (2 * np.pi) - np.pi
    turn -= 2 * np.pi * np.sign(turn) if abs(turn) < 1.0 else 0.0
    angle = np.linspace(first, first + turn, 40)
    circle = AROUND * np.column_stack([np.cos(angle), np.sin(angle)])
    return np.concatenate([end[None], circle, (back + 0.1 * (begin - back))[None]])


def _abreast(way: Floats, off: Floats) -> Floats:
    """A line `(n, 2)` at distances `off` `(n,)` to the left of another."""
    step = np.diff(way, axis=0) / np.linalg.norm(np.diff(way, axis=0), axis=1)[:, None]
    left = np.column_stack([-step[:, 1], step[:, 0]])
    both = np.concatenate([left[:1], left[1:] + left[:-1], left[-1:]])
    square = (both * np.concatenate([left[:1], left])).sum(axis=1)
    return np.asarray(way + off[:, None] * both / square[:, None])


def _closed(leg: Leg, word: Word) -> list[Floats]:
    """The leg's strands closed through a braid word, one polygon `(n, 3)` a component."""
    number = len(leg.lines)
    lanes = np.linspace(0.5, -0.5, number) * 0.5 * D * (number - 1)
    order, off = _from_left(leg.lines[:, -1], leg.out)
    arrive, _ = _from_left(leg.lines[:, 0], leg.home)
    braided, after = _braided(order, word, lanes)
    following = {k: arrive[after.index(k)] for k in range(number)}
    frame = np.stack([leg.home, np.cross(UP, leg.home), UP])
    way = _way_round(leg)
    height = leg.side * np.linspace(20 * D, 60 * D, len(way))
    goal = np.append(way[-1], height[-1])
    whole = []
    for k in range(number):
        ease = np.append(off[k], np.full(len(way) - 1, lanes[order.index(k)]))
        there = np.column_stack([_abreast(way, ease), height])[1:]
        above = (leg.lines[following[k], 0] - 0.2 * D * leg.home) * [1.0, 1.0, 0.0] + goal * UP
        whole.append(np.concatenate([leg.lines[k], there[:-1], goal + np.array(braided[k]) @ frame, above[None]]))
    return [np.concatenate([whole[k] for k in cycle]) for cycle in _cycles(following)]


def _cycles(following: dict[int, int]) -> list[list[int]]:
    left, found = set(following), []
    while left:
        cycle = [min(left)]
        while following[cycle[-1]] != cycle[0]:
            cycle.append(following[cycle[-1]])
        left -= set(cycle)
        found.append(cycle)
    return found


def _half_turn(strands: int) -> Word:
    return tuple(letter for last in range(strands - 1, 0, -1) for letter in range(1, last + 1))


def _untwisted(leg: Leg) -> Word:
    """The turns of all strands as one after which the leg's first and last strand are unlinked."""
    half = _half_turn(len(leg.lines))
    same = _from_left(leg.lines[:, -1], leg.out)[0] == _from_left(leg.lines[:, 0], leg.home)[0]
    base = () if same else half
    now, more = (_linking(_closed(leg, (*base, *turn)), 0, -1) for turn in ((), half + half))
    assert abs(more - now) == 1
    turns = -now // (more - now)
    return (*base, *(half + half if turns > 0 else tuple(-letter for letter in (half + half)[::-1])) * abs(turns))


# Reading a link.


@dataclass(frozen=True)
class Cross:
    """Two pieces of closed polygons crossing, seen along z: (polygon, place along it) of each, the first one over."""

    over: tuple[int, float]
    under: tuple[int, float]
    sign: int


def _crosses(polygons: Sequence[Floats]) -> list[Cross]:
    start = np.concatenate(polygons)
    run = np.concatenate([np.roll(p, -1, axis=0) for p in polygons]) - start
    which = np.repeat(np.arange(len(polygons)), [len(p) for p in polygons])
    place = np.concatenate([np.arange(len(p)) for p in polygons])
    found = []
    for i in range(len(start) - 1):
        j = np.arange(i + 1, len(start))
        apart = (place[j] - place[i]) % len(polygons[which[i]])
        j = j[(which[j] != which[i]) | ((apart > 1) & (apart < len(polygons[which[i]]) - 1))]
        between, det = start[j] - start[i], _cross(run[i], run[j].T)
        safe = np.where(det == 0, np.inf, det)
        s, t = _cross(between.T, run[j].T) / safe, _cross(between.T, run[i]) / safe
        for k in np.nonzero((s > 0) & (s < 1) & (t > 0) & (t < 1))[0]:
            one, two = (int(which[i]), place[i] + s[k]), (int(which[j[k]]), place[j[k]] + t[k])
            over = bool(start[i, 2] + s[k] * run[i, 2] > start[j[k], 2] + t[k] * run[j[k], 2])
            sign = 1 if bool(det[k] > 0) == over else -1
            found.append(Cross(one, two, sign) if over else Cross(two, one, sign))
    return found


def _cross(a: Any, b: Any) -> Any:
    return a[0] * b[1] - a[1] * b[0]


def _linking(polygons: list[Floats], a: int, b: int) -> int:
    total = sum(one.sign for one in _crosses([polygons[a], polygons[b]]) if one.over[0] != one.under[0])
    return round(total / 2)


def _link(polygons: Sequence[Floats]) -> Any:
    """The link of closed polygons `(n, 3)` seen along z.

    A crossing's legs are numbered counter-clockwise from where the lower one comes in.
    """
    from spherogram import Crossing, Link

    crosses = _crosses(polygons)
    made = [Crossing(str(k)) for k in range(len(crosses))]
    for number in range(len(polygons)):
        legs = []
        for k, one in enumerate(crosses):
            if one.under[0] == number:
                legs.append((one.under[1], k, 0, 2))
            if one.over[0] == number:
                legs.append((one.over[1], k, *((3, 1) if one.sign > 0 else (1, 3))))
        legs.sort()
        for (_, k, _, out), (_, after, into, _) in zip(legs, legs[1:] + legs[:1], strict=True):
            made[k][out] = made[after][into]
    return Link(made)


# The rope's own links.

FREE = "free-end-in-h2"
RIGHT = ("bight-in-h2", "h1-in-h2", "h2-curled", "locked")
WRONG = ("tail-other-face", "bight-other-face", "no-tail-pass")
NOT_YET = ("marking", "h2-inside-out")


@cache
def _plan() -> Plan:
    return make_plan(a_job(bury=24.0))


@cache
def _legs(kind: str) -> tuple[tuple[Leg, Word], tuple[Leg, Word]]:
    """The standing leg's and the tail leg's strands of a settled state, each with the turns that unlink them."""
    strands = settled_state(_plan(), kind).settled.strands
    cut, away = linked(strands, 0.0, _plan().station_h2).cut, 0.8 * D
    inner = np.arange(3, int(strands.count.min()) - 3)
    right, here = strands.hand > 0, strands.station[inner]
    up_1, up_2 = (top_by_law(strands.braid, at) for at in (0.0, _plan().station_h2))
    h1 = [int(np.nonzero(right & side)[0][0]) for side in (up_1, ~up_1)]
    h2 = [*np.nonzero(right & up_2)[0][:2].tolist(), int(np.nonzero(right & ~up_2)[0][1])]
    legs = _leg(strands, h1, inner[here < cut - away], -1.0), _leg(strands, h2, inner[here > cut + away], 1.0)
    return (legs[0], _untwisted(legs[0])), (legs[1], _untwisted(legs[1]))


@cache
def _exterior(kind: str, closing: Word) -> Any:
    """The exterior of a state's link, closed with this braid word in the tail leg."""
    (standing, turns_1), (tail, turns_2) = _legs(kind)
    return _exterior_of([*_closed(standing, (*turns_1, *STANDING)), *_closed(tail, (*turns_2, *closing))])


def _exterior_of(polygons: Sequence[Floats]) -> Any:
    random.seed(4)
    link = _link(polygons)
    link.simplify("global")
    return link.exterior()


@pytest.mark.parametrize("kind", RIGHT)
def test_one_end_captive_the_right_way_is_the_lock_with_both_ends_free(kind: str) -> None:
    """From the bight's pass on, in every state up to the lock drawn up. Volume computed here."""
    ours = _exterior(kind, CLOSINGS[0])
    assert float(ours.volume()) == pytest.approx(6.5989515394, abs=1e-6)
    assert ours.is_isometric_to(_exterior(FREE, CLOSINGS[0]))


def test_the_same_with_another_closing() -> None:
    ours = _exterior("locked", CLOSINGS[1])
    assert float(ours.volume()) == pytest.approx(12.0899011527, abs=1e-6)
    assert ours.is_isometric_to(_exterior(FREE, CLOSINGS[1]))


@pytest.mark.parametrize("closing", CLOSINGS)
@pytest.mark.parametrize("kind", WRONG)
def test_wrong_ways_are_other_links(kind: str, closing: Word) -> None:
    wrong, free = _exterior(kind, closing), _exterior(FREE, closing)
    assert abs(float(wrong.volume()) - float(free.volume())) > 0.5
    assert not wrong.is_isometric_to(free)


@pytest.mark.parametrize("kind", NOT_YET)
def test_before_the_bight_goes_in_nothing_is_locked(kind: str) -> None:
    early, free = _exterior(kind, CLOSINGS[0]), _exterior(FREE, CLOSINGS[0])
    assert abs(float(early.volume()) - float(free.volume())) > 0.5
    assert not early.is_isometric_to(free)


def test_both_by_the_other_face_is_the_same_lock_with_the_rope_rolled_half_a_turn() -> None:
    """No turns are left, and no exterior tells which of H2's groups is on top: only the sign of s_2 does."""
    assert _exterior("both-other-face", CLOSINGS[0]).is_isometric_to(_exterior(FREE, CLOSINGS[0]))


# The reading of links.

T = np.linspace(0, 2 * np.pi, 200, endpoint=False) + 0.01
WHITEHEAD = [
    np.column_stack([2.5 * np.sin(T), np.sin(2 * T), np.cos(3 * T)]),
    np.column_stack([2.1 * np.cos(T), 1.5 * np.sin(T), 0 * T]),
]
FIGURE_EIGHT = np.column_stack(
    [(2 + np.cos(2 * T)) * np.cos(3 * T), (2 + np.cos(2 * T)) * np.sin(3 * T), np.sin(4 * T)]
)
TREFOIL = np.column_stack([np.sin(T) + 2 * np.sin(2 * T), np.cos(T) - 2 * np.cos(2 * T), -np.sin(3 * T)])


def test_linking_number_of_the_hopf_link() -> None:
    """Read: Gauss integral -1 for these two circles; the second one turned a little out of its upright plane."""
    one = np.column_stack([np.cos(T), np.sin(T), 0 * T])
    other = np.column_stack([1 + np.cos(T), 0.1 * np.sin(T), np.sin(T)])
    assert _linking([one, other], 0, 1) == -1
    assert _linking([one, other[::-1]], 0, 1) == 1


def test_volumes_of_the_whitehead_link_and_the_figure_eight_knot() -> None:
    """Four times Catalan's constant, and twice the regular ideal tetrahedron (from memory of W. Thurston's notes)."""
    assert float(_exterior_of(WHITEHEAD).volume()) == pytest.approx(3.6638623767, abs=1e-6)
    assert float(_exterior_of([FIGURE_EIGHT]).volume()) == pytest.approx(2.0298832128, abs=1e-6)


def test_trefoil_has_three_crossings_of_one_sign() -> None:
    assert [one.sign for one in _crosses([TREFOIL])] == [-1, -1, -1]
    assert len(_link([TREFOIL]).crossings) == 3
