"""The check: every measure passes on a good splice, and fails, in the right place, on one broken on purpose."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from fidpath.checking import SolverLog, measure
from fidpath.checking import layout as lay
from fidpath.checking.crossings import VIEWS, blocks_of, crossings_changed, passages, signed_crossings
from fidpath.checking.drawn_overlap import drawn_overlap, terminator_overlap, vertex_depths
from fidpath.checking.overlap import node_overlaps, overlap
from fidpath.checking.segments import apart, closest, segments_of
from fidpath.checking.throat import throat_angle
from fidpath.geometry.braid import Braid, braid_of, straight
from fidpath.geometry.seat import Seat
from fidpath.geometry.strands import Bury, Hole, LaidRope, Strands, of_one_rope
from fidpath.meshing.sections import Sections, sections_of
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.settling import clearest, settle
from fidpath.states.draft import Draft
from fidpath.states.kinds import state_of
from jobs import a_job

Floats = NDArray[np.float64]
LOG = SolverLog(certificate_min=0.5, settle_seconds=1.0)


@dataclass(frozen=True)
class Case:
    """One settled splice, and what the check is told of it."""

    plan: Plan
    draft: Draft
    strands: Strands
    sections: Sections

    def report(self, strands: Strands | None = None, **changed: Any) -> dict[str, Any]:
        told = {
            "before": self.draft.thin,
            "sections": self.sections,
            "log": LOG,
            "planned_take_up": self.plan.take_up,
            "planned_throat": self.plan.throat_angle,
            "letters": ("H1", "H2"),
            **changed,
        }
        return measure(strands or self.strands, **told)

    def failed(self, strands: Strands | None = None, **changed: Any) -> dict[str, dict[str, Any]]:
        return {failure["check"]: failure for failure in self.report(strands, **changed)["failures"]}


@pytest.fixture(scope="module")
def case() -> Case:
    plan = make_plan(a_job(bury=36.0, bearing=3.0))
    draft = clearest(state_of(plan, "buried"))
    strands = settle(draft).strands
    return Case(plan, draft, strands, sections_of(strands))


@pytest.fixture(scope="module")
def good(case: Case) -> dict[str, Any]:
    return case.report()


def _bump(station: Floats, at: float, width: float) -> Floats:
    """1 at `at`, falling to 0 smoothly `width` away, `(n,)`."""
    return np.cos(np.pi / 2 * np.clip((station - at) / width, -1, 1)) ** 2


def _moved(strands: Strands, which: Any, step: Floats) -> Strands:
    """The same strands, those picked moved by `step`, `(n, 3)` or `(3,)` mm."""
    points = strands.points.copy()
    points[which] += step
    return replace(strands, points=points)


def _of(points: Floats, braid: Braid, spacing: float, **more: Any) -> Strands:
    """Strands as plain data from `(strands, n, 3)`, every strand alive all along."""
    number, n = points.shape[:2]
    blank = np.zeros((n, 3))
    rope = LaidRope(replace(braid, strands=number), np.arange(n) * spacing, blank, blank, np.ones(n))
    return of_one_rope(rope, points, **more)


def _plain(diameters: float = 14.0) -> Strands:
    """Plain straight rope of 12 strands, 10 mm, pitch 70 mm."""
    braid = braid_of(a_job().rope)
    station = np.arange(0, diameters * 10.0, 1.25)
    return _of(straight(braid, station), braid, 1.25)


def _exchanged(strands: Strands, crossing: int) -> Floats:
    """Strands 0 and 1 of plain rope passed through each other at one of their crossings, half a pitch apart."""
    braid, points = strands.braid, strands.points.copy()
    share = _bump(strands.station, crossing * braid.pitch / 2, 1.4 * braid.pick)
    for k in (0, 1):
        radius = np.linalg.norm(points[k, :, 1:], axis=1)
        points[k, :, 1:] *= (1 + 2 * share * (braid.radius - radius) / radius)[:, None]
    return points


# A good splice passes.


def test_settled_splice_passes_every_check(good: dict[str, Any]) -> None:
    assert good["failures"] == []
    assert good["split"] == {"H1": [6, 6], "H2": [6, 6]}
    assert good["order_from_eye"] == ["H1", "H2", "bury"]
    assert good["nodes"] > 5000


def test_report_holds_the_promised_figures(good: dict[str, Any]) -> None:
    promised = {
        "overlap_max", "overlap_p99", "drawn_overlap_max", "drawn_overlap_p99", "terminator_overlap_max_mm",
        "certificate_min", "crossings_changed", "split", "tail_enclosed", "strand_length_change_max", "take_up_mm",
        "nodes", "settle_seconds", "failures",
    }  # fmt: skip
    assert promised <= good.keys()


def test_solver_log_is_passed_on_and_held_to_its_bound(case: Case) -> None:
    low = SolverLog(certificate_min=0.04, settle_seconds=3.25)
    found = case.report(log=low)
    assert found["settle_seconds"] == 3.25
    assert [failure["check"] for failure in found["failures"]] == ["certificate_min"]


# Strands through one another.


def test_control_without_ramp_and_guard_tunnels_and_is_caught(case: Case) -> None:
    wild = settle(case.draft, guarded=False)
    failed = case.failed(wild.strands, log=SolverLog(wild.log.certificate_min, 1.0))
    assert overlap(wild.strands).max <= 0.02, "it looks settled"
    assert failed["crossings_changed"]["value"] > 10
    assert "certificate_min" in failed


def test_strands_passed_through_each_other_are_counted_where_it_happened(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    pair, column = _nearest_pair(s, int(np.searchsorted(s.station, s.bury.host[0] - 100.0)))
    through = 2.0 * (s.points[pair[1], column] - s.points[pair[0], column])
    broken = _moved(s, pair[0], _bump(s.station, s.station[column], 8.0)[:, None] * through)
    failed = case.failed(broken)
    assert failed["crossings_changed"]["value"] >= 1
    assert failed["crossings_changed"]["where_mm"] == pytest.approx(s.station[column], abs=20.0)


def _nearest_pair(strands: Strands, column: int) -> tuple[tuple[int, int], int]:
    """The two strands that come nearest within half a diameter of a column, and the column where they do."""
    best = (np.inf, (0, 0), column)
    for at in range(column - 4, column + 5):
        gaps = np.linalg.norm(strands.points[:, None, at] - strands.points[None, :, at], axis=2)
        np.fill_diagonal(gaps, np.inf)
        a, b = np.unravel_index(int(np.argmin(gaps)), gaps.shape)
        best = min(best, (float(gaps[a, b]), (int(a), int(b)), at))
    return best[1], best[2]


def test_one_exchange_in_plain_rope_counts_once() -> None:
    rope = _plain()
    assert crossings_changed(rope.points, rope) == 0
    assert crossings_changed(rope.points, replace(rope, points=_exchanged(rope, 1))) == 1


def test_two_exchanges_that_cancel_in_the_pair_are_found_all_the_same() -> None:
    rope = _plain()
    once = replace(rope, points=_exchanged(rope, 1))
    broken = replace(rope, points=_exchanged(once, 2))
    assert _signed(broken)[0, 1] == _signed(rope)[0, 1], "the pair's own count can't tell"
    number, station = passages(rope.points, broken)
    assert number == 2
    assert station is not None and 20.0 < station < 85.0


def _signed(strands: Strands, view: tuple[float, float, float] = VIEWS[0]) -> NDArray[np.int64]:
    """Signed crossings of whole strands in one view, `(strands, strands) int`."""
    block = np.zeros_like(blocks_of(strands))
    found = np.zeros((len(strands.count),) * 2, dtype=np.int64)
    a, b, sign = signed_crossings(strands.points, strands.count, view, block).T
    np.add.at(found, (a, b), sign)
    return found


def test_free_end_moved_over_a_neighbour_is_no_passage() -> None:
    rope = _plain()
    end = 70.0
    count = rope.count.copy()
    count[0] = int(np.searchsorted(rope.station, end))
    cut = replace(rope, count=count)
    over = np.clip((rope.station - end + 12.0) / 12.0, 0, 1)[:, None] * np.array([0.0, 5.0, 3.0])
    moved = _moved(cut, 0, over)
    assert any((_signed(cut, view) != _signed(moved, view)).any() for view in VIEWS), "it does pass over in some view"
    assert crossings_changed(cut.points, moved) == 0


# Split, order, bury.


def _reflected(strands: Strands, which: int, at: float) -> Strands:
    """One strand taken to the other side of the eye's plane round a station."""
    points = strands.points.copy()
    points[which, :, 2] *= 1 - 2 * _bump(strands.station, at, 18.0) ** 0.2
    return replace(strands, points=points)


