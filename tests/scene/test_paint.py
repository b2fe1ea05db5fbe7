"""Parts and colours along the rope, faces on their side, numbers of strands."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.geometry.parts import Part
from fidpath.meshing.meshes import Mesh, part_strands
from fidpath.methods.placeholders import DOT_AWAY
from fidpath.scene.colours import PALETTE, colours_of, pair_of
from fidpath.scene.ink_marks import dot_solids, face_dots, tick_solids
from fidpath.scene.paint import (
    DOT,
    RIM,
    TICK,
    chips,
    fanned,
    hole_axes,
    key_of,
    model_of,
    mouth,
    opened,
    rope_coats,
    rope_solid,
)
from fidpath.scene.scene import Solid
from scenes.steps import settled_state, small_plan


def _strand(kind: str, places: list[float], k: int, toned=(), inked=()) -> Solid:  # type: ignore[no-untyped-def]
    """Vertices of one strand at some stations."""
    model = model_of(settled_state(kind))
    mesh = Mesh(np.zeros((len(places), 3)), np.zeros((0, 3), int), None, np.array(places), np.full(len(places), k))
    dark = np.full(len(places), model.strands.hand[k] <= 0)
    return Solid(mesh, Part.STANDING_PART, rope_coats(model, mesh, toned, inked), None, dark)


def _hands(kind: str) -> list[int]:
    """A strand of the light hand, and one of the dark."""
    return [int(np.flatnonzero(model_of(settled_state(kind)).strands.hand == hand)[0]) for hand in (1, -1)]


def _colours(solid: Solid) -> list[tuple[int, ...]]:
    return [tuple(int(c) for c in colour) for colour in colours_of(solid)]


PAIRS = (PALETTE.standing, PALETTE.eye, PALETTE.between, PALETTE.tail)
"""Colours of the rope's stretches."""


@pytest.mark.parametrize("kind", ["laid-out", "bight-in-h2", "locked", "buried"])
def test_stretches_keep_their_colours_through_all_steps(kind: str) -> None:
    plan = small_plan()
    places = [-50.0, 60.0, plan.station_h2 - 0.5 * plan.rope_between_holes, plan.station_h2 + 60.0]
    parts = [Part.STANDING_PART, Part.EYE, Part.BETWEEN_THE_HOLES, Part.TAIL]
    for shade, k in enumerate(_hands(kind)):
        solid = _strand(kind, places, k)
        assert solid.parts.tolist() == parts
        assert _colours(solid) == [pair_of(part)[shade] for part in parts]
    assert list(key_of(model_of(settled_state(kind)))) == parts
    assert [pair_of(part) for part in parts] == [PALETTE.standing, PALETTE.eye, PALETTE.between, PALETTE.tail]


def test_the_rope_from_h1_to_h2_is_one_piece_while_it_is_longer_than_in_the_lock() -> None:
    for kind in ("h2-drawn-out", "bight-in-h2", "h2-curled"):
        state = settled_state(kind).state
        guest = next(p.guest for p in state.passes if p.hole == "H1")
        assert dict(state.stretches)[Part.BETWEEN_THE_HOLES] == guest < small_plan().eye_length
    finished = dict(settled_state("locked").state.stretches)[Part.BETWEEN_THE_HOLES]
    assert finished == pytest.approx(small_plan().eye_length, abs=1e-6)


def test_a_colour_ends_in_a_line_across_a_strand() -> None:
    plan = small_plan()
    for station in (0.0, plan.station_h2):
        places = [station - 0.1 * plan.braid.diameter, station + 0.1 * plan.braid.diameter]
        for k in _hands("laid-out"):
            before, after = _colours(_strand("laid-out", places, k))
            assert before != after and {before, after} <= {c for pair in PAIRS for c in pair}


def test_groups_are_toned_at_the_opened_place_alone() -> None:
    model = model_of(settled_state("h1-second-fid"))
    toned = opened(model)
    assert [o.name for o in toned] == ["H1"]
    top = hole_axes(model, toned[0]).top
    for k in range(12):
        solid = _strand("h1-second-fid", [0.0, -80.0], k, toned)
        assert solid.parts.tolist() == [Part.TOP_GROUP if top[k] else Part.BOTTOM_GROUP, Part.STANDING_PART]
        there, beyond = _colours(solid)
        assert there == (PALETTE.top_group if top[k] else PALETTE.bottom_group)
        assert beyond in PALETTE.standing


