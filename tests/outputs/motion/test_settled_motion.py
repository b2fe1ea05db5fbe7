"""The film between the steps: no crossing outside a hole, passes and invariants change only where a move says so."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from fidpath.checking.found_passes import crossings_found, passes_equal
from fidpath.checking.invariants import invariants
from fidpath.checking.overlap import overlap
from fidpath.errors import CannotBeMade
from fidpath.geometry import Opening, arc_lengths, stations
from fidpath.geometry.braid import straight
from fidpath.geometry.curve import curvature, points
from fidpath.geometry.strands import Strands
from fidpath.outputs.motion import lock_moves, moves
from fidpath.outputs.motion import settled_motion as motion
from fidpath.outputs.motion.morph import Closure, HeadingCurve, between, chain_of, closed, resized, shape_of, shared
from fidpath.outputs.motion.settled_motion import Frame, frames, of_thinner_rope, summary
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.settling import Effort, settle
from fidpath.settling.thin_start import clearest
from fidpath.states.draft import draft_of
from fidpath.states.draping import axis_of
from fidpath.states.kinds import KINDS, state_of
from fidpath.states.rope_state import RopeState
from jobs import a_job

ENTERING = ("tail's end into H1", "tail's own end into H2", "bight into H2")
"""The stretches in which a pass comes into being."""

JUMPS = ("curl closed, H2 inside out", "curl rolled out")
"""The stretches in which a curl lets go."""

COUNT = 60


@pytest.fixture(scope="module")
def plan() -> Plan:
    return make_plan(a_job(bury=20.0))


@pytest.fixture(scope="module")
def film(plan: Plan) -> list[Frame]:
    return list(frames(plan, COUNT))


@pytest.fixture(scope="module")
def board(plan: Plan) -> moves.Board:
    return moves.board_of(plan)


def meetings(plan: Plan, state: RopeState) -> np.ndarray:
    """Stations at which the rope's axis crosses itself, by cutting every piece of it with every other."""
    station = stations(plan.braid, state.first, state.last)[::2]
    xy = axis_of(state, station)[0][:, :2]
    step = np.diff(xy, axis=0)
    i, j = np.triu_indices(len(step), 2)
    across = step[i, 0] * step[j, 1] - step[i, 1] * step[j, 0]
    to = xy[j] - xy[i]
    slant = np.abs(across) > 1e-9 * plan.braid.diameter**2
    safe = np.where(slant, across, 1.0)
    u = (to[:, 0] * step[j, 1] - to[:, 1] * step[j, 0]) / safe
    v = (to[:, 0] * step[i, 1] - to[:, 1] * step[i, 0]) / safe
    met = slant & (u >= 0) & (u < 1) & (v >= 0) & (v < 1)
    long = station[1] - station[0]
    return np.column_stack([station[i] + u * long, station[j] + v * long])[met]


def outside(plan: Plan, state: RopeState) -> list[tuple[float, float]]:
    """Crossings of the axis with itself that lie in no hole."""

    def within(*at: float) -> bool:
        return any(abs(u - hole.host) <= hole.half for hole in state.openings for u in at)

    return [(u, v) for u, v in meetings(plan, state).tolist() if not within(u, v)]


def of(film: list[Frame], stretch: str) -> list[Frame]:
    return [frame for frame in film if frame.stretch == stretch]


def off_axis(strands: Strands) -> np.ndarray:
    """Strands in the axis's own frame: to the left, up, along."""
    off = strands.points - strands.axis
    along = np.cross(strands.normal, [0.0, 0.0, 1.0])
    return np.stack([(off * strands.normal).sum(-1), off[..., 2], (off * along).sum(-1)], axis=-1)


def test_the_film_has_the_frames_asked_for_and_every_stretch_in_order(film: list[Frame]) -> None:
    assert len(film) == COUNT
    named = list(dict.fromkeys(frame.stretch for frame in film))
    assert named == [*(stretch.name for stretch in motion.STORY), motion.BURIED]
    assert [frame.share for frame in film[:-1]] != sorted(frame.share for frame in film[:-1])
    for stretch in named:
        shares = [frame.share for frame in of(film, stretch)]
        assert shares == sorted(shares)
        assert shares[-1] == 1.0


def test_nothing_crosses_outside_a_hole_in_any_frame(plan: Plan, film: list[Frame]) -> None:
    for frame in film[:-1]:
        assert outside(plan, frame.state) == [], (frame.stretch, frame.share)
        met = meetings(plan, frame.state)
        assert len(met) == len(frame.state.passes), (frame.stretch, frame.share)
        for passing in frame.state.passes:
            hole = frame.state.opening(passing.hole)
            there = np.abs(np.sort(met, axis=1) - np.sort([passing.guest, hole.host])).max(axis=1)
            assert there.min() < hole.flat + 0.3 * plan.braid.diameter, (frame.stretch, frame.share)
            guest = np.abs(met - passing.guest).min()
            assert guest < 0.3 * plan.braid.diameter, (frame.stretch, frame.share)


