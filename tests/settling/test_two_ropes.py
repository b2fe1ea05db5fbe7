"""Two ropes in one model, without a terminator: one passes through a hole opened in the other.

Drafted, settled, checked, drawn and meshed as a splice in one rope is; what passes where is told by rope and letter.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fidpath.checking import rope_measures
from fidpath.checking.crossings import crossings_changed
from fidpath.checking.drawn_overlap import drawn_overlap, terminator_overlap
from fidpath.checking.found_passes import crossings_found, fids_found, passes_equal
from fidpath.checking.overlap import overlap
from fidpath.checking.report import LEAST_CERTIFICATE, UPPER, SolverLog
from fidpath.checking.step_report import Planned, measure_step
from fidpath.geometry.rods import Rod
from fidpath.geometry.strands import Hole, Strands
from fidpath.meshing.meshes import open_edges, part_mesh, part_strands, strand_mesh, volume
from fidpath.meshing.sections import Sections, sections_of
from two_ropes import GUEST, D, settled


@pytest.fixture(scope="module")
def strands() -> Strands:
    return settled().strands


@pytest.fixture(scope="module")
def sections(strands: Strands) -> Sections:
    return sections_of(strands)


def test_every_strand_belongs_to_its_rope(strands: Strands) -> None:
    assert [rope.name for rope in strands.ropes] == ["host", "guest"]
    assert strands.rope.tolist() == [0] * 12 + [1] * 8
    assert strands.points.shape[1] == len(strands.ropes[0].station) > len(strands.ropes[1].station)
    assert strands.count.tolist() == [len(strands.ropes[0].station)] * 12 + [len(strands.ropes[1].station)] * 8
    with pytest.raises(ValueError, match="unpack"):
        _ = strands.station


def test_settling_certifies_that_no_strand_crossed_another(strands: Strands) -> None:
    assert settled().log.certificate_min >= 0.3
    assert crossings_changed(settled().draft.thin, strands) == 0
    worst = overlap(strands)
    assert worst.max <= UPPER["overlap_max"] and worst.p99 <= UPPER["overlap_p99"]


def test_a_strand_put_through_the_other_rope_is_counted(strands: Strands) -> None:
    """A guest strand is carried over its host, half of whose strands lay above it."""
    points = strands.points.copy()
    points[14, :, 2] += 25.0 * np.exp(-((np.arange(points.shape[1]) - len(strands.ropes[1].station) / 2) ** 2) / 60.0)
    assert crossings_changed(settled().draft.thin, replace(strands, points=points)) >= 3


@pytest.mark.parametrize(("heading", "face"), [(-np.pi / 2, "left"), (np.pi / 2, "right")])
def test_the_pass_is_found_by_rope_and_letter(heading: float, face: str) -> None:
    strands = settled(heading).strands
    found = crossings_found(strands)
    assert found.outside == ()
    (one,) = found.passes
    assert (one.hole, one.host_rope, one.guest_rope, one.face) == ("A", 0, 1, face)
    assert (one.host, one.guest) == pytest.approx((0.0, 0.0), abs=0.1 * D)
    assert one.split == (6, 6)
    assert passes_equal(found.passes, strands.holes, D)


def test_a_hole_declared_in_the_other_rope_is_not_the_one_found(strands: Strands) -> None:
    """Host and guest exchanged: the stations are the same, the ropes aren't."""
    (hole,) = strands.holes
    exchanged = replace(strands, holes=(replace(hole, host_rope=1, guest_rope=0),))
    found = crossings_found(exchanged)
    assert [one.hole for one in found.passes] == [None]
    assert len(found.outside) == 1
    assert not passes_equal(found.passes, exchanged.holes, D)


def test_the_hole_is_split_evenly_from_all_sides(strands: Strands) -> None:
    (hole,) = strands.holes
    assert rope_measures.split(strands, hole) == ([6, 6], True)
    assert rope_measures.sides(strands, hole).shape == (12, 8)
    backwards = Hole("A", 0.0, 0.0, hole.length, host_rope=1, guest_rope=0)
    assert rope_measures.sides(strands, backwards).shape == (8, 12)


def test_a_fid_through_either_rope_is_told_by_its_rope(strands: Strands) -> None:
    beside = Rod((300.0, -60.0, 0.0), (0.0, -1.0, 0.0), 2.0, 0.4, 10.0, 20.0)
    through_guest = replace(beside, tip=(30.0, 50.0, 0.0), direction=(1.0, 0.0, 0.0), length=60.0)
    through_host = replace(beside, tip=(50.0, -30.0, 0.0), length=60.0)
    found = fids_found(replace(strands, rods=(beside, through_guest, through_host)))
    assert [one.host_rope for one in found] == [1, 0]
    assert found[0].host == pytest.approx(-50.0, abs=0.5)
    assert 50.5 < found[1].host < 53.0, "the host has lost length on the table where it is parted"


def test_the_report_of_two_ropes_holds_every_bound(strands: Strands, sections: Sections) -> None:
    log = SolverLog(settled().log.certificate_min, settled().log.settle_seconds)
    planned = Planned(D, (("A", 0.0),), float("inf"), 0.0, 0)
    report = measure_step(strands, settled().draft.thin, sections, log, planned)
    assert report["failures"] == []
    assert report["passes_as_declared"] and report["certificate_min"] >= LEAST_CERTIFICATE
    assert report["passes"][0]["split"] == [6, 6]
    assert not report["terminator_in"] and "invariants" not in report


def test_lengths_are_measured_along_each_strands_own_rope(strands: Strands) -> None:
    assert np.abs(rope_measures.length_changes(strands)).max() < UPPER["strand_length_change_max"]
    stretched = strands.points.copy()
    stretched[15] *= 1.1
    changed = replace(strands, points=stretched)
    assert int(np.argmax(rope_measures.length_changes(changed))) == 15
    assert abs(rope_measures.most_changed(changed)) <= strands.ropes[1].station[-1]


def test_both_ropes_are_drawn_without_overlap(strands: Strands, sections: Sections) -> None:
    worst = drawn_overlap(strands, sections)
    assert worst.max <= UPPER["drawn_overlap_max"]
    assert terminator_overlap(strands, sections).max == 0.0
    middles = sections.centres[:, :, None]
    grown = replace(sections, rings=middles + 1.3 * (sections.rings - middles))
    assert drawn_overlap(strands, grown).max > UPPER["drawn_overlap_max"]


def test_each_rope_is_meshed_by_its_own_stations(strands: Strands, sections: Sections) -> None:
    for k in range(20):
        mesh = strand_mesh(sections, k)
        assert open_edges(mesh) == 0 and volume(mesh) > 0
    for number, rope in enumerate(strands.ropes):
        parts = [part_mesh(sections, part, rope=number) for part in rope.parts]
        assert [open_edges(part) for part in parts] == [0, 0]
        members = strands.members(number)
        whole = sum(volume(strand_mesh(sections, int(k))) for k in members)
        assert sum(map(volume, parts)) == pytest.approx(whole, rel=1e-9)
        near = part_strands(sections, -10.0, 10.0, rope=number)
        assert sorted({int(mesh.strand[0]) for mesh in near if mesh.strand is not None}) == members.tolist()
        assert all(np.abs(mesh.station).max() < 11.0 for mesh in near if mesh.station is not None)


def test_one_of_several_ropes_is_settled_rope_by_itself(strands: Strands) -> None:
    guest = strands.alone(1)
    assert guest.braid == GUEST and guest.holes == ()
    assert np.array_equal(guest.points, strands.points[12:, : len(guest.station)])
    assert strands.alone(0).alone() is not strands
