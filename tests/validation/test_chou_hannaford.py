"""Braid of inextensible strands: Chou & Hannaford, IEEE Trans. Robot. Autom. 12(1) (1996) 90 (form from memory; the
one-turn form read in Grove, J. Mater. Sci. Lett. 18 (1999) 1203). Take-up on swallowing a core follows (exact)."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.geometry.braid import Braid, straight
from fidpath.geometry.bury import shortening


def _flat_braid(angle: float) -> Braid:
    """A braid without over-and-under whose strands lie at `angle` degrees on a circle of radius 1."""
    return Braid(12, "over-two", 3.0, 2 * np.pi / np.tan(np.radians(angle)), 0.1, 1.0, 0.0)


def test_take_up_on_swallowing_a_core() -> None:
    braid = _flat_braid(18.0)
    rate = float(shortening(braid, np.array([np.sqrt(2.0)]))[0])
    assert rate == pytest.approx(0.9457416, abs=1e-6)
    assert np.degrees(np.arctan2(2 * np.pi * np.sqrt(2), braid.pitch * rate)) == pytest.approx(25.913646, abs=1e-5)


def test_diameter_and_length_of_a_tube_of_strands_200_long_in_two_turns_at_30_degrees() -> None:
    diameter, length = 15.915494, 173.205081
    braid = Braid(12, "over-two", diameter, length / 2, 0.1, diameter / 2, 0.0)
    assert np.degrees(braid.angle) == pytest.approx(30, abs=1e-6)
    lines = straight(braid, np.linspace(0, length, 20001))
    path = np.linalg.norm(np.diff(lines, axis=1), axis=2).sum(axis=1)
    assert path == pytest.approx(np.full(12, 200.0), abs=1e-4)
    mean_square = (lines[..., 1:] ** 2).sum(axis=-1).mean()
    assert np.pi * mean_square * length == pytest.approx(34458.056, abs=1e-2)


def test_angle_of_greatest_enclosed_volume() -> None:
    # Grove 1999, read: tan^2 a = 2. Volume R^2 x length of a braid swollen from 18 degrees is greatest there.
    braid = _flat_braid(18.0)
    radius = np.linspace(1.0, 2.9, 4000)
    rate = shortening(braid, radius)
    best = int(np.argmax(radius**2 * rate))
    angle = np.degrees(np.arctan2(2 * np.pi * radius[best], braid.pitch * rate[best]))
    assert angle == pytest.approx(54.7356103, abs=0.05)