@pytest.mark.parametrize("kind", ["h2-curled", "curl-rolling-out"])
@pytest.mark.parametrize("length", [330.0, 480.0, 900.0])
def test_the_loose_tail_keeps_clear_of_a_long_eye(kind: str, length: float) -> None:
    plan = make_plan(a_job(eye_length=length))
    state = state_of(plan, kind)
    assert plan.station_h2 > 45 * plan.braid.diameter
    assert len(meetings(plan, state)) == len(state.passes)


def test_a_crossing_outside_its_hole_is_seen(plan: Plan, film: list[Frame]) -> None:
    state = of(film, "tail drawn through H1")[0].state
    shut = tuple(replace(opening, half=0.0) for opening in state.openings)
    assert len(outside(plan, replace(state, openings=shut, passes=()))) == 1


def test_strands_go_through_what_each_frame_says(plan: Plan, film: list[Frame]) -> None:
    half = plan.braid.strands // 2
    for frame in film[:-1]:
        found = crossings_found(frame.strands)
        assert found.outside == (), (frame.stretch, frame.share)
        assert passes_equal(found.passes, frame.strands.holes, plan.braid.diameter), (frame.stretch, frame.share)
        assert {passing.split for passing in found.passes} <= {(half, half)}, (frame.stretch, frame.share)


def test_invariants_change_only_where_a_pass_comes_into_being(plan: Plan, film: list[Frame]) -> None:
    before = (0, 0, 0)
    for stretch in motion.STORY:
        after = KINDS[stretch.to].invariants or (0, 0, 0)
        allowed = {before, after} if stretch.name in ENTERING else {after}
        for frame in of(film, stretch.name):
            if frame.state.passes:
                now = invariants(frame.strands, 0.0, plan.station_h2).nearest
                assert now in allowed, (stretch.name, frame.share)
        before = after


def test_every_frame_is_certified_and_no_strand_lies_in_another(film: list[Frame]) -> None:
    for frame in film:
        assert frame.certificate > 0.05, (frame.stretch, frame.share)
        assert frame.least_gap > 1 - motion.BOUND - 1e-9
    for frame in film[10::7]:
        assert overlap(frame.strands).max < 2.5 * motion.BOUND, (frame.stretch, frame.share)


def test_the_rope_keeps_its_length_between_any_two_stations(plan: Plan, film: list[Frame]) -> None:
    for frame in film[:-1]:
        strands = frame.strands
        step = float(np.diff(strands.station[:2])[0])
        plain = np.linalg.norm(np.diff(straight(plan.braid, strands.station + plan.pick), axis=1), axis=2)
        rest = np.sqrt(step**2 + frame.thinner**2 * (plain**2 - step**2))
        own = np.linalg.norm(np.diff(strands.points, axis=1), axis=2)
        n = int(strands.count.min()) - 1
        assert np.abs(own[:, :n].sum(axis=1) / rest[:, :n].sum(axis=1) - 1).max() < 0.03, (frame.stretch, frame.share)


def test_neighbouring_frames_are_alike_but_for_key_frames(plan: Plan, film: list[Frame]) -> None:
    for one, two in pairwise(film):
        if one.key and two.key:
            continue
        _, i, j = np.intersect1d(one.strands.station.round(6), two.strands.station.round(6), return_indices=True)
        moved = np.linalg.norm(off_axis(one.strands)[:, i] - off_axis(two.strands)[:, j], axis=2)
        n = int(min(one.strands.count.min(), two.strands.count.min())) - 1
        assert moved[:, :n].max() < 0.75 * plan.braid.diameter, (two.stretch, two.share)
        assert len(i) > 0.3 * len(one.strands.station)


def test_the_rope_is_thinner_only_where_a_curl_lets_go(film: list[Frame]) -> None:
    for frame in film:
        if frame.stretch not in JUMPS:
            assert frame.thinner == 1.0, (frame.stretch, frame.share)
            assert frame.strands.packing.max() == 1.0
        else:
            assert frame.strands.packing.max() == pytest.approx(frame.thinner)
    for stretch in JUMPS:
        thick = [frame.thinner for frame in of(film, stretch)]
        assert min(thick) < 0.55
        assert thick[-1] == 1.0
        assert [frame.key for frame in of(film, stretch)].count(True) == 2
    assert sum(frame.key for frame in film) == 2 * len(JUMPS) + 2