@pytest.mark.parametrize("name", ["H1", "H2"])
def test_host_strand_on_the_wrong_side_splits_five_to_seven(case: Case, name: str) -> None:
    hole = next(hole for hole in case.strands.holes if hole.name == name)
    over = int(np.argmax(lay.sides(case.strands, hole).sum(axis=1)))
    failed = case.failed(_reflected(case.strands, over, hole.host))
    assert sorted(failed[f"split at {name}"]["value"]) == [5, 7]
    assert failed[f"split at {name}"]["where_mm"] == pytest.approx(hole.host)


def test_guest_strand_outside_its_hole_is_told(case: Case) -> None:
    hole = case.strands.holes[0]
    outside = _bump(case.strands.station, hole.guest, 18.0)[:, None] * np.array([0.0, 0.0, 14.0])
    _, agreed = lay.split(_moved(case.strands, 4, outside), hole)
    assert not agreed
    assert "split_agreed" in case.failed(_moved(case.strands, 4, outside))
    assert lay.split(case.strands, hole) == ([6, 6], True)


def test_holes_exchanged_are_out_of_order_though_their_split_is_even(case: Case) -> None:
    h1, h2 = case.strands.holes
    exchanged = replace(case.strands, holes=(replace(h1, name="H2"), replace(h2, name="H1")))
    found = case.report(exchanged)
    assert found["order_from_eye"] == ["H2", "H1", "bury"]
    assert found["split"] == {"H1": [6, 6], "H2": [6, 6]}
    assert "order_from_eye" in [failure["check"] for failure in found["failures"]]


