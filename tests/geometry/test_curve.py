"""Chains of lines and arcs: exact lengths, turns and curvature."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fidpath.geometry import curve
from fidpath.geometry.curve import chain, curvature, end, heading, newton, points

LENGTH = st.floats(0.5, 8.0)
TURN = st.floats(-2.0, 2.0)


@given(st.lists(st.tuples(LENGTH, TURN), min_size=1, max_size=6))
def test_heading_is_the_sum_of_the_turns(pieces: list[tuple[float, float]]) -> None:
    c = chain([(1.0, 0.0), *pieces, (1.0, 0.0)], blend=0.4, heading=0.3)
    assert end(c)[2] == pytest.approx(0.3 + sum(turn for _, turn in pieces), abs=1e-9)


@given(st.lists(st.tuples(LENGTH, TURN), min_size=1, max_size=5))
def test_points_are_laid_at_unit_speed(pieces: list[tuple[float, float]]) -> None:
    c = chain(pieces, blend=0.4)
    s = np.linspace(0, c.length, 4000)
    walked = np.linalg.norm(np.diff(points(c, s), axis=0), axis=1).sum()
    assert walked == pytest.approx(c.length, rel=1e-5)


def test_a_quarter_turn_ends_where_the_circle_does() -> None:
    c = chain([(3, 0), (2.5 * np.pi, np.pi / 2), (3, 0)], blend=1e-3)
    assert end(c) == pytest.approx((8, 8, np.pi / 2), abs=1e-6)


def test_curvature_is_continuous_and_that_of_the_arc_inside_it() -> None:
    c = chain([(3, 0), (5, 1.0), (3, 0)], blend=0.4)
    s = np.linspace(0, c.length, 20001)
    assert curvature(c, np.array([5.5]))[0] == pytest.approx(0.2)
    assert np.abs(np.diff(curvature(c, s))).max() < 0.2 / 0.4 * (s[1] - s[0]) * 1.01
    slope = np.gradient(heading(c, s), s)
    assert np.abs(slope - curvature(c, s))[1:-1].max() < 1e-3


def test_newton_finds_a_root_and_says_when_there_is_none() -> None:
    root = newton(lambda x: np.array([x[0] ** 2 - 2, x[1] - x[0]]), np.array([1.0, 0.0]))
    assert root == pytest.approx([np.sqrt(2)] * 2)
    with pytest.raises(ArithmeticError, match="no root"):
        newton(lambda x: np.array([x[0] ** 2 + 1]), np.array([0.7]))


@pytest.mark.parametrize("power", range(12))
def test_the_rule_of_order_six_integrates_powers_up_to_eleven(power: int) -> None:
    exact = 2 / (power + 1) if power % 2 == 0 else 0.0
    assert curve._NODES**power @ curve._WEIGHTS == pytest.approx(exact, abs=1e-15)
