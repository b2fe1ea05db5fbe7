"""Right and wrong side by side."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.geometry.parts import Part
from fidpath.methods.registry import method_of
from fidpath.methods.wording import worded_mistake
from fidpath.scene.mistake_picture import wrong_scene
from fidpath.scene.paint import model_of
from fidpath.scene.scene import Panel, Scene, project
from scenes.steps import settled_state, small_plan, words_of


def _wrong(name: str) -> Scene:
    way = worded_mistake(method_of("locked-captive").mistake(name), small_plan())
    return wrong_scene(way, settled_state(name), settled_state(way.beside), small_plan())


@pytest.mark.parametrize("name", ["tail-other-face", "holes-too-far", "eye-loose"])
def test_right_and_wrong_stand_side_by_side_to_one_scale(name: str) -> None:
    scene = _wrong(name)
    for right, wrong in _pairs(scene):
        assert (right.caption, wrong.caption) == ("as it should be", "wrong")
        assert right.box[2:] == wrong.box[2:] and right.box[1] == wrong.box[1] and right.box[0] < wrong.box[0]
        assert right.scale == pytest.approx(wrong.scale)
    way = worded_mistake(method_of("locked-captive").mistake(name), small_plan())
    for text in (*way.signs, *way.remedy, way.how_far_off):
        assert text in words_of(scene)


def _pairs(scene: Scene) -> list[tuple[Panel, Panel]]:
    return list(zip(scene.panels[::2], scene.panels[1::2], strict=True))


def test_an_uneven_split_is_counted_in_the_cut() -> None:
    scene = _wrong("split-5-7")
    cuts = [p for p in scene.panels if "cut across" in p.caption]
    assert [len(p.chips) for p in cuts] == [12, 12]
    counts = [sum(chip.part is Part.TOP_GROUP for chip in p.chips) for p in cuts]
    assert counts == [6, 5]


def test_both_ways_of_a_mistake_show_the_same_holes_groups() -> None:
    right, wrong = _wrong("tail-other-face").panels[:2]
    for found in (right, wrong):
        rope = next(s for s in found.solids if s.part is Part.STANDING_PART)
        assert {Part.TOP_GROUP, Part.BOTTOM_GROUP} <= set(rope.parts.tolist())


def test_the_terminator_lies_beside_an_eye_it_does_not_go_into() -> None:
    right, wrong = _wrong("no-lock-allowance").panels[:2]
    assert Part.TERMINATOR in {s.part for s in right.solids}
    (beside,) = (s for s in wrong.solids if s.part is Part.TERMINATOR_ASIDE)
    assert beside.mesh.points[:, 0].min() > model_of(settled_state("no-lock-allowance")).line[:, 0].max()
    spots = project(wrong, beside.mesh.points)
    assert spots[:, 0].max() < wrong.box[0] + wrong.box[2]


def test_the_pen_mark_shows_how_far_the_fid_has_slid() -> None:
    wrong = _wrong("mark-on-strand").panels[1]
    assert [solid.part for solid in wrong.solids].count(Part.PEN_MARK) == 1
    marks = {label.mark or label.text: np.array(label.at) for label in wrong.labels}
    assert np.linalg.norm(marks["H1"] - marks["the mark"]) == pytest.approx(small_plan().pick, rel=0.35)


def test_a_mark_on_a_strand_is_shown_on_closed_braid_one_pick_off() -> None:
    way = worded_mistake(method_of("locked-captive").mistake("mark-on-strand"), small_plan())
    made = settled_state("wrapped")
    scene = wrong_scene(
        way, settled_state("mark-on-strand"), settled_state(way.beside), small_plan(), {"wrapped": made}
    )
    right, wrong = scene.panels[:2]
    assert "cross" in right.labels[0].text and wrong.labels[0].text == "on a strand"
    ticks = [next(s.mesh.points.mean(axis=0) for s in p.solids if s.part is Part.PEN_MARK) for p in (right, wrong)]
    assert np.linalg.norm(ticks[0] - ticks[1]) == pytest.approx(small_plan().pick, rel=0.1)
    assert not made.state.openings
