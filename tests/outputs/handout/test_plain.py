"""A plain buried eye's table, strip and code say what its steps say."""

from __future__ import annotations

import pytest

from fidpath.methods.registry import method_of
from fidpath.methods.wording import worded_method
from fidpath.outputs.handout.mark_strip import strip_marks
from fidpath.planning.length_figures import lengths
from fidpath.planning.mark_figures import marks
from fidpath.planning.planner import make_plan
from fidpath.planning.sheet import shown
from jobs import plain_job


@pytest.mark.parametrize("d", [2.0, 10.0, 24.0])
def test_table_and_steps_have_the_same_figures(d: float) -> None:
    plan = make_plan(plain_job(d))
    words = " ".join(text for step in worded_method(method_of("plain"), plan).steps for text in step.instructions)
    rows = {row.name: shown(row, plan) for row in (*lengths(plan), *marks(plan))}
    for name in ("rough_bury_mark", "entry", "eye_length_along_rope", "bury_mark", "tail_cut"):
        assert rows[name] in words, name


@pytest.mark.parametrize("d", [2.0, 10.0, 24.0])
def test_strip_has_the_tables_lengths(d: float) -> None:
    its = make_plan(plain_job(d))
    rows = {row.name: row.value for row in marks(its)}
    at = {mark.letter: mark.station for mark in strip_marks(its)}
    assert at["E"] == 0.0
    assert at["B"] == pytest.approx(rows["bury_mark"])
    assert at["X"] - at["B"] == pytest.approx(rows["tail_cut"])
    assert at["tail's end"] - at["B"] == pytest.approx(rows["rough_bury_mark"])
    assert at["tail's end"] == pytest.approx(rows["entry"])