def test_a_stretch_ends_in_its_steps_own_state(plan: Plan, board: moves.Board) -> None:
    for stretch in motion.STORY:
        if stretch.name in ("terminator out, rope straightened", "tail swung round to H1", "H2 drawn out through H1"):
            continue
        pose, key = stretch.move(board, 1.0), board.keys[stretch.to]
        if stretch.name == "line laid in a circle":
            continue
        along = np.linspace(max(pose.state.first, key.first), min(pose.state.last, key.last), 400)
        there = [axis_of(state, along)[0] for state in (pose.state, key)]
        assert np.abs(there[0] - there[1]).max() < 0.02 * plan.braid.diameter, stretch.name
        assert [p.guest for p in pose.state.passes] == pytest.approx([p.guest for p in key.passes], abs=0.2)


def test_moves_go_on_where_the_one_before_ended(plan: Plan, board: moves.Board) -> None:
    for one, two in pairwise(motion.STORY):
        states = [one.move(board, 1.0).state, two.move(board, 0.004).state]
        low, high = max(s.first for s in states), min(s.last for s in states)
        there = [axis_of(state, np.linspace(low, high, 300))[0] for state in states]
        assert np.abs(there[0] - there[1]).max() < 0.3 * plan.braid.diameter, (one.name, two.name)


@settings(max_examples=5, deadline=None)
@given(
    longer=some.floats(0.0, 60.0),
    ring=some.floats(2.0, 7.0),
    strands=some.sampled_from((8, 12, 16)),
    share=some.floats(0.02, 1.0),
)
def test_every_move_is_legal_for_any_eye(longer: float, ring: float, strands: int, share: float) -> None:
    try:
        plan = make_plan(a_job(bearing=ring, eye_length=10 * (2.6 * ring + 3.0 + longer), strands=strands, bury=20.0))
        board = moves.board_of(plan)
    except CannotBeMade:
        return
    for stretch in motion.STORY:
        pose = stretch.move(board, share)
        assert outside(plan, pose.state) == [], stretch.name
        along = stations(plan.braid, pose.state.first, pose.state.last)
        arc = arc_lengths(plan.braid, pose.state.openings, along) + pose.state.arc_zero
        tightest = 1 / max(float(np.abs(curvature(pose.state.chain, arc)).max()), 1e-9)
        assert tightest > 0.55 * pose.thinner * plan.braid.diameter, stretch.name


def test_the_bights_nose_makes_h2_wide_and_is_listed_once_it_is_through(board: moves.Board) -> None:
    early, late = (lock_moves.bight_into_h2(board, share) for share in (0.25, 0.6))
    assert len(early.state.passes) == 1
    assert early.entering
    assert not late.entering
    assert [(p.hole, p.face) for p in late.state.passes[1:]] == [("H2", "left"), ("H2", "right")]
    assert late.state.opening("H2").flat > 1.5 * board.keys["bight-in-h2"].opening("H2").flat


def test_a_left_handed_film_is_the_mirror_image(plan: Plan) -> None:
    job = plan.job
    own = make_plan(replace(job, practice=replace(job.practice, hand="left")))
    usual, other = (list(frames(each, 2 * len(motion.STORY) + 1)) for each in (plan, own))
    faces = {"left": "right", "right": "left"}
    for one, two in zip(usual[:-1], other[:-1], strict=True):
        where = (one.stretch, one.share)
        assert [faces[p.face] for p in one.state.passes] == [p.face for p in two.state.passes], where
        assert np.abs(one.strands.axis * [1.0, -1.0, 1.0] - two.strands.axis).max() < 0.1 * plan.braid.diameter, where
        found = crossings_found(two.strands)
        assert found.outside == (), where
        assert passes_equal(found.passes, two.strands.holes, plan.braid.diameter), where
        assert two.least_gap > 0.99 and two.certificate > 0, where


def test_a_summary_gives_the_least_of_every_stretch(film: list[Frame]) -> None:
    rows = summary(film)
    assert sum(row.frames for row in rows) == len(film)
    for row in rows:
        group = of(film, row.stretch)
        assert row.least_gap == min(frame.least_gap for frame in group)
        assert row.thinner == min(frame.thinner for frame in group)
        assert row.keys == sum(frame.key for frame in group)


def test_a_shape_shared_with_itself_is_itself() -> None:
    shape = HeadingCurve(np.array([-50.0, 0.0, 30.0, 60.0]), np.array([0.0, 0.0, 1.2, 1.2]), 4.0)
    anchors = np.array([0.0, 30.0])
    same = shared(shape, shape, (anchors, anchors, anchors), 0.4)
    assert np.interp(shape.arc, same.arc, same.heading) == pytest.approx(shape.heading)


