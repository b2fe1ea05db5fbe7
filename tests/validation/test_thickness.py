"""Thickness of links: Cantarella, Kusner & Sullivan, Invent. Math. 150 (2002) 257 (definition read; the chain from
memory, redone by hand); double helix: Olsen & Bohr, Theor. Chem. Acc. 125 (2010) (exact)."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.verify.curves import distance, least_radius, tube_radius

T = np.linspace(0, 2 * np.pi, 720, endpoint=False)


def _length(curve: np.ndarray) -> float:
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


@pytest.mark.parametrize(("a", "radius"), [(0.8, 0.94592448), (1.0, 1.0), (1.5, 1.0)])
def test_double_helix_at_contact(a: float, radius: float) -> None:
    u = np.linspace(-3 * np.pi, 3 * np.pi, 1500)
    one = np.column_stack([np.cos(u), np.sin(u), a * u])
    other = np.column_stack([-np.cos(u), -np.sin(u), a * u])
    short = np.abs(u) < np.pi
    gap = np.linalg.norm(one[short][:, None] - other[None], axis=2).min()
    assert gap / 2 == pytest.approx(radius, abs=2e-5)


def test_distance_and_radius_of_a_polygonal_circle() -> None:
    circle = np.column_stack([2 * np.cos(T), 2 * np.sin(T), 0 * T])
    assert least_radius(circle) == pytest.approx(2.0, rel=1e-9)
    assert distance(circle, circle * 0.5) == pytest.approx(1.0, abs=1e-4)
