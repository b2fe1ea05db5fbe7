"""Braid of inextensible strands: Chou & Hannaford, IEEE Trans. Robot. Autom. 12(1) (1996) 90 (form from memory; the
one-turn form read in Grove, J. Mater. Sci. Lett. 18 (1999) 1203). Take-up on swallowing a core follows (exact)."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.braid import Braid
from fidpath.bury import shortening


def _flat_braid(angle: float) -> Braid:
    """A braid without over-and-under whose strands lie at `angle` degrees on a circle of radius 1."""
    return Braid(12, "over-two", 3.0, 2 * np.pi / np.tan(np.radians(angle)), 0.1, 1.0, 0.0)


def test_take_up_on_swallowing_a_core() -> None:
    braid = _flat_braid(18.0)
    rate = float(shortening(braid, np.array([np.sqrt(2.0)]))[0])
    assert rate == pytest.approx(0.9457416, abs=1e-6)
    assert np.degrees(np.arctan2(2 * np.pi * np.sqrt(2), braid.pitch * rate)) == pytest.approx(25.913646, abs=1e-5)


def test_diameter_length_and_volume_of_a_braided_tube() -> None:
    strand, turns, angle = 200.0, 2, np.radians(30)
    braid = _flat_braid(30.0)
    length, diameter = strand * np.cos(angle), strand * np.sin(angle) / (turns * np.pi)
    assert (diameter, length) == (pytest.approx(15.915494, abs=1e-6), pytest.approx(173.205081, abs=1e-6))
    assert np.tan(braid.angle) == pytest.approx(np.pi * diameter * turns / length)
    assert np.pi * diameter**2 / 4 * length == pytest.approx(34458.056, abs=1e-2)


def test_angle_of_greatest_enclosed_volume() -> None:
    # Grove 1999, read: tan^2 a = 2. Volume R^2 x length of a braid swollen from 18 degrees is greatest there.
    braid = _flat_braid(18.0)
    radius = np.linspace(1.0, 2.9, 4000)
    rate = shortening(braid, radius)
    best = int(np.argmax(radius**2 * rate))
    angle = np.degrees(np.arctan2(2 * np.pi * radius[best], braid.pitch * rate[best]))
    assert angle == pytest.approx(54.7356103, abs=0.05)