def test_what_is_shared_bends_no_tighter_than_the_tighter_of_both() -> None:
    one = HeadingCurve(np.array([0.0, 40.0, 100.0]), np.array([0.0, 2.0, 2.0]), 4.0)
    two = HeadingCurve(np.array([0.0, 60.0, 80.0]), np.array([0.0, 0.0, -1.5]), 4.0)
    anchors = (np.array([0.0, 100.0]), np.array([0.0, 80.0]), np.array([0.0, 90.0]))
    for share in (0.2, 0.5, 0.9):
        mixed = shared(one, two, anchors, share)
        bend = np.abs(np.diff(mixed.heading) / np.diff(mixed.arc))
        assert bend.max() <= max(2.0 / 40, 1.5 / 20) + 1e-12


def test_closing_brings_a_guest_to_its_place_and_leaves_what_is_closed_alone() -> None:
    loop = HeadingCurve(
        np.array([-50.0, 0.0, 20.0, 60.0, 100.0, 130.0]), np.array([0.0, 0.0, 0.0, 2.35, 4.7, 4.7]), 4.0
    )
    turned, _ = closed(loop, [Closure(125.0, (3.0, -2.0), None, 4.5)], 10.0)
    line, h1 = chain_of(turned)
    assert points(line, np.array([125.0 + h1]))[0] == pytest.approx([3.0, -2.0], abs=1e-4)
    again, _ = closed(turned, [Closure(125.0, (3.0, -2.0), None, 4.5)], 10.0)
    assert again.heading == pytest.approx(turned.heading, abs=1e-6)
    with pytest.raises(CannotBeMade, match="brings its passes together"):
        closed(loop, [Closure(20.0, (300.0, 0.0))], 10.0)


def test_a_sliding_guest_finds_its_own_station() -> None:
    """A line straight east crosses x = 40 at 40 along it, whatever was guessed."""
    line = HeadingCurve(np.array([-50.0, 0.0, 50.0, 100.0]), np.zeros(4), 4.0)
    _, met = closed(line, [Closure(33.0, (40.0, 0.0), slides=True)], 10.0)
    assert met[0].guest == pytest.approx(40.0, abs=0.5)


def test_groups_cannot_change_their_turns_nor_passes_their_order(plan: Plan) -> None:
    with pytest.raises(CannotBeMade, match="turns"):
        resized(Opening("H2", 0.0, 9.0, 3.0, 3.0), Opening("H2", 0.0, 9.0, 3.0, 3.0, (1, -1)), 0.5)
    state = state_of(plan, "h2-curled")
    swapped = replace(state, passes=(replace(state.passes[0], guest=state.passes[2].guest + 30.0), *state.passes[1:]))
    with pytest.raises(CannotBeMade, match="order"):
        between(plan.braid, state, swapped, 0.5)


def test_shape_and_chain_are_inverse(plan: Plan) -> None:
    state = state_of(plan, "marking")
    line, h1 = chain_of(shape_of(state))
    at = np.linspace(-100.0, 300.0, 50)
    assert points(line, at + h1) == pytest.approx(points(state.chain, at + state.arc_zero), abs=1e-9)


def test_a_thinner_rope_lies_on_the_same_axis_with_thinner_strands(plan: Plan) -> None:
    draft = draft_of(state_of(plan, "h1-first-fid"))
    thin = of_thinner_rope(draft, 0.5)
    assert thin.laid.points.mean(axis=0) == pytest.approx(draft.laid.points.mean(axis=0), abs=1e-9)
    assert thin.laid.thickness == pytest.approx(0.5 * draft.laid.thickness)
    away = [np.linalg.norm(d.laid.points - d.laid.axis, axis=2) for d in (thin, draft)]
    assert away[0] == pytest.approx(0.5 * away[1])
    own = np.linalg.norm(np.diff(thin.laid.points, axis=1), axis=2)[:, 3:20]
    assert own == pytest.approx(thin.rest[:, 3:20], rel=2e-3)


def test_less_effort_settles_to_nearly_the_same(plan: Plan) -> None:
    draft = clearest(state_of(plan, "h1-second-fid"))
    full, same, less = settle(draft), settle(draft, effort=Effort()), settle(draft, effort=motion.EFFORT, bound=0.01)
    assert np.array_equal(full.strands.points, same.strands.points)
    assert less.log.sweeps < 0.6 * full.log.sweeps
    assert np.abs(less.strands.points - full.strands.points).max() < 0.6 * plan.braid.thickness


def test_a_small_eye_is_refused_before_any_frame_is_made() -> None:
    plan = make_plan(a_job(bearing=1.2, eye_length=50.0))
    with pytest.raises(CannotBeMade, match="bight"):
        next(frames(plan))