def test_tail_outside_its_cover_is_found_where_it_comes_out(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    out = s.bury.guest[0] + 120.0
    loop = _bump(s.station, out, 15.0)[:, None] * np.array([0.0, 11.0, 0.0])
    failed = case.failed(_moved(s, slice(None), loop))
    assert failed["tail_enclosed"]["where_mm"] == pytest.approx(out, abs=15.0)


def test_single_tail_strand_through_the_cover_is_found(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    at = s.bury.guest[0] + 80.0
    column = int(np.searchsorted(s.station, at))
    away = s.points[3, column] * np.array([0.0, 1.0, 1.0])
    away *= 12.0 / np.linalg.norm(away)
    exposed = lay.exposed_tail(_moved(s, 3, _bump(s.station, at, 6.0)[:, None] * away))
    assert len(exposed) > 0
    assert np.abs(exposed - at).max() < 6.0


def test_cover_gathered_on_one_side_does_not_surround_its_tail(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    at = s.bury.host[0] - 120.0
    share = _bump(s.station, at, 20.0) ** 0.2
    points = s.points.copy()
    points[..., 1] += share * (np.abs(points[..., 1]) - points[..., 1])
    failed = case.failed(replace(s, points=points))
    assert "tail_enclosed" in failed


def test_cover_parted_by_a_gap_does_not_surround_its_tail(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    at = s.bury.host[0] - 120.0
    share = _bump(s.station, at, 20.0) ** 0.2
    closed, wide = 1 - share / 3, 1 + share
    radius = wide * np.hypot(s.points[..., 1], s.points[..., 2])
    angle = np.arctan2(s.points[..., 2], s.points[..., 1])
    points = np.stack([s.points[..., 0], radius * np.cos(closed * angle), radius * np.sin(closed * angle)], axis=-1)
    assert len(lay.exposed_tail(replace(s, points=points))) > 3


def test_cover_shrunk_onto_its_tail_overlaps_there(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    at = s.bury.host[0] - 100.0
    points = s.points.copy()
    points[..., 1:] *= 1 - 0.15 * _bump(s.station, at, 30.0)[:, None]
    failed = case.failed(replace(s, points=points))
    assert failed["overlap_max"]["value"] > 0.1
    assert failed["overlap_p99"]["value"] > 0.01
    assert failed["overlap_max"]["where_mm"] == pytest.approx(at, abs=30.0)


# Lengths, take-up, throat.


def test_stretched_strand_is_found(case: Case) -> None:
    s = case.strands
    assert s.bury is not None
    at = s.bury.host[1] - 35.0
    zigzag = 2.5 * (-1.0) ** np.arange(len(s.station)) * _bump(s.station, at, 30.0)
    failed = case.failed(_moved(s, 2, zigzag[:, None] * np.array([0.0, 0.6, 0.8])))
    assert failed["strand_length_change_max"]["value"] > 0.02
    assert failed["strand_length_change_max"]["where_mm"] == pytest.approx(at, abs=30.0)


def test_length_change_of_plain_rope_is_none_and_of_a_stretched_one_its_stretch() -> None:
    braid = braid_of(a_job().rope)
    station = np.arange(120) * 1.25
    laid = straight(braid, station + braid.pick)
    assert np.abs(lay.length_changes(_of(laid, braid, 1.25))).max() < 1e-12
    assert lay.length_changes(_of(1.03 * laid, braid, 1.25)) == pytest.approx(0.03)


@pytest.mark.parametrize("stretch", [1.0, 1.04])
def test_take_up_of_wider_helices(stretch: float) -> None:
    """Helices that keep their length, wound out from R to R', shorten to sqrt(1 + (2 pi/P)^2 (R^2 - R'^2)): here 0.9.

    Scaled up as a whole, every strand has gained length: the rope it would make counts, not the rope there was.
    """
    pitch, radius = 70.0, 3.0
    braid = Braid(12, "over-one", 10.0, pitch, 1.0, radius, 0.0)
    station = np.arange(0, 300, 1.0)
    wide = np.sqrt(radius**2 + (1 - 0.9**2) * (pitch / (2 * np.pi)) ** 2)
    points = straight(replace(braid, radius=wide), station + braid.pick) * np.array([0.9, 1.0, 1.0])
    rope = _of(stretch * points, braid, 1.0, bury=Bury(host=(240.0, 60.0), guest=(0.0, 1.0)))
    window = 240.0 + 6.0 - (60.0 - 25.0)
    assert lay.take_up(rope) == pytest.approx(0.1 * stretch * window, rel=2e-3)


def test_plan_with_another_take_up_is_contradicted(case: Case) -> None:
    failed = case.failed(planned_take_up=1.05 * case.plan.take_up)
    assert case.strands.bury is not None
    assert failed["take_up_error"]["where_mm"] == pytest.approx(case.strands.bury.host[0])


def test_plan_with_another_throat_is_contradicted(case: Case) -> None:
    assert "throat_angle_error_deg" in case.failed(planned_throat=case.plan.throat_angle + np.radians(1.5))


@pytest.mark.parametrize("degrees", [20.0, 45.0, 60.0])
@pytest.mark.parametrize("bearing", [15.0, 60.0])
def test_throat_angle_of_straight_legs_and_a_round_bend(degrees: float, bearing: float) -> None:
    half, radius, d = np.radians(degrees / 2), bearing / 2 + 5.0, 10.0
    leg = radius / np.tan(half)
    total = 2 * leg + radius * (np.pi + 2 * half)
    station = np.arange(np.ceil(total)) * total / np.ceil(total)
    turn = np.clip((station - leg) / radius, 0, np.pi + 2 * half)
    step = np.column_stack([np.cos(half - turn), np.sin(half - turn)])
    line = np.pad(np.cumsum(step, axis=0) * total / np.ceil(total), ((0, 0), (0, 1)))
    braid = replace(braid_of(a_job().rope), diameter=d)
    rope = _of(
        np.stack([line, line]),
        braid,
        total / np.ceil(total),
        holes=(Hole("H1", 0.0, total, 10.0),),
        seat=Seat(bearing / 2, bearing / 2, 0.0, 0.0, 0.0, 7.0),
    )
    assert np.degrees(throat_angle(rope)) == pytest.approx(degrees, abs=0.1)


# Drawn sections and the terminator.


def test_fatter_sections_overlap(case: Case) -> None:
    fat = _scaled(case.sections, 1.15)
    failed = case.failed(sections=fat)
    assert failed["drawn_overlap_max"]["value"] > 0.06
    assert failed["drawn_overlap_p99"]["value"] > 0.0


def _scaled(sections: Sections, share: float) -> Sections:
    middle = sections.centres[:, :, None, :]
    return replace(sections, rings=middle + share * (sections.rings - middle))


def test_one_section_dragged_into_its_neighbour_is_found_there(case: Case) -> None:
    at = int(np.searchsorted(case.sections.station, case.strands.station[0] + 40.0))
    rings, centres = case.sections.rings.copy(), case.sections.centres
    near = np.argsort(np.linalg.norm(centres[:, at] - centres[0, at], axis=1))[1]
    rings[0, at] += 0.5 * (centres[near, at] - centres[0, at])
    worst = drawn_overlap(case.strands, replace(case.sections, rings=rings))
    assert worst.max > 0.06
    assert worst.station == pytest.approx(case.sections.station[at], abs=1.0)


def test_vertex_inside_the_terminator_is_found(case: Case, good: dict[str, Any]) -> None:
    s, drawn = case.strands, case.sections
    assert good["terminator_overlap_max_mm"] <= 0.05
    crown = int(np.argmin(np.abs(drawn.station - (s.holes[0].guest + s.holes[0].host) / 2)))
    rings = drawn.rings.copy()
    inner = int(np.argmin(rings[0, crown, :, 0]))
    assert s.seat is not None
    rings[0, crown, inner] = s.seat_centre + np.array([s.seat.crown - 0.3, 0.0, 0.0])
    worst = terminator_overlap(s, replace(drawn, rings=rings))
    assert worst.max == pytest.approx(0.3, abs=1e-6)
    assert "terminator_overlap_max_mm" in case.failed(sections=replace(drawn, rings=rings))


@dataclass(frozen=True)
class Tubes:
    """Round tubes as drawn sections."""

    rings: Floats
    centres: Floats
    count: NDArray[np.int64]
    rope: NDArray[np.int64]
    stations: tuple[Floats, ...]


def _tubes(*lines: Floats, radius: float = 1.0) -> Tubes:
    rings = []
    for line in lines:
        ahead = (line[-1] - line[0]) / np.linalg.norm(line[-1] - line[0])
        across = np.cross(ahead, [0.3, 0.5, 0.8])
        across /= np.linalg.norm(across)
        place = np.linspace(0, 2 * np.pi, 180, endpoint=False)[:, None]
        ring = radius * (np.cos(place) * across + np.sin(place) * np.cross(ahead, across))
        rings.append(line[:, None, :] + ring)
    n = len(lines[0])
    return Tubes(
        np.stack(rings), np.stack(lines), np.full(len(lines), n), np.zeros(len(lines), int), (np.arange(n) * 0.5,)
    )


def _line(n: int = 60) -> Floats:
    return np.column_stack([np.arange(n) * 0.5, np.zeros(n), np.zeros(n)])


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("distance", [1.7, 1.9, 2.1])
def test_depth_of_round_tubes_side_by_side(distance: float, turned: bool) -> None:
    beside = _line() + np.array([0.2, distance, 0.0])
    tubes = _tubes(_line(), beside[::-1] if turned else beside)
    assert vertex_depths(tubes, 15.0).max() == pytest.approx(max(2 - distance, 0.0), abs=0.002)


def test_depth_of_round_tubes_crossing() -> None:
    across = np.column_stack([np.full(60, 15.0), np.arange(60) * 0.5 - 15.0, np.full(60, 1.9)])
    assert vertex_depths(_tubes(_line(), across), 15.0).max() == pytest.approx(0.1, abs=0.01)


def test_every_tube_of_a_wide_raft_overlaps_on_both_sides() -> None:
    raft = [_line() + k * np.array([0.03, 1.2, 1.2]) for k in range(9)]
    depth = vertex_depths(_tubes(*raft), 15.0)
    ahead = np.einsum("knrc,c->knr", _tubes(*raft).rings - np.stack(raft)[:, :, None], [0.0, 1.0, 1.0])
    on_both = [np.where(side, depth, 0.0).max(axis=(1, 2)) for side in (ahead > 0.5, ahead < -0.5)]
    expected = 2 - 1.2 * np.sqrt(2)
    assert on_both[0][:-1] == pytest.approx(np.full(8, expected), abs=0.01)
    assert on_both[1][1:] == pytest.approx(np.full(8, expected), abs=0.01)
    assert on_both[0][-1] == on_both[1][0] == 0.0


def test_depth_does_not_depend_on_the_way_rings_run() -> None:
    tubes = _tubes(_line(), _line() + np.array([0.2, 1.8, 0.0]))
    back = replace(tubes, rings=tubes.rings[:, :, ::-1])
    assert vertex_depths(back, 15.0)[:, :, ::-1] == pytest.approx(vertex_depths(tubes, 15.0))


# Overlap of centre lines.


def test_overlap_of_two_rods_side_by_side() -> None:
    braid = replace(braid_of(a_job().rope), thickness=2.0)
    rods = np.stack([_line(120), _line(120) + np.array([0.1, 1.8, 0.0])])
    worst = overlap(_of(rods, braid, 0.5))
    assert worst.max == pytest.approx(0.1)
    assert worst.p99 == pytest.approx(0.1)


def test_overlap_at_the_models_own_cut_ends_is_left_out() -> None:
    braid = replace(braid_of(a_job().rope), thickness=2.0)
    rods = np.stack([_line(120), _line(120) + np.array([0.1, 3.0, 0.0])])
    rods[1, :8, 1] = 1.0
    assert node_overlaps(_of(rods, braid, 0.5)).max() == pytest.approx(0.5)
    assert overlap(_of(rods, braid, 0.5)).max == 0.0


def test_strand_doubled_back_on_itself_overlaps_itself() -> None:
    braid = replace(braid_of(a_job().rope), thickness=2.0, strands=1)
    turn = np.linspace(-np.pi / 2, np.pi / 2, 20)
    bend = np.column_stack([30 + 0.8 * np.cos(turn), 0.8 + 0.8 * np.sin(turn), np.zeros(20)])
    hairpin = np.concatenate([_line(60), bend, _line(60)[::-1] + np.array([0.0, 1.6, 0.0])])
    assert overlap(_of(hairpin[None], braid, 0.5)).max == pytest.approx(0.2)


def test_overlaps_agree_with_all_pairs_tried() -> None:
    rope = _plain(9.0)
    noise = np.random.default_rng(3).normal(size=rope.points.shape)
    rope = replace(rope, points=rope.points + 0.2 * noise)
    pieces = segments_of(rope)
    i, j = np.triu_indices(len(pieces.strand), 1)
    keep = apart(pieces, i, j, 15.0)
    i, j = i[keep], j[keep]
    x, y, distance = closest(pieces.start[i], pieces.end[i], pieces.start[j], pieces.end[j])
    expected = np.zeros(rope.points.shape[:2])
    depth = np.maximum(1 - distance / rope.braid.thickness, 0)
    np.maximum.at(expected, (pieces.strand[i], pieces.column[i] + (x > 0.5)), depth)
    np.maximum.at(expected, (pieces.strand[j], pieces.column[j] + (y > 0.5)), depth)
    assert expected.max() > 0.1
    assert node_overlaps(rope) == pytest.approx(expected, abs=1e-12)


def test_one_long_piece_hides_nothing() -> None:
    x = np.arange(300.0)
    x[150:] += 100.0
    long = np.column_stack([x, np.zeros(300), np.zeros(300)])
    other = np.column_stack([np.full(300, 240.0), np.arange(300.0) - 150.0, np.full(300, 0.5)])
    rods = _of(np.stack([long, other]), replace(braid_of(a_job().rope), thickness=2.0), 1.0)
    assert node_overlaps(rods)[1].max() == pytest.approx(0.75)


numbers = st.floats(-3, 3, allow_nan=False).map(lambda x: round(x, 3))
point = st.tuples(numbers, numbers, numbers)


@settings(max_examples=150, deadline=None)
@given(point, point, point, point)
def test_nearest_places_of_two_pieces_against_trying_them_all(p: Any, q: Any, r: Any, s: Any) -> None:
    a, b, c, d = (np.array([x]) for x in (p, q, r, s))
    x, y, distance = closest(a, b, c, d)
    assert 0 <= x[0] <= 1 and 0 <= y[0] <= 1
    there = np.linalg.norm(a + x[:, None] * (b - a) - c - y[:, None] * (d - c))
    assert distance[0] == pytest.approx(there, abs=1e-12)
    grid = np.linspace(0, 1, 201)[:, None]
    one, two = a + grid * (b - a), c + grid * (d - c)
    least = np.linalg.norm(one[:, None] - two[None], axis=2).min()
    assert distance[0] <= least + 1e-9
    assert least - distance[0] < 0.06
