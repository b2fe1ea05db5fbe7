"""A step's scene: views, words, marks, arrows and the state before."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.cautions import BESIDE_PICTURES
from fidpath.geometry.parts import Part
from fidpath.methods.registry import method_of
from fidpath.methods.wording import worded
from fidpath.scene.captions import sights
from fidpath.scene.paint import hole_axes, model_of
from fidpath.scene.panels import ARROW, looked_at
from fidpath.scene.scene import project
from fidpath.scene.stage import staged
from fidpath.scene.step_picture import AREA, step_scene
from scenes.steps import scene_of_step, settled_state, small_plan, worded_step, words_of


@pytest.mark.parametrize("kind", ["wrapped", "tail-entering", "bight-in-h2", "locked"])
def test_every_view_holds_what_it_names(kind: str) -> None:
    step, scene = worded_step(kind), scene_of_step(kind)
    stage = staged(settled_state(kind), None, small_plan(), step.marks, step.turns)
    for view, found in zip(sights(step, stage.inked), scene.panels, strict=False):
        spots = project(found, looked_at(stage, view.look))
        x, y, width, height = found.box
        assert spots[:, 0].min() > x and spots[:, 0].max() < x + width
        assert spots[:, 1].min() > y and spots[:, 1].max() < y + height
        assert max(np.ptp(spots[:, 0]) / width, np.ptp(spots[:, 1]) / height) > 0.35


def test_views_fill_their_part_of_the_page_and_keep_off_the_words() -> None:
    scene = scene_of_step("bight-in-h2")
    views, cut = scene.panels[:2], scene.panels[2]
    assert sum(p.box[2] * p.box[3] for p in views) == pytest.approx(AREA[2] * AREA[3])
    (block,) = scene.words
    assert block.box[0] > AREA[0] + AREA[2]
    assert cut.box[1] > block.box[1] + block.box[3]
    assert cut.box[1] + cut.box[3] <= AREA[1] + AREA[3]
    assert "H2 cut across" in cut.caption


def test_the_standing_part_heads_east_in_every_picture() -> None:
    for kind in ("marking", "bight-in-h2", "locked"):
        model, camera = model_of(settled_state(kind)), scene_of_step(kind).panels[0].camera
        assert float(model.along(-40.0) @ np.array(camera.right)) > 0.95


def test_the_words_say_what_to_do_what_to_check_and_where_to_take_care() -> None:
    scene, step = scene_of_step("bight-in-h2"), worded_step("bight-in-h2")
    for text in (*step.instructions, step.check, step.caution):
        assert text in words_of(scene)
    assert scene.notes == (BESIDE_PICTURES,)
    assert "{" not in words_of(scene)


def test_a_mark_is_measured_where_it_is_made_and_named_afterwards() -> None:
    label = next(found for found in scene_of_step("wrapped").panels[0].labels if found.mark == "H1")
    assert "from the tail's end" in label.text and "mm" in label.text
    later = next(found for found in scene_of_step("bight-in-h2").panels[0].labels if found.mark == "H1")
    assert later.text == "hole in the standing part"


def test_a_single_view_is_joined_by_its_mark_close_to() -> None:
    wide, close = scene_of_step("laid-out").panels
    assert close.scale > 5 * wide.scale
    assert [label.mark for label in close.labels] == ["R"]
    assert close.labels[0].text.startswith("rough bury mark, on the tail,\n220 mm from the tail's end")


def test_the_state_before_is_a_ghost_in_the_first_view_alone() -> None:
    alone, after = scene_of_step("bight-in-h2"), scene_of_step("bight-in-h2", "tail-swung-round")
    assert [len(p.ghosts) for p in alone.panels] == [0, 0, 0]
    assert [len(p.ghosts) for p in after.panels] == [1, 0, 0]
    (ghost,) = after.panels[0].ghosts
    assert np.allclose(ghost.line, model_of(settled_state("tail-swung-round")).line)


def test_a_ghost_turns_so_that_the_standing_parts_lie_alike() -> None:
    (ghost,) = scene_of_step("h2-drawn-out", "marking").panels[0].ghosts
    column = model_of(settled_state("marking")).column(-60.0)
    assert abs(ghost.line[column, 1]) < 3.0


@pytest.mark.parametrize(("kind", "hole"), [("tail-entering", "H1"), ("tail-end-in-h2", "H2")])
def test_the_arrow_points_at_the_mouth_the_tails_end_goes_in_at(kind: str, hole: str) -> None:
    (body,) = (s.mesh for s in scene_of_step(kind).panels[0].solids if s.part is Part.ARROW)
    model = model_of(settled_state(kind))
    axes = hole_axes(model, model.state.opening(hole))
    start, tip = body.points[-2:]
    assert ((body.points - axes.middle) @ axes.left).min() > 0
    assert np.linalg.norm(tip - axes.middle) < 20
    assert np.linalg.norm(start - axes.middle) > 40


def test_arrows_are_as_wide_in_a_close_view_as_in_a_wide_one() -> None:
    scene = scene_of_step("on-terminator")
    widths = []
    for found in scene.panels[:2]:
        for solid in found.solids:
            if solid.part is Part.ARROW:
                step = np.linalg.norm(solid.mesh.points[16:32] - solid.mesh.points[16:32].mean(axis=0), axis=1)
                widths.append(step.max() * found.scale)
    assert widths == pytest.approx([ARROW] * 2, rel=0.05)


@pytest.mark.parametrize("name", ["locked-free", "plain"])
def test_other_methods_steps_have_pictures_too(name: str) -> None:
    for step in method_of(name).steps:
        if step.state not in ("laid-out", "free-end-in-h2", "plain-wrapped", "plain-entry-opened"):
            continue
        scene = step_scene(worded(step, small_plan()), settled_state(step.state), None, small_plan())
        assert scene.panels and words_of(scene)
        if step.state == "free-end-in-h2":
            assert Part.WHIPPING in {s.part for s in scene.panels[0].solids}
