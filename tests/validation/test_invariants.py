"""The invariants that tell right from wrong, on settled strands, against the project's own table and closed forms.

The table of (s_1, s_2, I_2) by case follows from the definitions in checking/invariants.py and was found by trials of
our own; no source outside. Linking: the Gauss integral, in its exact form for polygons.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from numpy.typing import NDArray

from fidpath.checking.found_passes import crossings_found, passes_equal, top_by_law
from fidpath.checking.invariants import Linked, carried_on, cut_in_eye, invariants, legs, linked, turns
from fidpath.checking.rope_measures import centre_line
from fidpath.geometry.braid import straight
from fidpath.geometry.strands import Strands
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.settling.settled_states import settled_state
from jobs import a_job
from shapes import a_braid, plain
from theory.polygons import linking

Floats = NDArray[np.float64]

NOTHING_PASSED = dict.fromkeys(("laid-out", "wrapped"), (0, 0, 0))
PLAIN_PASS = dict.fromkeys(("tail-entering", "marking", "h2-drawn-out", "split-5-7"), (-1, 0, 0))
OWN_HOLE = dict.fromkeys(("tail-end-in-h2", "curl-closing", "h2-inside-out", "tail-swung-round"), (-1, 0, -1))
RIGHT_WAY = dict.fromkeys(
    (
        "bight-in-h2",
        "h1-in-h2",
        "h2-curled",
        "curl-rolling-out",
        "locked",
        "on-terminator",
        "cut-and-tapered",
        "buried",
    ),
    (-1, -1, 0),
)
BOTH_ENDS_FREE = {"free-end-in-h2": (-1, -1, 0)}
WRONG_WAYS = {
    "tail-other-face": (-1, -1, 2),
    "bight-other-face": (-1, 1, -2),
    "both-other-face": (-1, 1, 0),
    "no-tail-pass": (-1, -1, 1),
}
OTHERWISE_WRONG = dict.fromkeys(("holes-too-far", "no-lock-allowance", "eye-overstretched", "eye-loose"), (-1, -1, 0))
TABLE = {
    **NOTHING_PASSED, **PLAIN_PASS, **OWN_HOLE, **RIGHT_WAY, **BOTH_ENDS_FREE, **WRONG_WAYS, **OTHERWISE_WRONG,
}  # fmt: skip

TURNED = {
    "h2-inside-out": (-1, 1),
    "tail-swung-round": (-1, 1),
    "bight-in-h2": (-1, 1),
    "locked": (0, 0),
    "tail-other-face": (2, -2),
    "bight-other-face": (-2, 2),
    "both-other-face": (0, 0),
    "no-tail-pass": (1, -1),
}


@cache
def _plan() -> Plan:
    return make_plan(a_job(bury=24.0))


@cache
def _settled(kind: str) -> Strands:
    """Not as they lie in the hand: ends must lie as the braid's law has them wherever the eye is cut."""
    return settled_state(_plan(), kind).settled.strands


def _h2(strands: Strands) -> float:
    return next((hole.host for hole in strands.holes if hole.name == "H2"), _plan().station_h2)


@cache
def _linked(kind: str) -> Linked:
    return linked(_settled(kind), 0.0, _h2(_settled(kind)))


# The table.


@pytest.mark.parametrize(("kind", "expected"), TABLE.items())
def test_table_of_invariants(kind: str, expected: tuple[int, int, int]) -> None:
    found = _linked(kind).invariants
    assert found.whole
    assert (found.s_1, found.s_2, found.I_2) == pytest.approx(expected, abs=1e-9)
    assert _linked(kind).odd_pairs == 0


@pytest.mark.parametrize("kind", TABLE)
def test_passes_found_are_the_declared_ones(kind: str) -> None:
    strands = _settled(kind)
    found = crossings_found(strands)
    assert passes_equal(found.passes, strands.holes, strands.braid.diameter)
    assert found.outside == ()


