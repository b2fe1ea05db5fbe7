"""Scenes of steps of one small splice, its states settled once."""

from __future__ import annotations

from functools import lru_cache

from fidpath.methods.method import Step
from fidpath.methods.registry import method_of
from fidpath.methods.wording import worded
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.scene.scene import Scene
from fidpath.scene.step_picture import step_scene
from fidpath.settling.settled_states import SettledState
from jobs import a_job
from scenes.settled import settled


@lru_cache
def small_plan() -> Plan:
    return make_plan(a_job(bury=18.0, bearing=4.0))


@lru_cache
def settled_state(kind: str) -> SettledState:
    """A state of the small splice, settled."""
    return settled(small_plan(), kind)


@lru_cache
def worded_step(kind: str) -> Step:
    return worded(method_of("locked-captive").step(kind), small_plan())


def scene_of_step(kind: str, before: str | None = None) -> Scene:
    return step_scene(worded_step(kind), settled_state(kind), settled_state(before) if before else None, small_plan())


def whole_step_scene(kind: str) -> Scene:
    """A step's whole picture: the state before as a ghost, and every moment that its views show."""
    kinds = [step.state for step in method_of("locked-captive").steps]
    step, before = worded_step(kind), kinds[max(kinds.index(kind) - 1, 0)]
    moments = {moment: settled_state(moment) for moment in step.states[1:]}
    return step_scene(step, settled_state(kind), settled_state(before), small_plan(), of=14, moments=moments)


def words_of(scene: Scene) -> str:
    return " ".join(text for block in scene.words for part in block.sections for _, text in part.paragraphs)
