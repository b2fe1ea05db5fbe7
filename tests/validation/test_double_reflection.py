"""Rotation-minimising frames by double reflection: Wang, Juttler, Zheng & Liu, ACM Trans. Graph. 27(1) (2008) art. 2.

The order (fourth) is read there; the errors on this helix were computed for this project's reference values.
"""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from theory.polygons import double_reflection

Floats = NDArray[np.float64]


def _helix(n: int) -> tuple[Floats, Floats, Floats, Floats]:
    """Points, tangents, the exact frame vector at each, and the parameter, on one turn of (cos u, sin u, u/2)."""
    u = np.linspace(0, 2 * np.pi, n + 1)
    speed = np.sqrt(1.25)
    points = np.column_stack([np.cos(u), np.sin(u), u / 2])
    tangent = np.column_stack([-np.sin(u), np.cos(u), 0 * u + 0.5]) / speed
    normal = np.column_stack([-np.cos(u), -np.sin(u), 0 * u])
    binormal = np.cross(tangent, normal)
    turn = -(0.5 / 1.25) * speed * u
    exact = np.cos(turn)[:, None] * normal + np.sin(turn)[:, None] * binormal
    return points, tangent, exact, u


def test_frame_against_frenet_over_one_turn() -> None:
    points, tangent, exact, _ = _helix(4000)
    frame = double_reflection(points, tangent, exact[0])
    normal = np.array([-1.0, 0, 0])
    turn = np.degrees(np.arctan2(frame[-1] @ np.cross(tangent[-1], normal), frame[-1] @ normal))
    assert turn == pytest.approx(-160.996894, abs=1e-5)  # minus the torsion times the arc length


def test_fourth_order() -> None:
    errors = []
    for n in (8, 16, 32):
        points, tangent, exact, _ = _helix(n)
        errors.append(np.linalg.norm(double_reflection(points, tangent, exact[0]) - exact, axis=1).max())
    assert errors == pytest.approx([2.394e-4, 1.488e-5, 9.285e-7], rel=0.1)
    assert errors[0] / errors[1] == pytest.approx(16, rel=0.1)
