"""Lengths that are drawn in the steps' pictures: each says a figure of the plan, and is as long as it says.

On handout, page and printed sleeve the words and figures are those of the plan and the method as well.
"""

from __future__ import annotations

import re

import numpy as np
import pytest

from fidpath.methods import card_lines, method_of, worded_method
from fidpath.outputs.handout.contents import contents
from fidpath.outputs.page.content import step_records
from fidpath.planning import figures, lengths, marks, shown
from fidpath.planning.plan import Plan
from fidpath.scene.scene import Dimension
from fidpath.units import read_length
from scenes.steps import small_plan, whole_step_scene

DRAWN = {
    "laid-out": {"tail_to_lay_out", "rough_bury_mark"},
    "wrapped": {"entry", "H2", "bury_mark", "loop_before_lock", "wrapped_throat_to_crown"},
    "marking": {"loop_before_lock", "marking_throat_to_crown", "hole_gap"},
    "locked": {"hole_spacing"},
    "on-terminator": {"eye_length_to_crown"},
    "cut-and-tapered": {"tail_cut"},
    "buried": {"bury_length", "bury_along_cover", "stitch_spacing"},
}
"""Steps with lengths drawn, and the figures that these say."""

BROKEN = ("laid-out", "cut-and-tapered", "buried")
"""Steps whose views leave rope out where lengths are drawn: there the drawn line is shorter."""

LENGTH = re.compile(r"\d+(?:\.\d+)? mm\b")


def known(plan: Plan) -> dict[str, str]:
    """The plan's figures as they are printed, by their names."""
    every = {one.name: shown(one, plan) for one in (*lengths(plan), *marks(plan), *figures(plan))}
    stitch = plan.job.practice.stitch
    assert stitch is not None
    return {**every, "stitch_spacing": f"{stitch.spacing_diameters * plan.braid.diameter:g} mm"}


def drawn_in_step(kind: str) -> list[Dimension]:
    return [one for panel in whole_step_scene(kind).panels for one in panel.dimensions]


@pytest.mark.parametrize("kind", DRAWN)
def test_every_drawn_length_says_a_figure_of_the_plan(kind: str) -> None:
    plan = small_plan()
    said = {value for one in drawn_in_step(kind) for value in LENGTH.findall(one.text)}
    assert said == {known(plan)[name] for name in DRAWN[kind]}


@pytest.mark.parametrize("kind", [kind for kind in DRAWN if kind not in BROKEN])
def test_a_drawn_length_is_as_long_as_it_says(kind: str) -> None:
    for one in drawn_in_step(kind):
        says = read_length(LENGTH.findall(one.text)[-1]).value
        run = float(np.linalg.norm(np.diff(one.line, axis=0), axis=1).sum())
        assert run == pytest.approx(says, abs=0.35 * small_plan().braid.diameter), one.text


def test_handout_page_and_sleeve_say_the_methods_words() -> None:
    plan, method = small_plan(), method_of("locked-captive")
    said = contents(plan, method, {}, (269.0, 156.0))
    steps, page = worded_method(method, plan).steps, step_records(plan, method, {})
    assert said["card"] == list(card_lines(method, plan))
    for step, printed, record in zip(steps, said["steps"], page, strict=True):
        assert tuple(printed["do"]) == tuple(record["instructions"]) == step.instructions
        assert printed["check"] == record["check"] == step.check
    rows = [row for table in said["tables"] for row in table["rows"]]
    every = [*marks(plan), *lengths(plan), *figures(plan)]
    assert [(row["label"], row["value"]) for row in rows] == [(one.label, shown(one, plan)) for one in every]
    assert [sleeve["name"][:2] for sleeve in said["wraps"]["sleeves"]] == list(plan.letters)
    around, along = (read_length(said["wraps"][key]).value for key in ("round", "along"))
    assert around == pytest.approx(np.pi * plan.braid.diameter, abs=0.01)
    assert along / (2 * plan.pick) == pytest.approx(round(along / (2 * plan.pick)), abs=0.01)
