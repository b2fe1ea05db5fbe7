"""Linking numbers and writhe against the Gauss integral (read) and values redone by hand or by two codes.

Writhe sum: Klenin & Langowski; the trefoil's was computed for this project's reference values.
Calugareanu-White-Fuller: Dennis & Hannay, Proc. R. Soc. A 461 (2005) 3245, computed twice by independent codes.
"""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from theory.polygons import double_reflection, linking, writhe

Floats = NDArray[np.float64]
T = np.linspace(0, 2 * np.pi, 400, endpoint=False)
ONE = np.column_stack([np.cos(T), np.sin(T), 0 * T])
OTHER = np.column_stack([1 + np.cos(T), 0 * T, np.sin(T)])


def test_hopf_link() -> None:
    assert linking(ONE, OTHER) == pytest.approx(-1, abs=1e-9)
    assert linking(ONE[::-1], OTHER) == pytest.approx(1, abs=1e-9)
    assert linking(ONE, OTHER + [3, 0, 0]) == pytest.approx(0, abs=1e-9)


def test_whitehead_link_is_linked_yet_its_linking_number_is_nought() -> None:
    a = np.column_stack([2.5 * np.sin(T), np.sin(2 * T), np.cos(3 * T)])
    b = np.column_stack([2.1 * np.cos(T), 1.5 * np.sin(T), 0 * T])
    assert linking(a, b) == pytest.approx(0, abs=1e-9)


def test_writhe_of_the_trefoil() -> None:
    t = np.linspace(0, 2 * np.pi, 900, endpoint=False)
    trefoil = np.column_stack([np.sin(t) + 2 * np.sin(2 * t), np.cos(t) - 2 * np.cos(2 * t), -np.sin(3 * t)])
    assert writhe(trefoil) == pytest.approx(-3.35413, abs=2e-4)


def _knot(t: Floats) -> tuple[Floats, Floats]:
    """Points and unit tangents, `(n, 3)` each, of a knot on a torus, wound twice round and seven times about."""
    r, dr = 0.6 + 0.3 * np.cos(7 * t), -2.1 * np.sin(7 * t)
    points = np.column_stack([r * np.cos(2 * t), r * np.sin(2 * t), 0.3 * np.sin(7 * t)])
    slope = np.column_stack(
        [dr * np.cos(2 * t) - 2 * r * np.sin(2 * t), dr * np.sin(2 * t) + 2 * r * np.cos(2 * t), 2.1 * np.cos(7 * t)]
    )
    return points, slope / np.linalg.norm(slope, axis=1)[:, None]


def test_holonomy_of_the_rotation_minimising_frame() -> None:
    points, tangent = _knot(np.linspace(0, 2 * np.pi, 1601))
    first = np.cross(tangent[0], [0.0, 0.0, 1.0])
    first /= np.linalg.norm(first)
    last = double_reflection(points, tangent, first)[-1]
    assert np.arctan2(np.cross(first, last) @ tangent[0], first @ last) == pytest.approx(2.8757, abs=1e-3)


def test_writhe_of_that_knot_is_its_holonomy_over_a_full_turn() -> None:
    coarse, fine = (writhe(_knot(np.linspace(0, 2 * np.pi, n, endpoint=False))[0]) for n in (400, 800))
    limit = fine + (fine - coarse) / 3  # the polygon's writhe nears the curve's with the square of the spacing
    assert 2 * np.pi * (limit % 1) == pytest.approx(2.8757, abs=1e-3)
