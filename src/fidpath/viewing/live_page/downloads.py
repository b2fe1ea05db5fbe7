"""What can be taken away from the live page: pictures and solids of the splice it shows, made when asked for."""

from __future__ import annotations

from functools import partial

from fidpath.errors import CannotBeMade
from fidpath.methods import Method, worded
from fidpath.outputs import solids
from fidpath.planning import Plan
from fidpath.scene import FINISHED as PICTURES
from fidpath.scene import Scene
from fidpath.settling import SettledState
from fidpath.viewing.live_page.drawing_apart import Stopped, drawn_apart
from fidpath.viewing.live_page.session import Shown

NAMES = {
    "1-whole-splice": "the whole splice",
    "2-throat": "the throat",
    "3-entry-cut-open": "the entry, cut open",
    "4-taper-end-cut-open": "the taper's end, cut open",
}
"""The finished splice's pictures in words."""


def pictures_of(shown: Shown) -> list[tuple[str, str]]:
    """Pictures there are of what is shown: their names and what they are of."""
    settled, method = {state.kind for state in shown.states}, shown.method
    steps = [(step.state, f"step {step.number}: {step.caption}") for step in method.steps]
    words = [(name, NAMES.get(name, name)) for name in PICTURES if method.finished in settled]
    return words + [(kind, said) for kind, said in dict(steps).items() if kind in settled and kind != method.finished]


def picture(shown: Shown, name: str, stopped: Stopped) -> bytes:
    """One picture as PNG. Raises CannotBeMade for a name that has none, EnvironmentProblem where it can't be drawn."""
    method = shown.method
    if name not in dict(pictures_of(shown)):
        raise CannotBeMade("there is no picture of that name", "Choose one from the list")
    states = {one.kind: one for one in shown.states}
    order = list(dict.fromkeys(step.state for step in method.steps))
    wanted = method.finished if name in PICTURES else name
    before = states.get(order[order.index(wanted) - 1]) if wanted in order[1:] else None
    drawn: bytes = drawn_apart(_png, (shown.plan, states[wanted], before, method, name), stopped)
    return drawn


def _png(plan: Plan, state: SettledState, before: SettledState | None, method: Method, name: str) -> bytes:
    """A picture as PNG, in the drawing process."""
    from fidpath.outputs.pictures import png

    return png(_scene(plan, state, before, method, name), plan.braid.thickness)


def _scene(plan: Plan, state: SettledState, before: SettledState | None, method: Method, name: str) -> Scene:
    """The picture's scene: of the finished splice by its own name, of a step by its state's."""
    from fidpath.loading import moments_in_hand, state_in_hand
    from fidpath.scene import finished_scene, step_scene

    if name in PICTURES:
        return finished_scene(name, plan, state.settled.strands, state.sections)
    step = worded(method.step(name), plan)
    moments = moments_in_hand(partial(state_in_hand, plan), step.states[1:])
    return step_scene(step, state, before, plan, max(each.number for each in method.steps), moments=moments)


def solid(shown: Shown, suffix: str) -> bytes:
    """The finished splice as one file, `suffix` being stl (millimetres) or glb (metres). Raises CannotBeMade."""
    state = next((one for one in shown.states if one.kind == shown.method.finished), None)
    if state is None:
        raise CannotBeMade("the finished splice isn't settled yet", "Try again in a few seconds")
    files = solids.files("splice", shown.plan.job.terminator, state.settled.strands)
    for name, content in files.items():
        if name.endswith(f".{suffix}"):
            return content
    raise CannotBeMade("there is no solid of that kind", "Ask for stl or glb")
