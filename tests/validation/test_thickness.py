"""Thickness of links: Cantarella, Kusner & Sullivan, Invent. Math. 150 (2002) 257 (definition read; the chain from
memory, redone by hand); double helix: Olsen & Bohr, Theor. Chem. Acc. 125 (2010) (exact)."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from theory.polygons import distance, least_radius, tube_radius

Floats = NDArray[np.float64]
T = np.linspace(0, 2 * np.pi, 720, endpoint=False)


def _length(curve: Floats) -> float:
    return float(np.linalg.norm(np.roll(curve, -1, axis=0) - curve, axis=1).sum())


def test_hopf_link_of_two_unit_circles() -> None:
    one = np.column_stack([np.cos(T), np.sin(T), 0 * T])
    other = np.column_stack([1 + np.cos(T), 0 * T, np.sin(T)])
    radius = tube_radius([one, other])
    assert radius == pytest.approx(0.5, abs=2e-5)
    assert (_length(one) + _length(other)) / (2 * radius) == pytest.approx(4 * np.pi, rel=1e-4)


def test_middle_ring_of_the_tight_three_ring_chain() -> None:
    half = np.linspace(-np.pi / 2, np.pi / 2, 500)
    right = np.column_stack([1 + 2 * np.cos(half), 2 * np.sin(half), 0 * half])
    middle = np.concatenate([right, -right])
    ring = np.column_stack([2 * np.cos(T), 0 * T, 2 * np.sin(T)])
    left, right_ring = ring + [-3, 0, 0], ring + [3, 0, 0]
    assert tube_radius([middle, left, right_ring]) == pytest.approx(1.0, abs=1e-3)
    assert _length(middle) == pytest.approx(4 * np.pi + 4, rel=1e-4)


def _closed_helix(a: float, side: float) -> Floats:
    """Two turns of a helix of radius 1 and pitch 2 pi a, `(n, 3)`, closed far out on its own side."""
    u = np.linspace(-2 * np.pi, 2 * np.pi, 801)
    helix = np.column_stack([side * np.cos(u), side * np.sin(u), a * u])
    far = np.array([[20 * side, 0, 2 * np.pi * a], [20 * side, 0, -2 * np.pi * a]])
    return np.concatenate([helix, far])


@pytest.mark.parametrize(("a", "radius"), [(0.8, 0.94592448), (1.0, 1.0), (1.5, 1.0)])
def test_double_helix_at_contact(a: float, radius: float) -> None:
    assert distance(_closed_helix(a, 1.0), _closed_helix(a, -1.0)) / 2 == pytest.approx(radius, abs=5e-5)


def test_a_curve_that_passes_itself_is_as_thick_as_half_the_gap() -> None:
    # Exact: the legs of this figure of eight cross at t = 0 and pi, 0.6 apart and both square to the gap.
    eight = np.column_stack([3 * np.sin(T), 1.5 * np.sin(2 * T), 0.3 * np.cos(T)])
    assert least_radius(eight) > 0.6
    assert tube_radius([eight]) == pytest.approx(0.3, abs=1e-5)


def test_distance_and_radius_of_a_polygonal_circle() -> None:
    circle = np.column_stack([2 * np.cos(T), 2 * np.sin(T), 0 * T])
    assert least_radius(circle) == pytest.approx(2.0, rel=1e-9)
    assert distance(circle, circle * 0.5) == pytest.approx(1.0, abs=1e-4)


def test_a_curve_that_bends_tightly_is_as_thick_as_its_least_radius() -> None:
    # Exact: an ellipse with half axes 2 and 1 bends with radius 1/2 at its ends, and is 2 across its waist.
    ellipse = np.column_stack([2 * np.cos(T), np.sin(T), 0 * T])
    assert tube_radius([ellipse]) == pytest.approx(0.5, abs=1e-4)
