"""Estimates and intervals: the wide prior, what data do to it, and how errors add up."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fidpath.lines.uncertainty import (
    Cause,
    TakeUpEstimate,
    combined,
    half_width,
    prior,
    t_quantile,
    take_up_scale,
    uniform,
    updated,
)


def test_without_data_the_wide_prior_stands() -> None:
    assert prior().mean == 1.0
    assert prior().half_width(0.95) == pytest.approx(0.30)
    assert prior().tests == ()
    assert updated(prior(), np.array([])) == prior()


def test_three_splices_narrow_it_round_their_own_mean() -> None:
    after = updated(prior(), np.array([1.10, 1.12, 1.08]), ("a", "b", "c"))
    assert 1.08 < after.mean < 1.10
    assert after.half_width(0.95) < 0.5 * prior().half_width(0.95)
    assert after.tests == ("a", "b", "c")


def test_ratios_that_differ_widen_the_scatter() -> None:
    close = updated(prior(), np.array([1.09, 1.10, 1.11]))
    apart = updated(prior(), np.array([0.90, 1.10, 1.30]))
    assert apart.mean == pytest.approx(close.mean)
    assert apart.scatter > 2 * close.scatter


@given(st.lists(st.floats(0.5, 2.0), min_size=2, max_size=12), st.integers(1, 11))
@settings(max_examples=50, deadline=None)
def test_all_at_once_or_one_after_the_other(ratios: list[float], cut: int) -> None:
    values = np.array(ratios)
    at_once = updated(prior(), values)
    in_turn = updated(updated(prior(), values[:cut]), values[cut:])
    for name in ("mean", "weight", "scatter", "freedom"):
        assert getattr(in_turn, name) == pytest.approx(getattr(at_once, name))


def test_two_splices_of_one_rope_share_the_factor() -> None:
    known = TakeUpEstimate(1.0, 4.0, 0.1, math.inf)
    together = take_up_scale(known, (70.0, 70.0))
    assert together == pytest.approx(0.1 * math.sqrt(140**2 / 4 + 2 * 70**2))
    assert together > math.sqrt(2) * known.next_scale * 70


def test_normal_errors_add_in_squares() -> None:
    causes = (Cause("a", "a", 3.0, ""), Cause("b", "b", 4.0, ""))
    assert combined(causes) == 5.0
    assert half_width(causes, 0.95) == pytest.approx(1.959963985 * 5)


def test_one_t_cause_keeps_its_freedom() -> None:
    causes = (Cause("a", "a", 3.0, "", 7.0), Cause("b", "b", 0.0, ""))
    assert half_width(causes, 0.95) == pytest.approx(3 * t_quantile(0.95, 7.0))


def test_a_t_and_a_normal_cause_together_lie_between() -> None:
    def of(known: float, drawn: float, freedom: float) -> float:
        return half_width((Cause("a", "a", drawn, "", freedom), Cause("b", "b", known, "")), 0.95)

    assert of(1e-6, 3.0, 4.0) == pytest.approx(3 * t_quantile(0.95, 4.0), rel=1e-5)
    assert of(5.0, 1e-4, 4.0) == pytest.approx(5 * t_quantile(0.95, math.inf), rel=1e-5)
    assert of(4.0, 3.0, 1e6) == pytest.approx(5 * t_quantile(0.95, math.inf), rel=1e-4)
    assert t_quantile(0.95, math.inf) * 5 < of(4.0, 3.0, 4.0) < t_quantile(0.95, 4.0) * 5


def test_two_causes_of_doubtful_scale_are_not_guessed_at() -> None:
    with pytest.raises(ValueError, match="more than one"):
        half_width((Cause("a", "a", 1.0, "", 4.0), Cause("b", "b", 1.0, "", 4.0)), 0.95)


def test_a_uniform_error_has_a_third_of_its_half_width_squared() -> None:
    assert uniform(6.0) ** 2 == pytest.approx(12.0)


def test_more_confidence_is_wider() -> None:
    widths = [t_quantile(level, 9.0) for level in (0.5, 0.8, 0.95, 0.99)]
    assert widths == sorted(widths)
