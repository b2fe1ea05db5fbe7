"""The splice under load: its figures and its picture."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from fidpath.loading import LoadBand, LoadedLock, cover_grip, let_go, load_band
from fidpath.outputs.bury_plot import bury_plot
from fidpath.outputs.loaded_report import loaded_report
from fidpath.outputs.registry import Context, Item, Output, Product, Request, register
from fidpath.outputs.scene_files import LIBRARIES, scene_files
from fidpath.planning import Plan
from fidpath.scene import LoadedView, loaded_scene
from fidpath.units import show_length


def make_under_load(context: Context, _item: str) -> Product:
    """Figures as JSON; lock, eye and entry loaded beside hand-snug, and the tail let go with friction and without."""
    from fidpath.outputs.pictures import drawn

    plan = context.request.plan
    settled = context.settled(context.request.finished).settled
    band = load_band(settled, plan.job.rope)
    report = loaded_report(band)
    middle = band.middle.case
    free = [let_go(settled, friction, middle.thickness) for friction in (middle.friction, 0.0)]
    scene = loaded_scene(
        plan,
        LoadedView("drawn up by hand", band.middle.before),
        LoadedView(f"under load, friction {middle.friction:.2g}", band.middle.strands),
        [LoadedView(_let_go_words(one), one.strands) for one in free],
        _note(plan, report, band),
    )
    data = json.dumps(report, indent=2).encode("utf-8") + b"\n"
    pictures = scene_files(context.request, scene, drawn(scene), "under-load.png", "under-load")
    plot = bury_plot(cover_grip(band.middle), plan, band)
    return Product({**pictures, "loaded.json": data, "bury-load.png": plot})


def _let_go_words(lock: LoadedLock) -> str:
    """What a picture of the tail let go shows, with how far it has run out."""
    d = lock.before.braid.diameter
    run_out = float((lock.strands.points[:, -1, 0] - lock.before.points[:, -1, 0]).mean()) / d
    how = f"friction {lock.case.friction:.2g}" if lock.case.friction else "no friction"
    moved = f"it has run out {run_out:.1f} d and goes on" if run_out > 1.0 else "the lock slows or holds it"
    return f"tail's end let go, {how}: {moved}"


def _note(plan: Plan, report: dict[str, Any], band: LoadBand) -> str:
    angle, crown = report["throat_angle_deg"], report["throat_to_crown_mm"]
    return (
        f"throat {angle['least']:.0f} to {angle['most']:.0f} deg, throat to crown {_length(crown['least'], plan)} to "
        f"{_length(crown['most'], plan)} over friction {band.friction[0]:g} to {band.friction[1]:g} and strands "
        f"{band.thickness[0]:.3g} to {band.thickness[1]:.3g} times as thick as hand-snug; round, limp strands"
    )


def _length(mm: float, plan: Plan) -> str:
    return show_length(mm, plan.job.length_unit, plan.job.tools.tape_division_mm)


def shown(request: Request) -> Sequence[Item]:
    """One item, which shows the finished splice."""
    return [Item(states=(request.finished,))]


UNDER_LOAD = register(
    Output(
        "under-load",
        "figures and picture of the finished splice under load",
        ("loaded.json", "bury-load.png", "under-load.png", "lineart/under-load.svg", "lineart/under-load.pdf"),
        make_under_load,
        shown,
        libraries=LIBRARIES,
        option="steps",
        seconds=12.0,
    )
)
