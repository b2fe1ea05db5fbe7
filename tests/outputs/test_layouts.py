"""Words of every step's and mistake's picture, on every medium: none over another, run through, cut off or lost."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from fidpath.building.request import request_for
from fidpath.job.reader import read_job
from fidpath.loading import moments_in_hand
from fidpath.loading import state_in_hand as made_state
from fidpath.methods.registry import method_of
from fidpath.methods.wording import worded_method, worded_mistake
from fidpath.outputs.handout.compact_scenes import compact
from fidpath.outputs.lineart.line_drawing import as_figure, line_scene
from fidpath.outputs.pictures.composition import drawn_in, layout_of
from fidpath.outputs.pictures.layout import Layout, Reason, Written
from fidpath.outputs.pictures.raster import drawn
from fidpath.planning.plan import Plan
from fidpath.scene.mistake_picture import wrong_scene
from fidpath.scene.scene import Scene
from fidpath.scene.step_picture import step_scene
from scenes.layout_faults import layout_faults
from scenes.steps import scene_of_step, settled_state, small_plan, whole_step_scene

METHOD = method_of("locked-captive")
STEPS = [step.state for step in METHOD.steps]
MISTAKES = [mistake.name for mistake in METHOD.mistakes]


SCENES = sorted((Path(__file__).parents[2] / "scenes").glob("*.toml")) if os.environ.get("FIDPATH_SOAK") else []
"""All scenes, tried by `make soak`."""


def faults_of(scene: Scene, plan: Plan | None = None) -> list[str]:
    """What is wrong with a scene's words as a picture, on a sheet and in the handout.

    A handout's small figure may leave labels out: the words beside it say them too.
    """
    reach, views = (plan or small_plan()).braid.thickness, drawn(scene)
    found = [
        f"picture: {fault}" for fault in layout_faults(layout_of(scene, reach, views), scene, drawn_in(scene, views))
    ]
    sheet = line_scene(scene, reach, views=views)
    found += [f"sheet: {fault}" for fault in layout_faults(sheet.layout, scene, sheet.drawn)]
    small = compact(scene)
    figure = line_scene(small, reach, sheet=False)
    faults = layout_faults(figure.layout, as_figure(small), figure.drawn)
    return [*found, *(f"handout: {fault}" for fault in faults if "no room for" not in fault)]


@pytest.mark.parametrize("kind", STEPS)
def test_no_word_of_a_step_is_lost_or_run_through(kind: str) -> None:
    assert faults_of(whole_step_scene(kind)) == []


@pytest.mark.parametrize("name", MISTAKES)
def test_no_word_of_a_mistake_is_lost_or_run_through(name: str) -> None:
    mistake = worded_mistake(next(one for one in METHOD.mistakes if one.name == name), small_plan())
    scene = wrong_scene(mistake, settled_state(name), settled_state(mistake.beside), small_plan())
    assert faults_of(scene) == []


@pytest.mark.parametrize("job", SCENES, ids=lambda path: path.stem)
def test_no_word_of_any_scene_is_lost_or_run_through(job: Path) -> None:
    request = request_for(read_job(job))
    plan, steps = request.plan, worded_method(request.method, request.plan).steps
    made = {step.state: made_state(plan, step.state) for step in steps}
    faults = {}
    for index, step in enumerate(steps):
        before = made[steps[max(index - 1, 0)].state]
        moments = moments_in_hand(lambda kind: made.get(kind) or made_state(plan, kind), step.states[1:])
        part = request.method.part(index)
        scene = step_scene(step, made[step.state], before, plan, of=steps[-1].number, part=part, moments=moments)
        faults[f"{step.number}{part}"] = faults_of(scene, plan)
    assert {name: found for name, found in faults.items() if found} == {}


def test_faults_are_found() -> None:
    scene = scene_of_step("h1-second-fid")
    views = drawn(scene)
    right, solid = layout_of(scene, small_plan().braid.thickness, views), drawn_in(scene, views)
    assert layout_faults(right, scene, solid) == []
    word = next(one for one in right.written if one.text == "dotted face")
    moved = Written("elsewhere", (word.box[0] + 5, word.box[1] + 5, word.box[2] + 5, word.box[3] + 5))
    through = ((word.box[0] - 5, word.box[1] + 5), (word.box[2] + 5, word.box[3] - 5))
    outside = Written("outside", (-20.0, 10.0, 20.0, 30.0))
    for wrong, what in (
        (Layout((*right.written, moved), right.strokes, right.left_out, right.plates), "overlap"),
        (Layout(right.written, (*right.strokes, through), right.left_out, right.plates), "a line runs through"),
        (Layout((*right.written, outside), right.strokes, right.left_out, right.plates), "runs over the page's edge"),
        (Layout(right.written[:-1], right.strokes, right.left_out, right.plates), "is lost"),
    ):
        assert any(what in fault for fault in layout_faults(wrong, scene, solid)), what
    assert Reason.NO_ROOM not in {one.why for one in right.left_out}
