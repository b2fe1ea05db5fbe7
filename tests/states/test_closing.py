"""Lengths that close a shape: bounds held, and shapes that close nowhere."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.states.closing import nearest


def test_a_shape_whose_lengths_would_all_be_too_short_closes_nowhere() -> None:
    with pytest.raises(ArithmeticError, match="no length within its bounds"):
        nearest(lambda x: np.array([x.sum() - 1.0]), np.array([3.0]), np.ones(1), np.array([2.0]))
    with pytest.raises(ArithmeticError):
        nearest(lambda x: np.array([x.sum() - 1.0]), np.array([3.0, 3.0]), np.ones(2), np.array([2.0, 2.0]))


def test_lengths_at_their_least_are_held_one_after_another() -> None:
    """x + y + z = 6 nearest to (9, -9, 2), y and z at least 1: y falls first, then z; by hand (4, 1, 1)."""
    least = np.array([-9.0, 1.0, 1.0])
    x = nearest(lambda x: np.array([x.sum() - 6.0]), np.array([9.0, -9.0, 2.0]), np.ones(3), least)
    assert x == pytest.approx([4.0, 1.0, 1.0], abs=1e-8)