@pytest.mark.parametrize(("kind", "expected"), TURNED.items())
def test_turns_of_the_groups_are_in_the_strands(kind: str, expected: tuple[int, int]) -> None:
    """Measured by how pairs wind, not by linking: a twentieth of a turn may be lost to where the model ends."""
    assert turns(_settled(kind), _h2(_settled(kind))) == pytest.approx(expected, abs=0.05)


# Definitions against closed forms.


def _mirrored(strands: Strands) -> Strands:
    """The mirror image in the plane y = 0, its strands named so that the braid's law holds again."""
    half = strands.braid.strands // 2
    partner = [2 * ((half // 2 - k // 2) % half) + 1 - k % 2 for k in range(2 * half)]
    points = strands.points * np.array([1.0, -1.0, 1.0])
    holes = tuple(replace(hole, face={"left": "right", "right": "left"}[hole.face]) for hole in strands.holes)
    return replace(strands, points=points[partner], holes=holes)


def _turned_over(strands: Strands) -> Strands:
    """The whole model turned over on the table, about the x axis."""
    return replace(strands, points=strands.points * np.array([1.0, -1.0, -1.0]))


def _on_the_table(strands: Strands, angle: float) -> Strands:
    cos, sin = np.cos(angle), np.sin(angle)
    return replace(strands, points=strands.points @ np.array([[cos, sin, 0.0], [-sin, cos, 0.0], [0.0, 0.0, 1.0]]))


@pytest.mark.parametrize("kind", ["tail-end-in-h2", "locked"])
def test_turned_over_or_round_it_is_the_same_splice(kind: str) -> None:
    strands = _settled(kind)
    for moved in (_turned_over(strands), _on_the_table(strands, 2.0)):
        found = invariants(moved, 0.0, _h2(strands))
        assert found.whole
        assert found.nearest == TABLE[kind]
        assert passes_equal(crossings_found(moved).passes, strands.holes, strands.braid.diameter)


@pytest.mark.parametrize("kind", ["marking", "locked", "tail-end-in-h2"])
def test_mirror_image_flips_all_signs(kind: str) -> None:
    strands = _settled(kind)
    found = invariants(_mirrored(strands), 0.0, _h2(strands))
    assert found.nearest == tuple(-value for value in TABLE[kind])


def test_where_the_eye_is_cut_makes_no_difference() -> None:
    strands, h2 = _settled("locked"), _h2(_settled("locked"))
    middle = cut_in_eye(strands, crossings_found(strands), 0.0, h2)
    for off in (-43.0, 17.0, 51.0):
        found = invariants(strands, 0.0, h2, middle + off)
        assert found.whole
        assert found.nearest == (-1, -1, 0)


@pytest.mark.parametrize("kind", ["locked", "both-other-face", "buried"])
def test_legs_end_between_two_picks_and_go_on_as_they_lie(kind: str) -> None:
    """Carried on by a fifth of a diameter along, strands go no further than that lets them', rolled rope or not."""
    strands, h2, d = _settled(kind), _h2(_settled(kind)), _plan().braid.diameter
    found = crossings_found(strands)
    for leg, end, inner in zip(legs(strands, _linked(kind).cut, found, 0.0, h2), (0, -1), (1, -2), strict=True):
        place = strands.station[leg[[0, -1]]] / strands.braid.pick
        assert place % 1.0 == pytest.approx([0.5, 0.5], abs=0.13)
        lines = carried_on(strands, leg)
        assert np.linalg.norm(lines[:, end] - lines[:, inner], axis=1).max() < 0.35 * d


@pytest.mark.parametrize("kind", ["marking", "locked"])
def test_linking_with_a_loop_of_two_host_strands_is_gauss_integral(kind: str) -> None:
    """Along a top strand, back along a bottom one: how often a guest strand goes through, closed far over it all."""
    strands, link = _settled(kind), _linked(kind)
    gap = 0.8 * strands.braid.diameter
    inner = np.arange(4, int(strands.count.min()) - 4)
    here = strands.station[inner]
    standing, tail = inner[here < link.cut - gap], inner[here > link.cut + gap]
    top, bottom = (int(np.nonzero(side)[0][2]) for side in (link.top_1, ~link.top_1))
    loop = np.concatenate([strands.points[top, standing], strands.points[bottom, standing[::-1]]])
    for k in (0, 3, 8):
        guest = strands.points[k, tail]
        high = guest[[-1, 0]] + [0.0, 0.0, 400.0]
        gauss = linking(loop, np.concatenate([guest, high]))
        assert gauss == pytest.approx(-1, abs=1e-6)
        assert link.across[top, k] - link.across[bottom, k] == pytest.approx(gauss, abs=1e-6)


@pytest.mark.parametrize(("top", "bottom"), [(1, 0), (0, -1), (2, -2), (-1, 1)])
def test_turns_of_groups_turned_in_closed_form(top: int, bottom: int) -> None:
    """Straight rope, each group of a hole turned about its own middle: whole turns, right-handed ones positive."""
    strands = plain(length=20.0)
    hole = 12 * strands.braid.pick * 2
    points = straight(strands.braid, strands.station + strands.braid.pick)
    share = np.clip((strands.station - hole) / 60 + 0.5, 0, 1)
    law = top_by_law(strands.braid, hole)
    for members, number in ((law, top), (~law, bottom)):
        middle = points[members].mean(axis=0)
        across = (points[members] - middle)[..., 1] + 1j * (points[members] - middle)[..., 2]
        across *= np.exp(2j * np.pi * number * share)
        points[members] = middle + np.stack([0 * across.real, across.real, across.imag], axis=-1)
    points[..., 0] = strands.station
    assert turns(replace(strands, points=points), hole) == pytest.approx((top, bottom), abs=1e-6)


def test_top_group_by_law_is_what_lies_up_in_laid_rope() -> None:
    braid = a_braid()
    for diamonds in (0, 3, 23):
        hole = 2 * diamonds * braid.pick
        height = straight(braid, np.array([hole + braid.pick]))[:, 0, 2]
        assert top_by_law(braid, hole).tolist() == (height > 0).tolist()
        assert int(top_by_law(braid, hole).sum()) == braid.strands // 2


# Broken on purpose.


def _bump(strands: Strands, at: float, half: float) -> Floats:
    return np.cos(np.pi / 2 * np.clip((strands.station - at) / half, -1, 1)) ** 2


def test_strand_hooked_round_one_of_the_other_leg_is_found() -> None:
    """Between the holes one tail strand goes out over a strand of the standing part and comes back under it."""
    strands = _settled("locked")
    at = _h2(strands) - _plan().rope_between_holes / 2
    line = centre_line(strands)
    column = int(np.searchsorted(strands.station, at))
    beside = np.nonzero((strands.station < 0) & (strands.station > -_plan().rope_between_holes))[0]
    other = beside[int(np.argmin(np.linalg.norm(line[beside] - line[column], axis=1)))]
    across = (line[other] - line[column]) * [1.0, 1.0, 0.0]
    along = strands.station - at
    over = 9.0 * np.sin(np.pi * np.clip(along / 8.0, -1, 1))
    points = strands.points.copy()
    points[4] += _bump(strands, at, 8.0)[:, None] * across * 1.6 + over[:, None] * [0.0, 0.0, 1.0]
    broken = linked(replace(strands, points=points), 0.0, _h2(strands))
    assert _linked("locked").odd_pairs == 0
    assert broken.odd_pairs > 0
    assert not broken.invariants.whole


def test_guest_lifted_over_its_host_is_not_linked_with_it() -> None:
    strands = _settled("marking")
    guest = strands.holes[0].guest
    points = strands.points.copy()
    points[..., 2] += 25.0 * _bump(strands, guest, 40.0)
    lifted = replace(strands, points=points)
    found = crossings_found(lifted)
    assert found.passes == ()
    assert len(found.outside) == 1
    assert invariants(lifted, 0.0, _h2(strands)).nearest == (0, 0, 0)
