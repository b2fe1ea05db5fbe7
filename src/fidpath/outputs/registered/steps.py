"""The steps of the method: each one's state checked and as solids, and its picture."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from fidpath.methods import Method, worded
from fidpath.outputs.check_reports import refuse_failures, state_report, without_time
from fidpath.outputs.registry import Context, Item, Output, Product, Request, Turn, register
from fidpath.outputs.scene_files import LIBRARIES, figure, scene_files
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
    """A step's picture and line art, its figure for the handout, and what the page shows of it."""
    from fidpath.outputs import page
    from fidpath.outputs.pictures import drawn
    from fidpath.scene import step_scene

    request, method = context.request, context.request.method
    index = step_names(method).index(name)
    step = worded(method.steps[index], request.plan)
    made = context.settled(step.state)
    moments = {kind: context.settled(kind) for kind in step.states[1:]}
    before = laid_state(request.plan, method.steps[index - 1].state) if index else None
    scene = step_scene(
        step, made, before, request.plan, of=method.steps[-1].number, part=method.part(index), moments=moments
    )
    path, views = f"steps/{name}.png", drawn(scene)
    files = scene_files(request, scene, views, path, name)
    shown = page.step_picture(request.plan, step, made, before)
    return Product(files, {"figure": figure(request, scene, views), "shown": shown, "small": page.small(files[path])})


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
        Item(name, (request.style, step, before, steps[-1].number), step.states)
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
    )
)
