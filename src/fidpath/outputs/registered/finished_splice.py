"""The finished splice: its check, on which all that shows it waits, its pictures, and its solids."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fidpath.geometry import Part
from fidpath.meshing import Mesh
from fidpath.outputs.check_reports import finished_report, refuse_failures, without_time
from fidpath.outputs.registry import Context, Item, Output, Product, Request, Turn, register
from fidpath.outputs.scene_files import LIBRARIES, figure, scene_files
from fidpath.scene import FINISHED as VIEWS
from fidpath.scene import Camera, Panel, Scene, Solid

WHOLE = "1-whole-splice"
"""The picture of the finished splice that the handout shows."""


def make_check(context: Context, _item: str) -> Product:
    """The check's report. Raises CannotBeMade where the splice can't be settled or misses a bound."""
    report = finished_report(context.request.plan, context.settled(context.request.finished))
    refuse_failures("the settled splice", report, "Nothing was drawn; see `fidpath verify` for all figures")
    return Product({}, {"report": without_time(report)})


def make_picture(context: Context, view: str) -> Product:
    """One view of the finished splice."""
    from fidpath.outputs.pictures import drawn
    from fidpath.scene import finished_scene

    request, made = context.request, context.settled(context.request.finished)
    scene = finished_scene(view, request.plan, made.settled.strands, made.sections)
    views = drawn(scene)
    data = {"figure": figure(request, scene, views)} if view == WHOLE else {}
    return Product(scene_files(request, scene, views, f"{view}.png", view), data)


def draw_next_to_nothing(context: Context) -> None:
    """Draws one triangle with all that draws pictures, so that it is compiled."""
    from fidpath.outputs.pictures import drawn

    mesh = Mesh(np.array([[-9.0, -9.0, 0.0], [9.0, -9.0, 0.0], [0.0, 9.0, 0.0]]), np.array([[0, 1, 2]]))
    panel = Panel((0, 0, 120, 90), Camera((0.0, 0.0, 0.0), 30.0), (Solid(mesh, Part.TERMINATOR),))
    scene = Scene("", "", (panel,), size=(120, 90))
    scene_files(context.request, scene, drawn(scene), "", "")


def make_solids(context: Context, _item: str) -> Product:
    """The finished splice as solids."""
    from fidpath.outputs import solids

    strands = context.settled(context.request.finished).settled.strands
    return Product(solids.files("splice", context.request.plan.job.terminator, strands))


def views(request: Request) -> Sequence[Item]:
    """One item a view."""
    return [Item(view, (request.style,), (request.finished,)) for view in VIEWS]


def shown(request: Request) -> Sequence[Item]:
    """One item, which shows the finished splice."""
    return [Item(states=(request.finished,))]


CHECK = register(Output("finished-check", "the check of the finished splice", (), make_check, turn=Turn.CHECK))

PICTURES = register(
    Output(
        "finished-pictures",
        "pictures and line art of the finished splice",
        ("{}.png", "lineart/{}.svg", "lineart/{}.pdf"),
        make_picture,
        views,
        libraries=LIBRARIES,
        turn=Turn.FINISHED,
    )
)

SOLIDS = register(
    Output(
        "finished-solids",
        "solids of the finished splice: STL in millimetres, GLB in metres",
        ("splice-mm.stl", "splice.glb"),
        make_solids,
        shown,
        libraries=("trimesh",),
    )
)
