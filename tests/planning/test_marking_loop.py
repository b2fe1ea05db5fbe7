"""The loop that is held while the lock is marked: how far, and what a millimetre there means."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from fidpath.errors import CannotBeMade
from fidpath.geometry import chain, points
from fidpath.geometry.marking_loop import BESIDE, MarkingLoop, wrapped_loop
from fidpath.job.reader import read_job
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.planning.sheet import as_data

LOCKED = [path for path in sorted(Path("scenes").glob("*.toml")) if path.stem != "plain-eye"]


@pytest.fixture(scope="module")
def demo() -> Plan:
    return make_plan(read_job(Path("scenes/demo.toml")))


def line_of(loop: MarkingLoop) -> np.ndarray:
    """The loop's axis, `(n, 2)` mm."""
    around = chain(loop.pieces, 4.0)
    return points(around, np.linspace(0, around.length, 2000))


def test_the_demos_two_lengths(demo: Plan) -> None:
    data = as_data(demo)
    assert data["wrapped_throat_to_crown_mm"] == pytest.approx(119.48, abs=0.05)
    assert data["marking_throat_to_crown_mm"] == pytest.approx(115.87, abs=0.05)
    assert demo.loop_to_throat == pytest.approx(1.92, abs=0.01)


@pytest.mark.parametrize("scene", LOCKED, ids=lambda path: path.stem)
def test_the_loop_is_longer_than_the_finished_eye_and_the_tail_beside_it_longest(scene: Path) -> None:
    plan = make_plan(read_job(scene))
    wrapped, passed = plan.wrapped_loop, plan.marking_loop
    assert plan.throat_to_crown < passed.throat_to_crown < wrapped.throat_to_crown
    assert wrapped.axis == pytest.approx(plan.loop_fitted)
    assert 0.1 * plan.braid.diameter < plan.loop_fitted - passed.axis < 0.4 * plan.braid.diameter


def test_the_crown_is_the_farthest_place_of_the_loop(demo: Plan) -> None:
    for loop in (demo.wrapped_loop, demo.marking_loop):
        farthest = np.linalg.norm(line_of(loop), axis=1).max()
        assert farthest - demo.braid.diameter / 2 == pytest.approx(loop.throat_to_crown, abs=0.05)


def test_the_tail_comes_back_beside_the_standing_part_or_into_h1(demo: Plan) -> None:
    d = demo.braid.diameter
    assert line_of(demo.wrapped_loop)[-1][1] == pytest.approx(BESIDE * d, abs=0.1)
    assert np.linalg.norm(line_of(demo.marking_loop)[-1]) < 0.1 * d


def test_what_more_loop_does_to_the_length(demo: Plan) -> None:
    bearing = demo.job.terminator.bearing_diameter_mm
    more = wrapped_loop(demo.braid, bearing, demo.loop_fitted + 4.0).throat_to_crown
    assert 4.0 / (more - demo.wrapped_loop.throat_to_crown) == pytest.approx(demo.loop_to_throat, rel=0.02)


def test_a_loop_too_short_for_its_terminator_is_refused_in_words(demo: Plan) -> None:
    assert demo.lock is not None
    choice = replace(demo.lock.choice, eye=replace(demo.lock.choice.eye, loop=20.0))
    short = replace(demo, lock=replace(demo.lock, choice=choice))
    with pytest.raises(CannotBeMade, match="can't be held round the terminator"):
        _ = short.wrapped_loop
