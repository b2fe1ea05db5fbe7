"""Teaching models: the steps that are hard to see on paper, close up, at several times the rope's size, in colours."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from fidpath.errors import CannotBeMade
from fidpath.job import Printing
from fidpath.outputs.jigs.parts.step_model import model
from fidpath.outputs.jigs.pieces import Jig, JigPiece

if TYPE_CHECKING:
    from fidpath.planning import Plan
    from fidpath.settling import SettledState

STEPS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "locked-captive": ("tail-end-in-h2", "h2-inside-out", "bight-in-h2"),
        "locked-free": ("tail-entering", "h2-drawn-out", "free-end-in-h2"),
        "plain": ("plain-entry-opened", "plain-tail-in"),
    }
)
"""The states that are shown, by splice: of the lock with a captive end steps 7, 8b and 9b."""

SMALLER, SMALLEST = 0.8, 1.0
"""What doesn't fit the bed is tried so much smaller, down to the rope's own size."""


def states_of(plan: Plan) -> tuple[str, ...]:
    """The states whose models teach the plan's splice. Raises CannotBeMade where there are none."""
    splice = plan.job.line.ends[0].splice
    if splice not in STEPS:
        raise CannotBeMade(
            f"no steps are chosen for teaching models of the splice {splice!r}",
            "Ask for jig model with --step",
            key="line.ends.splice",
        )
    return STEPS[splice]


def teaching_models(
    plan: Plan, settled: Callable[[str], SettledState], scale: float | None = None, halves: bool = False
) -> Jig:
    """A model of each of those steps, as large as asked or as fits. Raises CannotBeMade where one has no room."""
    printing = plan.job.printing
    each = {state: close_up(settled(state), scale or printing.scale, printing, halves) for state in states_of(plan)}
    pieces = tuple(_renamed(piece) for one in each.values() for piece in one.pieces)
    use = (
        "Strand groups and parts of the rope are coloured in the 3MF files as in the pictures. Hold each beside the "
        "rope at its step, and turn it: what is hidden in a picture can be seen from behind.",
        "They print with support; in halves (--halves) they need about a third less of it.",
        "They show which strand goes where. They are not rope: never load them.",
    )
    notes = tuple(f"{state}: {note}" for state, one in each.items() for note in one.notes)
    return Jig("teaching-models", "Teaching models", use, pieces, notes)


def _renamed(piece: JigPiece) -> JigPiece:
    return replace(piece, name=piece.name.replace("model", "teaching", 1))


def close_up(made: SettledState, scale: float, printing: Printing, halves: bool = False) -> Jig:
    """One step's model, smaller where the bed has no room for it so large. Raises CannotBeMade as `model`."""
    while scale > SMALLEST:
        try:
            return model(made, scale, halves, printing, close_up=True)
        except CannotBeMade:
            scale = max(scale * SMALLER, SMALLEST)
    return model(made, SMALLEST, halves, printing, close_up=True)
