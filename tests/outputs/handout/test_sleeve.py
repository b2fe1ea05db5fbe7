"""The sleeve against the model: its strands' order in a hole's groups, and its crossings against the braid in space."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fidpath.geometry.braid import braid_of, hands, straight
from fidpath.geometry.parts import Part
from fidpath.job.job import Weave
from fidpath.methods.placeholders import ON_A_CROSSING, mark_place
from fidpath.outputs.handout.sleeve import LatticePlace, Sleeve, mark_at, numbered, places, sleeve, strand_lines, where
from fidpath.planning.planner import make_plan
from fidpath.scene.paint import hole_axes, model_of
from fidpath.settling.settled_states import laid_state
from jobs import a_job

BRAIDS: list[tuple[int, Weave]] = [
    (8, "over-two"),
    (12, "over-two"),
    (16, "over-two"),
    (8, "over-one"),
    (12, "over-one"),
]


def in_model(strands: int, weave: Weave) -> dict[Part, list[tuple[float, int]]]:
    """Strands of either group at H1 as the fid's step shows them: how far left each lies in d, and its hand."""
    model = model_of(laid_state(make_plan(a_job(strands=strands, weave=weave)), "h1-second-fid"))
    hole = next(o for o in model.state.openings if o.name == "H1")
    axes = hole_axes(model, hole)
    left = model.strands.points[:, model.column(hole.host)] @ axes.left / model.d
    turning = hands(strands)
    groups = {Part.TOP_GROUP: axes.top, Part.BOTTOM_GROUP: ~axes.top}
    return {
        name: sorted(((float(left[k]), int(turning[k])) for k in np.flatnonzero(members)), reverse=True)
        for name, members in groups.items()
    }


@pytest.mark.parametrize(("strands", "weave"), BRAIDS)
def test_numbers_run_as_on_the_fid_steps(strands: int, weave: Weave) -> None:
    """Number by number the same hand turns, but for two strands that cross in the middle of a group."""
    turning = hands(strands)
    found = numbered(braid_of(a_job(strands=strands, weave=weave).rope))
    for group, shown in in_model(strands, weave).items():
        mine = [int(turning[n.strand]) for n in sorted(found, key=lambda n: n.number) if n.group == group]
        theirs = [hand for _, hand in shown]
        assert len(mine) == strands // 2
        for i, (a, b) in enumerate(zip(mine, theirs, strict=True)):
            near = [j for j in (i - 1, i + 1) if 0 <= j < len(shown) and abs(shown[j][0] - shown[i][0]) < 0.08]
            assert a == b or any(theirs[j] == a for j in near), (group, i + 1)


@pytest.mark.parametrize(("strands", "weave"), BRAIDS)
def test_a_strand_is_broken_where_it_runs_under_in_space(strands: int, weave: Weave) -> None:
    """Where two lines of the sleeve would cross, the one drawn through is the outer one of the straight braid."""
    one = sleeve(braid_of(a_job(strands=strands, weave=weave).rope))
    braid = one.braid
    drawn = strand_lines(one)
    seen = 0
    for n in range(-one.picks + 1, one.picks):
        here = straight(braid, np.array([(n + 1) * braid.pick]))[:, 0]
        angle = np.arctan2(here[:, 2], here[:, 1])
        radius = np.hypot(here[:, 1], here[:, 2])
        for a in range(0, strands, 2):
            b = next(k for k in range(1, strands, 2) if abs(math.remainder(angle[k] - angle[a], 2 * math.pi)) < 1e-6)
            outer = a if radius[a] > radius[b] else b
            y = float(one.across(angle[outer])) % one.round
            if min(y, one.round - y) < 0.2:
                continue
            through = {k for k, p, q in drawn if _covers(p, q, n * braid.pick, y)}
            assert through == {outer}, (n, a, b)
            seen += 1
    assert seen > strands


def _covers(p: tuple[float, float], q: tuple[float, float], x: float, y: float) -> bool:
    """Whether a line from p to q passes within a hundredth of a mm of (x, y)."""
    if not p[0] < x < q[0]:
        return False
    return abs(p[1] + (q[1] - p[1]) * (x - p[0]) / (q[0] - p[0]) - y) < 0.01


@pytest.mark.parametrize(("strands", "weave"), BRAIDS)
def test_legal_places_are_the_middles_of_diamonds(strands: int, weave: Weave) -> None:
    """No strand of the straight braid is nearer to a legal place than one N-th of the way round, on either side."""
    one = sleeve(braid_of(a_job(strands=strands, weave=weave).rope))
    for place in places(one.braid, one.picks):
        here = straight(one.braid, np.array([(place.along + 1) * one.braid.pick]))[:, 0]
        lines = np.asarray(one.across(np.arctan2(here[:, 2], here[:, 1])))
        y = where(one, place)[1]
        off = np.remainder(lines - y + one.round / 2, one.round) - one.round / 2
        assert np.abs(off).min() == pytest.approx(one.round / strands, abs=1e-9)


def test_the_fid_goes_out_half_way_round_and_parts_the_strands_evenly() -> None:
    for strands in (8, 12, 16):
        one = sleeve(braid_of(a_job(strands=strands).rope))
        (x, entry), (x_out, out) = where(one, LatticePlace(0, 0)), where(one, LatticePlace(0, strands // 2))
        assert x == x_out == pytest.approx(one.along)
        assert out - entry == pytest.approx(one.round / 2)
        here = straight(one.braid, np.array([one.braid.pick]))[:, 0]
        lines = np.asarray(one.across(np.arctan2(here[:, 2], here[:, 1]))) % one.round
        assert np.sum((lines > entry) & (lines < out)) == strands // 2


@pytest.mark.parametrize(("strands", "weave"), BRAIDS)
def test_the_mark_is_where_its_words_say_half_way_between_the_fids_places(strands: int, weave: Weave) -> None:
    """Two strands of the straight braid meet at it, or none is nearer than one N-th of the way round."""
    plan = make_plan(a_job(strands=strands, weave=weave))
    one = sleeve(plan.braid)
    x, y = mark_at(one)
    assert x == where(one, LatticePlace(0, 0))[0]
    assert 2 * y == where(one, LatticePlace(0, 0))[1] + where(one, LatticePlace(0, strands // 2))[1]
    here = straight(plan.braid, np.array([plan.braid.pick]))[:, 0]
    lines = np.asarray(one.across(np.arctan2(here[:, 2], here[:, 1])))
    off = np.abs(np.remainder(lines - y + one.round / 2, one.round) - one.round / 2)
    if mark_place(plan) == ON_A_CROSSING:
        assert np.sort(off)[:2] == pytest.approx([0.0, 0.0], abs=1e-9)
    else:
        assert off.min() == pytest.approx(one.round / strands, abs=1e-9)


@pytest.mark.parametrize("d", [2.0, 10.0, 24.0])
def test_sleeve_fits_the_paper_and_goes_once_round(d: float) -> None:
    one: Sleeve = sleeve(braid_of(a_job(d).rope))
    assert one.round == pytest.approx(math.pi * d)
    assert 2 * one.along <= 168.0
    assert 4.0 <= one.flap <= 9.0
