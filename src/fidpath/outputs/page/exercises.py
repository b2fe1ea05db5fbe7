"""The page's practice: questions as data, with the plan's figures in their words."""

from __future__ import annotations

import tomllib
from collections.abc import Collection
from importlib import resources
from typing import Any

from fidpath.methods import Method, fill
from fidpath.planning import Plan

FILE = "exercises.toml"


def questions(plan: Plan, method: Method, made: Collection[str]) -> list[dict[str, Any]]:
    """Questions that a method and the states made of it can show, their words filled; none where too little is there.

    An option whose state or mistake isn't there is left out, and a question with fewer than two options with it.
    """
    steps = {step.state for step in method.steps} & set(made)
    ways = {mistake.name for mistake in method.mistakes if mistake.beside in made} & set(made)
    text = resources.files("fidpath.outputs.page").joinpath(FILE).read_text(encoding="utf-8")
    found = (_question(table, plan, steps, ways) for table in tomllib.loads(text)["questions"])
    return [question for question in found if question is not None]


def _question(table: dict[str, Any], plan: Plan, steps: set[str], ways: set[str]) -> dict[str, Any] | None:
    """One question, or None where it can't be put."""
    options = [option for option in table["options"] if option["shows"] in (steps if option.get("right") else ways)]
    if table["before"] not in steps or len(options) < 2 or not any(option.get("right") for option in options):
        return None
    return {
        "before": table["before"],
        "ask": fill(table["ask"], plan),
        "options": [
            {
                "words": fill(option["words"], plan),
                "why": fill(option["why"], plan),
                "shows": option["shows"],
                "right": bool(option.get("right")),
            }
            for option in options
        ],
    }
