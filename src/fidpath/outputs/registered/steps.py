"""The steps of the method: each one's state checked and as solids, and its picture."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from fidpath.loading import moments_in_hand
from fidpath.machine import digest_of, source_digest
from fidpath.methods import Method, Step, worded
from fidpath.outputs.check_reports import refuse_failures, state_report, without_time
from fidpath.outputs.registry import Context, Item, Output, Product, Request, Turn, register
from fidpath.outputs.scene_files import LIBRARIES, figure, reworded, scene_files_and_margins
from fidpath.settling import laid_state

if TYPE_CHECKING:
    from fidpath.scene import Solid
    from fidpath.settling import SettledState

RAYS = 10
"""Rays of a section in a step's solids: there are many of them."""


def step_name(method: Method, index: int) -> str:
    """The name of a step's files, without their endings, such as "09b-bight-in-h2"."""
    step = method.steps[index]
    return f"{step.number:02d}{method.part(index)}-{step.state}"


def step_names(method: Method) -> list[str]:
    """Those of all steps, in order."""
    return [step_name(method, index) for index in range(len(method.steps))]


def make_state(context: Context, name: str) -> Product:
    """A step's state: checked, its solids, its strands for the page. Raises CannotBeMade where it misses a bound."""
    from fidpath.outputs import page, solids

    plan, method = context.request.plan, context.request.method
    index = step_names(method).index(name)
    made = context.settled(method.steps[index].state)
    report = state_report(plan, made)
    refuse_failures(f"the step {name}", report, "See `fidpath verify --steps` for all figures")
    bodies = solids.files(name, plan.job.terminator, made.settled.strands, _tools(made), rays=RAYS)
    data = {
        "report": without_time(report),
        "state": {made.kind: page.strands_record(made.settled.strands)},
        "aim": page.aim_record(made, plan) if index == len(method.steps) - 1 else {},
    }
    return Product({f"steps/{file}": content for file, content in bodies.items()}, data)


def _tools(made: SettledState) -> dict[str, Solid]:
    """The bodies of the tools that part the strands, by name."""
    from fidpath.scene import PART_WORDS, ToolPlacement, tool_solids

    d = made.plan.braid.diameter
    return {
        f"{tool.kind}, {PART_WORDS[solid.part]}": solid
        for tool in made.state.tools
        for solid in tool_solids(tool.kind, ToolPlacement(tool.place, tool.direction, tool.radius, tool.length, d))
    }


def make_picture(context: Context, name: str) -> Product:
    """A step's picture and line art, its figure for the handout, and what the page shows of it.

    Where only words have changed, nothing is drawn again but they.
    """
    from fidpath.outputs import page
    from fidpath.outputs.pictures import drawn
    from fidpath.scene import step_scene

    request, method = context.request, context.request.method
    index = step_names(method).index(name)
    step = worded(method.steps[index], request.plan)
    again = _reworded(context, name, step)
    if again is not None:
        return again
    made = context.settled(step.state)
    moments = moments_in_hand(context.settled, step.all_states[1:])
    between = [moments[kind] for kind in step.between if kind in moments]
    before = laid_state(request.plan, method.steps[index - 1].state) if index else None
    scene = step_scene(
        step, made, before, request.plan, of=method.steps[-1].number, part=method.part(index), moments=moments
    )
    views = drawn(scene)
    files, margins = scene_files_and_margins(request, scene, views, _path(name), name)
    data = {
        "figure": figure(request, scene, views),
        "shown": page.step_picture(request.plan, step, made, before, between),
        "between": {one.kind: page.strands_record(one.settled.strands) for one in between},
        "drawn_from": _drawn_from(request, index),
        "margins": margins,
    }
    return Product(files, {**data, "small": page.small(files[_path(name)], scene=scene)})


def _reworded(context: Context, name: str, step: Step) -> Product | None:
    """A picture that was drawn before from all but its words, with these; None where there is none such."""
    from fidpath.scene import step_words

    earlier, method = context.earlier, context.request.method
    index = step_names(method).index(name)
    if earlier is None or earlier.data.get("drawn_from") != _drawn_from(context.request, index):
        return None
    if not earlier.data["margins"]:
        return None
    words = partial(
        step_words, step=step, plan=context.request.plan, of=method.steps[-1].number, part=method.part(index)
    )
    files = reworded(context.request, earlier, earlier.data["margins"], words, _path(name), name)
    return Product(files, earlier.data)


def _drawn_from(request: Request, index: int) -> str:
    """A digest of all that decides what is drawn of a step; its other words stand round the panels."""
    steps = request.method.steps
    bare = replace(steps[index], caption="", instructions=(), check="", caution="", also=())
    before = steps[index - 1].state if index else ""
    return digest_of(source_digest(LIBRARIES), request.plan_digest, request.style, bare, before)


def _path(name: str) -> str:
    return f"steps/{name}.png"


def states(request: Request) -> Iterator[Item]:
    """One item a step, made from its state; the last one's view is what the page shows first."""
    method = request.method
    for index, step in enumerate(method.steps):
        yield Item(step_name(method, index), (step.state, index == len(method.steps) - 1), (step.state,))


def pictures(request: Request) -> Sequence[Item]:
    """One item a step, made from all that the method says of it and from the state before, its ghost."""
    steps = request.method.steps
    befores = ["", *(step.state for step in steps)]
    return [
        Item(name, (request.style, step, before, steps[-1].number), step.all_states)
        for name, step, before in zip(step_names(request.method), steps, befores, strict=False)
    ]


STATES = register(
    Output(
        "step-states",
        "solids of every step; each step is checked",
        ("steps/{}-mm.stl", "steps/{}.glb"),
        make_state,
        states,
        libraries=("trimesh",),
        option="steps",
        turn=Turn.STATES,
    )
)

PICTURES = register(
    Output(
        "step-pictures",
        "pictures and line art of every step",
        ("steps/{}.png", "lineart/{}.svg", "lineart/{}.pdf"),
        make_picture,
        pictures,
        libraries=LIBRARIES,
        option="steps",
        turn=Turn.PICTURES,
        rewords=True,
    )
)
