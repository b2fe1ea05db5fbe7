"""The lengths that are drawn into the pictures of rope states: which, between what places, in what words."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping

import numpy as np

from fidpath.arrays import Floats
from fidpath.methods import fill
from fidpath.planning import Plan
from fidpath.scene.paint import Model
from fidpath.scene.props import vector
from fidpath.scene.scene import Dimension
from fidpath.scene.shapes.bury_tools import stitch_span

PLACES = 48
"""Places of a dimension that runs along the rope."""

Found = tuple[Dimension, ...]


def dimensions_of(model: Model, plan: Plan, marks: Collection[str] = ()) -> Found:
    """The dimensions of a state's pictures; none where its rope is not measured. marks: letters of those it shows."""
    if model.strands.bury is not None:
        return _buried(model, plan)
    if model.state.name == "laid-out" and {"H1", "E"} <= set(marks):
        return _marked(model, plan)
    make = DIMENSIONS.get(model.state.name)
    return () if make is None else make(model, plan)


def _along(text: str, model: Model, start: float, end: float, side: int = 1) -> Dimension:
    """A length along the rope between two stations."""
    line = [vector(model.at(float(u))) for u in np.linspace(start, end, PLACES)]
    return Dimension(text, line[0], line[-1], side, tuple(line))


def _straight(text: str, model: Model, start: float, end: float, side: int = 1) -> Dimension:
    """A straight length between the rope's middles at two stations."""
    return Dimension(text, vector(model.at(start)), vector(model.at(end)), side)


def _crown(model: Model, halfway: float) -> Floats:
    """Where the rope bears at the crown, halfway round an eye, `(3,)` mm."""
    middle = model.at(halfway)
    inward = np.array(model.state.seat_centre) - middle
    return np.asarray(middle + 0.5 * model.d * inward / np.linalg.norm(inward))


def _to_crown(text: str, model: Model, halfway: float) -> Dimension:
    return Dimension(text, vector(model.at(0.0)), vector(_crown(model, halfway)))


def _laid_out(model: Model, plan: Plan) -> Found:
    end = model.state.last
    whole, rough = (fill("{" + name + "}", plan) for name in ("tail_to_lay_out", "rough_bury_mark"))
    first, mark = (plan.letters[0], "R") if plan.lock else ("E", "B")
    return (
        _straight(f"{first} to the tail's end {whole}", model, end - plan.tail_to_lay_out, end, -1),
        _straight(f"{mark} to the tail's end {rough}", model, end - plan.rough_bury_mark, end, 1),
    )


def _marked(model: Model, plan: Plan) -> Found:
    """The marks of a lock on straight rope, measured from the hole in the standing part."""
    entry = fill("{entry} = {crossings_to_entry} crossings", plan)
    hole = fill("{H2} = {crossings_to_h2} crossings", plan)
    return (
        _straight(entry, model, plan.station_entry_host, 0.0, -1),
        _straight(hole, model, 0.0, plan.station_h2, -1),
        _straight(fill("{bury_mark}", plan), model, 0.0, plan.station_entry_tail, 1),
    )


def _held(name: str) -> Callable[[Model, Plan], Found]:
    """The loop before the lock is made, and how far the terminator is held."""

    def found(model: Model, plan: Plan) -> Found:
        loop, far = (fill("{" + figure + "}", plan) for figure in ("loop_before_lock", name))
        return (
            _along(f"loop {loop}", model, 0.0, plan.loop_fitted),
            _to_crown(f"throat to crown {far}", model, plan.loop_fitted / 2),
            *(_gap(model, plan) if name == "marking_throat_to_crown" else ()),
        )

    return found


def _gap(model: Model, plan: Plan) -> Found:
    """From the middle of the hole in the tail to the point of the tail that lies in the other hole's middle."""
    return (_straight(fill("{hole_gap}, middle to middle", plan), model, plan.station_h2, plan.loop_fitted, 1),)


def _locked(model: Model, plan: Plan) -> Found:
    text = fill("{hole_spacing}, middle to middle", plan)
    return (_straight(text, model, -plan.rope_between_holes, 0.0, 1),)


def _seated(model: Model, plan: Plan) -> Found:
    return (_to_crown(fill("throat to crown {eye_length_to_crown}", plan), model, plan.station_h2 / 2),)


def _cut(model: Model, plan: Plan) -> Found:
    end = min(plan.station_tip, model.state.last)
    return (_straight(fill("B to X {tail_cut}", plan), model, end, plan.station_entry_tail, -1),)


def _buried(model: Model, plan: Plan) -> Found:
    """The buried tail, from its tip to the entry, and the lock-stitch; none while the tail is on its way in.

    A tail that is squeezed lies longer than it was measured.
    """
    assert model.strands.bury is not None
    if model.strands.bury.guest[1] < plan.station_tip - model.d:
        return ()
    entry, tip = (vector(model.at(station)) for station in model.strands.bury.host)
    text = fill("bury {bury_length} of tail, {bury_along_cover} in the cover", plan)
    return (Dimension(text, tip, entry, -1), *_stitched(model, plan))


def _stitched(model: Model, plan: Plan) -> Found:
    """The lock-stitch from its first stitch to its last."""
    span = stitch_span(model, plan)
    if span is None or model.kept:
        return ()
    text = fill("{stitches} {stitch_spacing} apart, by turns near and far", plan)
    return (_straight(text, model, span[1], span[0], 1),)


DIMENSIONS: Mapping[str, Callable[[Model, Plan], Found]] = {
    "laid-out": _laid_out,
    "wrapped": _held("wrapped_throat_to_crown"),
    "marking": _held("marking_throat_to_crown"),
    "locked": _locked,
    "on-terminator": _seated,
    "bury-measured": _cut,
    "cut-and-tapered": _cut,
}
"""By the kind of rope state."""
