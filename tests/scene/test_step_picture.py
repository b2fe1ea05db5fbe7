"""A step's scene: views, words, marks, arrows and the state before."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fidpath.cautions import BESIDE_PICTURES
from fidpath.geometry.parts import Part
from fidpath.methods import fill
from fidpath.methods.registry import method_of
from fidpath.methods.wording import worded
from fidpath.planning import caliper_mm
from fidpath.scene.cameras import looked_at
from fidpath.scene.captions import called, sights
from fidpath.scene.paint import group_of, hole_axes, model_of
from fidpath.scene.panels import ARROW
from fidpath.scene.scene import project
from fidpath.scene.stage import staged
from fidpath.scene.step_picture import AREA, step_scene
from scenes.steps import scene_of_step, settled_state, small_plan, whole_step_scene, worded_step, words_of


@pytest.mark.parametrize("kind", ["wrapped", "tail-entering", "bight-in-h2", "locked"])
def test_every_view_holds_what_it_names(kind: str) -> None:
    step, scene = worded_step(kind), scene_of_step(kind)
    stage = staged(settled_state(kind), None, small_plan(), step.marks, step.turns)
    views = [view for view in sights(step, stage.inked) if not view.state]
    for view, found in zip(views, scene.panels, strict=False):
        spots = project(found, looked_at(stage, view.look))
        x, y, width, height = found.box
        assert spots[:, 0].min() > x and spots[:, 0].max() < x + width
        assert spots[:, 1].min() > y and spots[:, 1].max() < y + height
        assert max(np.ptp(spots[:, 0]) / width, np.ptp(spots[:, 1]) / height) > 0.35


def test_views_fill_their_part_of_the_page_and_keep_off_the_words() -> None:
    scene = scene_of_step("bight-in-h2")
    views, cut = scene.panels[:1], scene.panels[1]
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
    bearing = caliper_mm(small_plan().job.terminator.bearing_diameter_mm, small_plan())
    assert scene.notes[0] == BESIDE_PICTURES and bearing in scene.notes[1]
    assert "12-strand rope" in scene.notes[1] and small_plan().job.terminator.name in scene.notes[1]
    assert "{" not in words_of(scene)


def test_a_picture_says_what_is_in_hand_and_calls_the_terminator_by_the_jobs_name() -> None:
    scene, plan = scene_of_step("h2-drawn-out"), small_plan()
    hand = next(section for section in scene.words[0].sections if section.heading == "In hand")
    assert hand.paragraphs == (("", f"{fill('{h2_fids}', plan).capitalize()}."),)
    assert dict(scene.called) == {Part.TERMINATOR: plan.job.terminator.name}
    long = replace(plan.job.terminator, name="a thimble with a name that is longer than a key has room for")
    assert called(replace(plan, job=replace(plan.job, terminator=long))) == ()


def test_a_mark_is_measured_where_it_is_made_and_named_afterwards() -> None:
    label = next(found for found in scene_of_step("wrapped").panels[0].labels if found.mark == "H1")
    assert "from the tail's end" in label.text and "mm" in label.text
    panels = scene_of_step("bight-in-h2").panels
    named = [(found.text, panel.scale) for panel in panels for found in panel.labels if found.mark == "H1"]
    assert max(named, key=lambda one: one[1])[0] == "hole in the standing part"
    assert [text for text, _ in named if text] == ["hole in the standing part"]


def test_the_whole_tail_is_joined_by_its_mark_close_to() -> None:
    step = worded(method_of("plain").step("laid-out"), small_plan())
    wide, close = step_scene(step, settled_state("laid-out"), None, small_plan()).panels
    assert close.scale > 2 * wide.scale
    assert [label.mark for label in close.labels] == ["B"]


def test_the_state_before_is_a_ghost_in_the_first_view_alone() -> None:
    alone, after = scene_of_step("bight-in-h2"), scene_of_step("bight-in-h2", "tail-swung-round")
    assert [len(p.ghosts) for p in alone.panels] == [0, 0]
    assert [len(p.ghosts) for p in after.panels] == [1, 0]
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


def test_arrows_are_as_wide_in_a_close_picture_as_in_a_wide_one_and_in_one_panel_alone() -> None:
    widths, scales = [], []
    for kind in ("tail-entering", "h2-drawn-out"):
        panels = scene_of_step(kind).panels
        shown = [(found, solid) for found in panels for solid in found.solids if solid.part is Part.ARROW]
        ((found, solid),) = shown
        ring = np.linalg.norm(solid.mesh.points[16:32] - solid.mesh.points[16:32].mean(axis=0), axis=1)
        widths.append(ring.max() * found.scale)
        scales.append(found.scale)
    assert widths == pytest.approx([ARROW] * 2, rel=0.05)
    assert max(scales) > 1.3 * min(scales)


@pytest.mark.parametrize("name", ["locked-free", "plain"])
def test_other_methods_steps_have_pictures_too(name: str) -> None:
    for step in method_of(name).steps:
        if step.state not in ("laid-out", "free-end-in-h2", "plain-wrapped", "plain-entry-opened"):
            continue
        scene = step_scene(worded(step, small_plan()), settled_state(step.state), None, small_plan())
        assert scene.panels and words_of(scene)
        if step.state == "free-end-in-h2":
            assert Part.WHIPPING in {s.part for s in scene.panels[0].solids}


def test_views_of_other_moments_show_their_states_and_are_left_out_without_them() -> None:
    step = worded_step("curl-rolling-out")
    args = (step, settled_state("curl-rolling-out"), None, small_plan())
    alone = step_scene(*args)
    with_all = step_scene(*args, moments={kind: settled_state(kind) for kind in step.states[1:]})
    captions = [p.caption.split(":")[0] for p in with_all.panels[:3]]
    assert captions == ["first", "then", "last"]
    assert with_all.panels[0].scale == pytest.approx(with_all.panels[1].scale) == with_all.panels[2].scale
    assert len(alone.panels) == len(with_all.panels) - 2
    assert not any(panel.dimensions for panel in with_all.panels)
    lines = [p.solids[0].mesh.points.mean(axis=0) for p in with_all.panels[:3]]
    assert np.linalg.norm(lines[0] - lines[1]) > 1.0 and np.linalg.norm(lines[1] - lines[2]) > 1.0


def test_what_is_wrong_is_crossed_out_and_its_mark_lies_a_pick_off() -> None:
    moments = {"laid-out": settled_state("laid-out")}
    scene = step_scene(worded_step("wrapped"), settled_state("wrapped"), None, small_plan(), moments=moments)
    right, wrong = scene.panels[2:4]
    parts = [{solid.part for solid in p.solids} for p in (right, wrong)]
    assert Part.CROSSED_OUT in parts[1] and Part.CROSSED_OUT not in parts[0]
    ticks = [next(s.mesh.points.mean(axis=0) for s in p.solids if s.part is Part.PEN_MARK) for p in (right, wrong)]
    assert np.linalg.norm(ticks[0] - ticks[1]) == pytest.approx(small_plan().pick, rel=0.1)


@pytest.mark.parametrize(("kind", "texts"), [("wrapped", ("loop", "throat to crown")), ("marking", ("loop", "throat"))])
def test_the_held_loop_is_dimensioned_along_the_rope_and_straight_to_the_crown(
    kind: str, texts: tuple[str, str]
) -> None:
    loop, far = scene_of_step(kind).panels[0].dimensions
    assert loop.text.startswith(texts[0]) and far.text.startswith(texts[1])
    plan = small_plan()
    assert np.linalg.norm(np.diff(loop.line, axis=0), axis=1).sum() == pytest.approx(plan.loop_fitted, rel=0.05)
    wanted = (plan.wrapped_loop if kind == "wrapped" else plan.marking_loop).throat_to_crown
    assert np.linalg.norm(np.subtract(far.end, far.start)) == pytest.approx(wanted, abs=0.08 * plan.braid.diameter)


def test_a_marks_words_stand_in_the_first_panel_that_shows_it_and_its_letter_in_all() -> None:
    panels = scene_of_step("marking").panels
    named = [(label.mark, bool(label.text)) for panel in panels for label in panel.labels if label.mark]
    assert {mark for mark, _ in named} == {"H1", "H2"} and len(named) > 2
    assert sum(full for mark, full in named if mark == "H2") == 1


def test_measured_pictures_have_no_ghost() -> None:
    scene = scene_of_step("marking", "tail-entering")
    assert scene.panels[0].dimensions and not any(panel.ghosts for panel in scene.panels)


def test_groups_that_are_eased_over_the_crossing_have_arrows_toward_the_captive_end() -> None:
    model = model_of(settled_state("h1-in-h2"))
    close = scene_of_step("h1-in-h2").panels[1]
    arrows = [solid.mesh.points for solid in close.solids if solid.part is Part.ARROW]
    assert arrows
    axes = hole_axes(model, model.state.opening("H2"))
    for points in arrows:
        start, tip = points[-2:]
        assert (tip - start) @ model.along(-30.0) < -2 * model.d
    assert ((arrows[0] - axes.middle) @ axes.up).min() > axes.gap
    assert "top group first" in {label.text for label in close.labels}


def test_steps_whose_tail_is_buried_elsewhere_are_measured_by_the_jobs_plan() -> None:
    step = worded(method_of("plain").step("plain-tail-in"), small_plan())
    moments = {kind: settled_state(kind) for kind in step.states[1:]}
    panel = step_scene(step, settled_state("plain-tail-in"), None, small_plan(), moments=moments).panels[0]
    puller = next(label.text for label in panel.labels if "puller" in label.text)
    assert fill("{tip_in_standing_part}", small_plan()) in puller and not panel.dimensions


def test_a_group_alone_is_drawn_with_the_strand_that_is_followed_and_nothing_else() -> None:
    scene = whole_step_scene("h2-inside-out")
    model = model_of(settled_state("h2-inside-out"))
    top = group_of(model, model.state.opening("H2"))
    alone = {panel.caption.split()[0]: panel for panel in scene.panels if "group" in panel.caption}
    for name, members in (("top", top), ("bottom", ~top)):
        solid = alone[name].solids[0]
        assert solid.group is not None
        assert set(solid.group.tolist()) == set(np.flatnonzero(members).tolist())
        followed = set(solid.group[solid.parts == Part.FOLLOWED_STRAND].tolist())
        assert len(followed) == 1
        assert [label.text.split(":")[0] for label in alone[name].labels] == [f"{name} group"]
    whole = next(panel for panel in scene.panels if panel.caption == "then: inside out")
    group, parts = whole.solids[0].group, whole.solids[0].parts
    assert group is not None and len(set(group[parts == Part.FOLLOWED_STRAND].tolist())) == 2
    assert not any("cut across" in panel.caption for panel in scene.panels)


def test_a_views_own_arrow_shows_what_moves_in_it() -> None:
    scene = whole_step_scene("locked")
    arrows = [[s.mesh.points for s in panel.solids if s.part is Part.ARROW] for panel in scene.panels[:2]]
    ((leg,), (tail,)) = arrows
    assert leg[-1, 0] > leg[-2, 0] and tail[-1, 0] < tail[-2, 0]
    (moment, *others) = whole_step_scene("h2-inside-out").panels
    assert any(solid.part is Part.ARROW for solid in moment.solids)
    assert not any(solid.part is Part.ARROW for panel in others for solid in panel.solids)


def test_a_hole_drawn_up_is_cut_where_its_turns_are_counted() -> None:
    (cut,) = (panel for panel in scene_of_step("locked").panels if "cut across" in panel.caption)
    assert len(cut.chips) == 12
    assert Part.STANDING_PART in set(cut.solids[0].parts.tolist())


def test_a_length_is_drawn_once_where_it_shows_largest() -> None:
    for kind in ("wrapped", "locked"):
        panels = whole_step_scene(kind).panels
        texts = [length.text for panel in panels for length in panel.dimensions]
        assert len(texts) == len(set(texts))
    entry = next(p for p in whole_step_scene("wrapped").panels if any("= 4" in d.text for d in p.dimensions))
    assert entry.caption.startswith("right")


def test_a_hole_that_lies_in_another_is_named_at_the_group_that_covers_it() -> None:
    model = model_of(settled_state("h1-in-h2"))
    labels = [label for panel in scene_of_step("h1-in-h2").panels for label in panel.labels if label.mark == "H1"]
    assert any(label.text.endswith("under here, in H2") for label in labels)
    for label in labels:
        off = np.array(label.at) - model.at(0.0)
        assert 0.5 * model.d < off[2] and float(np.linalg.norm(off)) < 2 * model.d


def test_letters_that_crowd_another_are_left_to_the_closer_view() -> None:
    wide, close = whole_step_scene("marking").panels[:2]
    assert {label.mark for label in close.labels} >= {"H1", "H2"}
    assert [label.mark for label in wide.labels if label.mark] == ["H1"]
