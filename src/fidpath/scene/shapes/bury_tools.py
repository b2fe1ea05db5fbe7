"""What is used on a bury: the puller through the cover, the lock-stitch and its needle."""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats, Vector
from fidpath.geometry import Part, run_along
from fidpath.meshing import joined
from fidpath.planning import Plan
from fidpath.scene.paint import UP, Model
from fidpath.scene.scene import Solid
from fidpath.scene.shapes.hand_tools import ToolPlacement
from fidpath.scene.shapes.solids import rounded, stitches, tube


def long_fid(model: Model, plan: Plan) -> list[Solid]:
    """A long fid, wire or puller: in at its exit beyond the tail's tip, through the cover, out at the entry."""
    bury, d = model.strands.bury, model.d
    if bury is None:
        return []
    entry, tip = bury.host
    way = unit(model.at(entry) - model.at(tip))
    side = np.cross(UP, way)
    leaves = model.at(min(exit_of(model, plan), tip - 2.0 * d))
    back = leaves - 6.6 * d * way - 3.25 * d * side
    line = rounded(np.array([model.at(tip), leaves, leaves - 1.8 * d * way - 1.3 * d * side, back]), 1.5 * d)
    across = unit(np.cross(UP, line[-1] - line[-2]))
    handle = np.stack([back + 1.2 * d * across, back - 1.2 * d * across])
    grip = tube(np.linspace(handle[0], handle[1], 12), 0.3 * d)
    return [Solid(joined([tube(line, 0.13 * d), grip]), Part.LONG_FID)]


def exit_of(model: Model, plan: Plan) -> float:
    """Station at which a puller comes out of the cover: where the tail's tip will lie, if the model reaches so far."""
    return max(plan.station_entry_host - plan.cover.puller_in, model.state.first)


def needle(model: Model, plan: Plan, station: float) -> ToolPlacement:
    """The needle beside the rope, just out of the last stitch; its eye is where the stitch's twine leads."""
    d = model.d
    eye, way = _threaded(model, plan)
    return ToolPlacement(_vector(eye + 5 * d * way), _vector(way), 0.09 * d, 5 * d, d)


def _threaded(model: Model, plan: Plan) -> tuple[Floats, Floats]:
    """Where the needle's eye lies, mm, and the way the needle points."""
    d, (_, last) = model.d, _stitch_ends(model, plan)
    along = model.along(last)
    left = np.cross(UP, along)
    eye = model.at(last) + (0.5 * plan.swollen_diameter + 0.3 * d) * UP - 0.8 * d * along - 1.4 * d * left
    return eye, unit(-0.8 * along - 0.6 * left)


def _stitch_ends(model: Model, plan: Plan) -> tuple[float, float]:
    """Stations of the first stitch and of the last; of two of them where the job has no lock-stitch."""
    d = model.d
    return stitch_span(model, plan) or (plan.station_entry_host - 1.2 * d, plan.station_entry_host - 2.2 * d)


def stitch_span(model: Model, plan: Plan) -> tuple[float, float] | None:
    """Stations of the lock-stitch's first stitch, just below the entry, and of its last; None where there is none.

    Its length is measured on the cover, which is shorter than the plain rope it was.
    """
    pattern = plan.job.practice.stitch
    if pattern is None:
        return None
    first = plan.station_entry_host - 1.2 * model.d
    long = (pattern.stitches - 1) * pattern.spacing_diameters * plan.braid.diameter
    station = model.stations()
    along = run_along(model.lines[0])
    last = float(np.interp(np.interp(first, station, along) - long, along, station))
    return first, max(last, model.state.first + model.d)


def stitched(model: Model, plan: Plan) -> Solid:
    """The job's whole lock-stitch through cover and tail, from just below the entry, and its twine to the needle."""
    d, pattern = model.d, plan.job.practice.stitch
    count = pattern.stitches if pattern else 2
    first, last = _stitch_ends(model, plan)
    line = np.array([model.at(float(u)) for u in np.linspace(first, last, 6 * count)])
    out = (0.5 * plan.swollen_diameter + 0.12 * d) * UP
    return Solid(stitches(line, out, 0.09 * d, count, _threaded(model, plan)[0]), Part.LOCK_STITCH)


def unit(v: Floats) -> Floats:
    return np.asarray(v / np.linalg.norm(v))


def _vector(v: Floats) -> Vector:
    return float(v[0]), float(v[1]), float(v[2])