def test_a_pen_mark_is_a_tick_across_the_top_of_the_rope() -> None:
    model = model_of(settled_state("laid-out"))
    (tick,) = tick_solids(model, (30.0,))
    away = tick.mesh.points - model.at(30.0)
    along, d = model.along(30.0), model.d
    across = away @ np.cross((0.0, 0.0, 1.0), along)
    assert np.ptp(across) == pytest.approx(2 * TICK * d, rel=0.4) and np.ptp(across) < 0.6 * d
    assert np.ptp(away @ along) < 0.2 * d
    assert 0.2 * d < away[:, 2].min() and away[:, 2].max() < 0.7 * d
    assert _colours(Solid(tick.mesh, tick.part))[0] == PALETTE.ink


def test_no_tick_is_drawn_where_the_rope_has_ended() -> None:
    model = model_of(settled_state("cut-and-tapered"))
    assert tick_solids(model, (model.state.last,)) == []


@pytest.mark.parametrize(("kind", "hole"), [("tail-entering", "H1"), ("tail-end-in-h2", "H2"), ("bight-in-h2", "H2")])
def test_the_guest_goes_in_at_the_dotted_face(kind: str, hole: str) -> None:
    model = model_of(settled_state(kind))
    opening = model.state.opening(hole)
    dotted, plain = (mouth(model, opening, side).mean(axis=0) for side in (1, -1))
    guest = next(p.guest for p in model.state.passes if p.hole == hole)
    before, after = model.at(guest - 12.0), model.at(guest + 12.0)
    assert np.linalg.norm(before - dotted) < np.linalg.norm(before - plain)
    assert np.linalg.norm(after - plain) < np.linalg.norm(after - dotted)


def test_a_dot_is_one_round_body_with_a_pale_rim() -> None:
    model = model_of(settled_state("tail-entering"))
    (place,) = face_dots(model, model.state.openings)
    (dot,) = dot_solids(model, (place,))
    off = np.linalg.norm(dot.mesh.points - np.array(place), axis=1)
    assert off.max() < 1.2 * RIM * model.d
    shares = dot.coats[0].share
    assert shares[off < DOT * model.d].max() == 0.0 and shares[off > 0.95 * RIM * model.d].min() == 1.0


def test_the_face_turns_with_a_rope_that_is_rolled() -> None:
    right, rolled = (model_of(settled_state(kind)) for kind in ("locked", "both-other-face"))
    left = [hole_axes(m, m.state.opening("H2")).left for m in (right, rolled)]
    assert float(left[0] @ left[1]) < -0.9


@pytest.mark.parametrize("kind", ["locked", "bight-in-h2", "h2-inside-out", "both-other-face"])
def test_the_dot_lies_on_the_hosts_left_clear_of_the_hole(kind: str) -> None:
    model = model_of(settled_state(kind))
    for opening, dot in zip(model.state.openings, face_dots(model, model.state.openings), strict=True):
        station = opening.host + DOT_AWAY * model.d
        away = np.array(dot) - model.at(station)
        rolled = -1 if kind == "both-other-face" and opening.name == "H2" else 1
        left = rolled * np.cross((0.0, 0.0, 1.0), model.along(station))
        assert 0.15 * model.d < float(away @ left) < 0.8 * model.d


def test_one_strand_of_each_group_is_followed_through_its_turn_and_in_no_other_hole() -> None:
    for kind, followed in (("h2-inside-out", 2), ("bight-in-h2", 0)):
        model = model_of(settled_state(kind))
        opening = model.state.opening("H2")
        meshes = part_strands(model.sections, opening.host - 1.0, opening.host + 1.0, weld=False)
        solid = rope_solid(model, meshes, (opening,))
        assert solid.group is not None
        assert len(set(solid.group[solid.parts == Part.FOLLOWED_STRAND].tolist())) == followed


@pytest.mark.parametrize(("kind", "counts"), [("marking", (6, 6)), ("split-5-7", (5, 7))])
def test_strands_are_numbered_from_the_dotted_face_in_each_group(kind: str, counts: tuple[int, int]) -> None:
    model = model_of(settled_state(kind))
    opening = model.state.opening("H1")
    left = hole_axes(model, opening).left
    for numbers in (chips(model, opening), fanned(model, opening)):
        for part, count in zip((Part.TOP_GROUP, Part.BOTTOM_GROUP), counts, strict=True):
            group = [chip for chip in numbers if chip.part is part]
            assert [chip.text for chip in group] == [str(i + 1) for i in range(count)]
            ends = [float(np.array(chip.to or chip.at) @ left) for chip in group]
            assert ends[0] == max(ends) and ends[-1] == min(ends)
