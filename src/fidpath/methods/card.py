"""The card: the whole splice in at most twelve lines, in the order of the work, for a rigger who knows it."""

from __future__ import annotations

from collections.abc import Mapping

from fidpath.cautions import ON_A_CARD
from fidpath.methods.method import CONDITIONS, Head, Method
from fidpath.methods.placeholders import Wording, filled, filled_twice
from fidpath.methods.registry import registration_of
from fidpath.planning import Plan, short_bury, spreads

COUNTS = ("crossings_to_h2", "crossings_to_entry")
"""Counts of crossings, which hang on the pitch even where their lengths don't."""


def card_lines(method: Method | Head, plan: Plan, both_units: bool = False) -> tuple[str, ...]:
    """The method's card with the plan's figures, a line of text each. Raises JobError for a figure the plan lacks."""
    fill = filled_twice if both_units else filled
    known = _marked(registration_of(method.name).placeholders, plan)
    return tuple(fill(line.say, plan, known) for line in method.card if CONDITIONS[line.when](plan))


def _marked(known: Mapping[str, Wording], plan: Plan) -> dict[str, Wording]:
    """The placeholders, a question mark behind each that hangs on a guessed pitch."""
    guessed = {*spreads(plan), *COUNTS} if plan.job.rope.pitch_guessed else set[str]()
    return {name: _doubtful(word) if name in guessed else word for name, word in known.items()}


def _doubtful(word: Wording) -> Wording:
    return lambda plan: f"{word(plan)}?"


def card(method: Method | Head, plan: Plan, both_units: bool = False) -> str:
    """The card as text: a heading, its lines numbered, and a line of caution; ends with a line end."""
    job = plan.job
    guess = ["? depends on the pitch, which is a guess: see the warning."] if job.rope.pitch_guessed else []
    lines = [f"{number:>2}  {line}" for number, line in enumerate(card_lines(method, plan, both_units), 1)]
    danger = [f"! {notice.text}." for notice in short_bury(plan)]
    heading = f"{job.name}: {method.title}, {job.rope.name}, {job.terminator.name}"
    return "\n".join([heading, *lines, *guess, *danger, ON_A_CARD]) + "\n"
