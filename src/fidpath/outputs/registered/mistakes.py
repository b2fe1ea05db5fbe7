"""The usual mistakes: each one settled and named by the check, and its picture beside the right way."""

from __future__ import annotations

from collections.abc import Sequence

from fidpath.errors import CannotBeMade
from fidpath.methods import worded_mistake
from fidpath.outputs.check_reports import state_report, without_time
from fidpath.outputs.registry import Context, Item, Output, Product, Request, Turn, register
from fidpath.outputs.scene_files import LIBRARIES, figure, scene_files


def make_state(context: Context, name: str) -> Product:
    """A mistake's state and the right one beside it: checked, their strands for the page.

    Raises CannotBeMade where the check doesn't name the mistake.
    """
    from fidpath.outputs import page

    mistake = context.request.method.mistake(name)
    wrong, right = context.settled(name), context.settled(mistake.beside)
    report = state_report(context.request.plan, wrong)
    if report["named"] != name:
        what = f"the check names {report['named'] or 'nothing'} where {name} is shown"
        raise CannotBeMade(what, "This is a fault in fidpath: please report this job")
    strands = {made.kind: page.strands_record(made.settled.strands) for made in (wrong, right)}
    return Product({}, {"report": without_time(report), "state": strands})


def make_picture(context: Context, name: str) -> Product:
    """A mistake beside the right way: its picture and line art, its figure for the handout, what the page shows."""
    from fidpath.outputs import page
    from fidpath.outputs.pictures import drawn
    from fidpath.scene import wrong_scene

    request = context.request
    mistake = worded_mistake(request.method.mistake(name), request.plan)
    wrong, right = context.settled(name), context.settled(mistake.beside)
    moments = {kind: context.settled(kind) for kind in mistake.moments}
    scene = wrong_scene(mistake, wrong, right, request.plan, moments)
    path, views = f"wrong/{name}.png", drawn(scene)
    files = scene_files(request, scene, views, path, f"wrong-{name}")
    shown = page.wrong_picture(request.plan, mistake, wrong, right)
    return Product(
        files, {"figure": figure(request, scene, views), "shown": shown, "small": page.small(files[path], scene=scene)}
    )


def states(request: Request) -> Sequence[Item]:
    """One item a mistake, made from its state and the right one."""
    return [Item(one.name, (one.beside,), (one.name, one.beside)) for one in request.method.mistakes]


def pictures(request: Request) -> Sequence[Item]:
    """One item a mistake, made from all that the method says of it."""
    return [
        Item(one.name, (request.style, one), (one.name, one.beside, *one.moments)) for one in request.method.mistakes
    ]


STATES = register(
    Output("mistake-states", "the check of every mistake", (), make_state, states, option="steps", turn=Turn.MISTAKES)
)

PICTURES = register(
    Output(
        "mistake-pictures",
        "pictures and line art of the usual mistakes beside the right way",
        ("wrong/{}.png", "lineart/wrong-{}.svg", "lineart/wrong-{}.pdf"),
        make_picture,
        pictures,
        libraries=LIBRARIES,
        option="steps",
        turn=Turn.PICTURES,
    )
)
