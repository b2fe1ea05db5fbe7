"""Sums that a rigger adds up again agree as they are printed, in either unit and on any tape."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from fidpath.errors import CannotBeMade
from fidpath.job.reader import read_job
from fidpath.planning import in_other_unit, lengths, marks, shown
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.units import INCH_MM, read_length
from jobs import a_job

SCENES = sorted(Path("scenes").glob("*.toml"))

LOCKED = (
    ("H1", "rough_bury_mark", "+", "bury_mark"),
    ("tail_to_lay_out", "rough_bury_mark", "+", "bury_mark"),
    ("bury_mark", "H2", "+", "neck_on_tail"),
    ("loop_before_lock", "H2", "+", "hole_gap"),
    ("loop_before_lock", "eye_length_along_rope", "+", "eye_lost_to_lock"),
    ("eye_length_along_rope", "H2", "-", "rope_between_holes"),
    ("eye_lost_to_lock", "hole_gap", "+", "rope_between_holes"),
    ("eye_slack", "eye_length_along_rope", "-", "eye_length_wanted"),
    ("tip_in_standing_part", "entry", "+", "bury_in_standing_part"),
)
"""Sums of the lock: the whole, and its two parts."""

PLAIN = (("entry", "rough_bury_mark", "+", "bury_mark"), ("tail_to_lay_out", "rough_bury_mark", "+", "bury_mark"))
"""Sums of an eye without a lock."""

ANY = (
    ("rough_bury_mark", "bury_length", "+", "trim"),
    ("bury_along_cover", "bury_in_standing_part", "-", "take_up"),
)
"""Sums of every eye."""


def printed(plan: Plan) -> dict[str, float]:
    """Every length and mark as it is printed, mm."""
    every = (*lengths(plan), *marks(plan))
    return {figure.name: read_length(shown(figure, plan)).value for figure in every if figure.kind == "mm"}


def sums_agree(plan: Plan) -> None:
    """Asserts that all sums of a plan agree as printed."""
    said = printed(plan)
    taper = (("taper_length", "tail_cut", "-", "taper_drop_1"),) if "taper_drop_1" in said else ()
    for whole, one, sign, other in (*ANY, *(LOCKED if plan.lock else PLAIN), *taper):
        more = said[other] if sign == "+" else -said[other]
        assert said[whole] == pytest.approx(said[one] + more, abs=1e-9), (whole, one, other)


def on_tape_of(plan: Plan, division: float) -> Plan:
    """The plan read on another tape of its unit."""
    tools = dataclasses.replace(plan.job.tools, tape_division_mm=division)
    return dataclasses.replace(plan, job=dataclasses.replace(plan.job, tools=tools))


@pytest.mark.parametrize("scene", SCENES, ids=lambda path: path.stem)
def test_sums_of_every_scene_agree_in_both_units(scene: Path) -> None:
    plan = make_plan(read_job(scene))
    sums_agree(plan)
    sums_agree(in_other_unit(plan))


@given(
    d=st.floats(3, 30),
    bearing=st.floats(3, 8),
    gap=st.floats(0.9, 2.0),
    bury=st.floats(30, 90),
    pitch=st.floats(6, 8),
    division=st.sampled_from([0.5, 1.0, 2.0, 5.0, INCH_MM / 32, INCH_MM / 16, INCH_MM / 8]),
    splice=st.sampled_from(["locked-captive", "plain"]),
)
def test_sums_agree_whatever_the_job(
    d: float, bearing: float, gap: float, bury: float, pitch: float, division: float, splice: str
) -> None:
    try:
        plan = make_plan(a_job(d=d, bearing=bearing, gap=gap, bury=bury, pitch=pitch, splice=splice))  # type: ignore[arg-type]
        held = lengths(plan)
    except CannotBeMade:
        assume(False)
    assert held
    if division in (0.5, 1.0, 2.0, 5.0):
        sums_agree(on_tape_of(plan, division))
    else:
        sums_agree(on_tape_of(in_other_unit(plan), division))


@pytest.mark.parametrize("scene", SCENES, ids=lambda path: path.stem)
def test_a_sum_is_off_by_little_more_than_a_division(scene: Path) -> None:
    plan = make_plan(read_job(scene))
    division, said = plan.job.tools.tape_division_mm, printed(plan)
    for figure in (*lengths(plan), *marks(plan)):
        if figure.parts:
            assert abs(said[figure.name] - figure.value) < 2.01 * division, figure.name


@pytest.mark.parametrize("scene", SCENES, ids=lambda path: path.stem)
def test_what_a_tape_measures_is_on_its_divisions(scene: Path) -> None:
    for plan in (make_plan(read_job(scene)), in_other_unit(make_plan(read_job(scene)))):
        said, division = printed(plan), plan.job.tools.tape_division_mm
        for figure in (*lengths(plan), *marks(plan)):
            if figure.kind == "mm" and not figure.fine:
                count = said[figure.name] / division
                assert count == pytest.approx(round(count), abs=1e-6), figure.name


def test_the_demo_adds_up_as_a_rigger_would() -> None:
    said = printed(make_plan(read_job(Path("scenes/demo.toml"))))
    assert (said["rough_bury_mark"], said["bury_mark"], said["H1"]) == (760, 300, 1060)
    assert (said["H2"], said["hole_gap"], said["loop_before_lock"]) == (280, 10, 290)
