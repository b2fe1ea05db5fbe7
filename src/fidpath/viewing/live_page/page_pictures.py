"""The pictures of steps and mistakes that a page taken away carries for browsers that can't draw its model."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from fidpath.errors import EnvironmentProblem
from fidpath.methods import Method, worded, worded_mistake
from fidpath.planning import Plan
from fidpath.settling import SettledState
from fidpath.viewing.live_page.drawing_apart import Stopped, drawn_apart
from fidpath.viewing.live_page.session import Shown

States = Mapping[str, SettledState]


def page_pictures(shown: Shown, stopped: Stopped) -> dict[str, str]:
    """Pictures as data links, by state; none where this machine can't draw.

    Moments that only a view shows are left out: they aren't settled here. Raises EnvironmentProblem where stopped.
    """
    states = {one.kind: one for one in shown.states}
    try:
        found: dict[str, str] = drawn_apart(_links, (shown.plan, shown.method, states), stopped)
    except EnvironmentProblem:
        if stopped():
            raise
        return {}
    return found


def _links(plan: Plan, method: Method, states: States) -> dict[str, str]:
    return {**dict(_mistakes(plan, method, states)), **dict(_steps(plan, method, states))}


def _steps(plan: Plan, method: Method, states: States) -> Iterator[tuple[str, str]]:
    from fidpath.outputs.page import small
    from fidpath.outputs.pictures import png
    from fidpath.scene import step_scene

    before = {step.state: states.get(last.state) for last, step in pairwise(method.steps)}
    last = method.steps[-1].number
    for index, raw in enumerate(method.steps):
        if raw.state not in states:
            continue
        step = worded(raw, plan)
        moments = {kind: states[kind] for kind in step.states[1:] if kind in states}
        then, part = before.get(step.state), method.part(index)
        scene = step_scene(step, states[step.state], then, plan, of=last, part=part, moments=moments)
        yield step.state, small(png(scene, plan.braid.thickness), scene=scene)


def _mistakes(plan: Plan, method: Method, states: States) -> Iterator[tuple[str, str]]:
    from fidpath.outputs.page import small
    from fidpath.outputs.pictures import png
    from fidpath.scene import wrong_scene

    for raw in method.mistakes:
        if raw.name not in states or raw.beside not in states:
            continue
        mistake = worded_mistake(raw, plan)
        moments = {kind: states[kind] for kind in mistake.moments if kind in states}
        scene = wrong_scene(mistake, states[mistake.name], states[mistake.beside], plan, moments)
        yield mistake.name, small(png(scene, plan.braid.thickness), scene=scene)
