"""Which two fids open H2, by the girth of what they open."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fidpath.geometry import side_by_side
from fidpath.job import Tools
from fidpath.planning import warnings
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from jobs import a_job


def with_fids(*fids: float) -> Plan:
    return make_plan(replace(a_job(), tools=Tools(fids, 1.0)))


def test_girth_is_that_of_the_belt_round_both() -> None:
    for one, other in ((8.0, 12.0), (8.0, 8.0), (3.0, 11.0)):
        turn = np.linspace(0, 2 * np.pi, 200001)
        apart = (one + other) / 2
        support = np.maximum(one / 2, other / 2 + apart * np.cos(turn))
        assert side_by_side(one, other) == pytest.approx(np.trapezoid(support, turn) / np.pi, rel=1e-6)
    assert side_by_side(8.0, 12.0) == pytest.approx(16.5, abs=0.01)
    assert side_by_side(8.0, 8.0) == pytest.approx(13.1, abs=0.01)


def test_the_demos_fids_open_h2_enough_and_no_more() -> None:
    plan = with_fids(8.0, 12.0)
    assert plan.openings.h2_fids == (8.0, 8.0)
    assert plan.openings.h2_across < plan.openings.h2_opened < plan.openings.most_across
    assert "h2_fids" not in [warning.name for warning in warnings(plan)]


def test_a_pair_of_two_sizes_is_taken_where_it_opens_least() -> None:
    assert with_fids(6.0, 9.5, 12.0).openings.h2_fids == (6.0, 9.5)


@pytest.mark.parametrize("fids", [(10.0, 12.0), (6.0, 14.0)])
def test_fids_that_open_h2_too_wide_or_too_little_are_warned_of(fids: tuple[float, float]) -> None:
    plan = with_fids(*fids)
    (found,) = [warning for warning in warnings(plan) if warning.name == "h2_fids"]
    assert "12.3 mm" in found.text and "15 mm" in found.text and "tools.fids" in found.text
    assert f"{plan.openings.h2_opened:.1f} mm" in found.text


def test_an_eye_without_a_lock_asks_for_no_fids_at_h2() -> None:
    plan = make_plan(replace(a_job(splice="plain"), tools=Tools((10.0, 12.0), 1.0)))
    assert "h2_fids" not in [warning.name for warning in warnings(plan)]
