"""Words of the steps against the model they stand beside: what comes first, and how the taper is dropped."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from fidpath.geometry.braid import hands
from fidpath.job.reader import read_job
from fidpath.methods.registry import method_names, method_of
from fidpath.methods.wording import worded, worded_method
from fidpath.planning.planner import make_plan
from fidpath.scene.captions import HOLE_NAMES, short_words
from fidpath.states import state_of
from fidpath.states.recipe import strand_ends
from jobs import a_job

SCENES = [
    path
    for path in sorted((Path(__file__).parents[2] / "scenes").glob("*.toml"))
    if '"locked-captive"' in path.read_text(encoding="utf-8")
]
"""Jobs with a captive end, whose tail is swung round."""

SWUNG = 0.46
"""What step 9a calls nearly half: the share of the loop's rope that lies between the holes as the tail swings round."""


@pytest.mark.parametrize("name", method_names())
def test_what_is_threaded_on_comes_before_all_else(name: str) -> None:
    plan = make_plan(a_job(splice=name))  # type: ignore[arg-type]
    steps = method_of(name).steps
    threaded = [extra for step in steps for extra in step.also if extra.when == "thread_on"]
    assert [extra.first for extra in threaded] == [True, False] and threaded[1] is steps[-1].also[-1]
    first = worded_method(method_of(name), plan).steps[0].instructions[0]
    assert first.startswith("Thread on") == bool(plan.job.line.thread_on_first)


@pytest.mark.parametrize("name", method_names())
def test_what_is_threaded_on_comes_to_its_place_at_the_end(name: str) -> None:
    plan = make_plan(a_job(splice=name))  # type: ignore[arg-type]
    line = replace(plan.job.line, thread_on_first=("chafe sleeve",))
    threaded = replace(plan, job=replace(plan.job, line=line))
    last = worded_method(method_of(name), threaded).steps[-1].instructions[-1]
    assert last.startswith("Last, slide") and "chafe sleeve" in last


def test_marks_are_known_in_the_steps_after_the_one_that_makes_them() -> None:
    steps = {step.state: step for step in method_of("locked-captive").steps}
    assert steps["wrapped"].known == () and set(steps["marking"].known) == {"H1", "H2"}
    assert set(steps["cut-and-tapered"].known) == {"E", "B"}


@pytest.mark.parametrize("strands", [8, 12, 16])
def test_strands_are_dropped_as_the_words_say(strands: int) -> None:
    """One of either hand at each drop, on opposite sides, and each time past one strand to the one after it."""
    plan = make_plan(a_job(strands=strands))
    ends, half = strand_ends(plan) - plan.station_entry_tail, strands // 2
    dropped = []
    for place in plan.taper.drops:
        (one,) = np.flatnonzero(np.isclose(ends, place))
        (other,) = np.flatnonzero(np.isclose(ends, place + plan.taper.stagger))
        assert hands(strands)[one] != hands(strands)[other]
        assert (other // 2 - one // 2) % half == half // 2
        dropped.append(int(one // 2))
    assert {(b - a) % half for a, b in pairwise(dropped)} <= {2, 3}
    said = " ".join(worded(method_of("locked-captive").step("cut-and-tapered"), plan).instructions)
    assert f"{plan.taper.stagger:g} mm nearer to the end" in said
    numbers = [(one - dropped[0]) % half + 1 for one in dropped]
    assert f"The order is {', '.join(map(str, numbers))}." in said and "opposite" in said


@pytest.mark.parametrize("scene", SCENES, ids=lambda path: path.stem)
def test_rope_between_the_holes_at_the_swing_is_the_models(scene: Path) -> None:
    """To a tenth of it or a diameter; shorter eyes, whose H2 comes nearer, a little more."""
    plan = make_plan(read_job(scene))
    said, d = SWUNG * plan.needed_lock().station_h2, plan.braid.diameter
    (passed,) = state_of(plan, "tail-swung-round").passes
    assert said == pytest.approx(plan.station_h2 - passed.guest, rel=0.12, abs=d)


def test_small_figures_say_no_more_of_a_hole_than_is_new() -> None:
    for name in HOLE_NAMES:
        assert short_words(name) == ""
        assert short_words(f"{name},\nno turn in either group") == "no turn in either group"
        assert short_words(f"{name},\n280 mm from H1's middle") == f"{name},\n280 mm from H1's middle"
    assert short_words("H2's dot: dotted face") == "H2's dot"
