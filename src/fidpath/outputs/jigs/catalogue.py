"""Which jigs there are, which files each is written as, and in what order."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING

from fidpath.errors import CannotBeMade
from fidpath.outputs.jigs.flat_drawing import dxf, svg
from fidpath.outputs.jigs.parts.coupon import coupon
from fidpath.outputs.jigs.parts.eye_former import eye_former
from fidpath.outputs.jigs.parts.hole_cone import hole_cone
from fidpath.outputs.jigs.parts.mark_sleeve import mark_sleeve
from fidpath.outputs.jigs.parts.nose_cap import nose_cap
from fidpath.outputs.jigs.parts.rope_gauge import rope_gauge
from fidpath.outputs.jigs.parts.taper_board import taper_board
from fidpath.outputs.jigs.pieces import Jig, JigPiece
from fidpath.outputs.jigs.step_file import step
from fidpath.outputs.jigs.threemf import threemf
from fidpath.outputs.stl import stl
from fidpath.planning import Plan

if TYPE_CHECKING:
    from fidpath.settling import SettledState

Settle = Callable[[str], "SettledState"]
"""Gives a step settled, by its state."""

JIGS: dict[str, Callable[[Plan], Jig]] = {
    "coupon": coupon,
    "rope-gauge": rope_gauge,
    "mark-sleeve": mark_sleeve,
    "hole-cone": hole_cone,
    "eye-former": eye_former,
    "nose-cap": nose_cap,
    "taper-board": taper_board,
}
"""Jigs that a plan alone decides, in the order in which they are made."""

MODEL, TEACHING = "model", "teaching-models"
"""Scale models, which need settled steps besides: of one step, and of those that are hard to see on paper."""

NAMES = (*JIGS, MODEL, TEACHING)

PRINTED, CUT = ("stl", "3mf"), ("svg", "dxf", "step")
FORMATS = (*PRINTED, *CUT)
USUAL = ("stl", "3mf", "svg", "dxf")
"""What is written unless other formats are asked for; STEP needs an extra."""


@dataclass(frozen=True)
class Wanted:
    """Which jigs, as which files; the model's state, how large it is (None: as the job says), in halves or whole.

    Without a state the model shows the lock drawn up, or the opened entry of an eye without one.
    """

    names: tuple[str, ...] = NAMES
    formats: tuple[str, ...] = USUAL
    step: str = ""
    scale: float | None = None
    halves: bool = False


@dataclass(frozen=True)
class JigOrRefusal:
    """A jig that was made, or why it can't be."""

    name: str
    jig: Jig | None
    refused: str = ""


def jig_or_refusal(plan: Plan, name: str, wanted: Wanted, settled: Settle | None = None) -> JigOrRefusal:
    """One of the jigs asked for. Asked for alone, one that can't be made raises CannotBeMade."""
    try:
        return JigOrRefusal(name, make(plan, name, wanted, settled))
    except CannotBeMade as refusal:
        if len(wanted.names) == 1:
            raise
        return JigOrRefusal(name, None, str(refusal))


def make(plan: Plan, name: str, wanted: Wanted, settled: Settle | None = None) -> Jig:
    """One jig by its name. Raises CannotBeMade for an unknown name or want of room."""
    if name == MODEL:
        return _model(plan, wanted, settled or partial(_settled, plan))
    if name == TEACHING:
        return _teaching(plan, wanted, settled or partial(_settled, plan))
    if name not in JIGS:
        raise CannotBeMade(f"there is no jig of the name {name!r}", f"There are {', '.join(NAMES)}")
    return JIGS[name](plan)


def _model(plan: Plan, wanted: Wanted, settled: Settle) -> Jig:
    """The scale model of a step. Raises CannotBeMade where there is none to be had."""
    from fidpath.outputs.jigs.parts.step_model import model

    made = settled(wanted.step or ("locked" if plan.lock else "plain-entry-opened"))
    printing = plan.job.printing
    return model(made, wanted.scale or printing.scale, wanted.halves, printing)


def _teaching(plan: Plan, wanted: Wanted, settled: Settle) -> Jig:
    """The teaching models. Raises CannotBeMade where there are none."""
    from fidpath.outputs.jigs.parts.teaching_models import teaching_models

    return teaching_models(plan, settled, wanted.scale, wanted.halves)


def _settled(plan: Plan, step: str) -> SettledState:
    """A step settled. Raises CannotBeMade for one that isn't known or can't be made."""
    from fidpath.loading import state_in_hand
    from fidpath.states import KINDS

    if step not in KINDS:
        raise CannotBeMade(f"there is no step of the name {step!r}", f"There are {', '.join(KINDS)}")
    return state_in_hand(plan, step)


def files(plan: Plan, jig: Jig, formats: Sequence[str]) -> Iterator[tuple[str, bytes]]:
    """A jig's files, each a name and its bytes: solids of every piece, drawings of the flat ones."""
    notes = " ".join((*jig.use, *jig.notes))
    for piece in jig.pieces:
        if "stl" in formats:
            yield f"{piece.name}-mm.stl", stl(piece.mesh, piece.name)
        if "3mf" in formats:
            title = f"{jig.title}: {piece.name}"
            yield f"{piece.name}.3mf", threemf(piece.mesh, piece.name, title, notes, piece.colours)
    if jig.name in JIGS and any(piece.flat is not None for piece in jig.pieces) and set(CUT) & set(formats):
        yield from _drawings(plan, jig, formats, notes)


def _drawings(plan: Plan, jig: Jig, formats: Sequence[str], notes: str) -> Iterator[tuple[str, bytes]]:
    """Drawings of a jig's plates, made as they are to be cut: a cutter's slots don't shrink as a printer's do."""
    printing = replace(plan.job.printing, slot_shrink_mm=0.0)
    unshrunk = replace(plan, job=replace(plan.job, printing=printing))
    to_cut = jig if printing == plan.job.printing else JIGS[jig.name](unshrunk)
    for piece in to_cut.pieces:
        yield from _drawn(piece, printing.kerf_mm, f"{jig.title}: {piece.name}", notes, formats)


def _drawn(piece: JigPiece, kerf: float, title: str, notes: str, formats: Sequence[str]) -> Iterator[tuple[str, bytes]]:
    """One plate's drawings."""
    if piece.flat is None:
        return
    if "svg" in formats:
        yield f"{piece.name}.svg", svg(piece.flat, kerf, title, f"{notes} Kerf {kerf:g} mm.")
    if "dxf" in formats:
        yield f"{piece.name}.dxf", dxf(piece.flat, kerf)
    if "step" in formats:
        yield f"{piece.name}.step", step(piece.flat, piece.name, title)
