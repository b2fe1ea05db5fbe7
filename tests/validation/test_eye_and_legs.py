"""Loops, throats and leg tensions against elementary geometry, statics, a handbook and a standard.

Belt length form: Machinery's Handbook, from memory. 60 degrees: 29 CFR 1926.251(d)(2), read. Preferred eye length of
five times the fitting: Naval Ships' Technical Manual ch. 613, 613-2.5.1, read. The rest is elementary mathematics.
"""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.geometry.eye import leg_tension_share, throat_angle
from theory.closed_forms import belt_length, rope_between_holes


def test_loop_round_a_circle() -> None:
    assert belt_length(30, 100) == pytest.approx(303.317179, abs=1e-6)
    assert np.degrees(throat_angle(30, 100)) == pytest.approx(34.915206, abs=1e-6)


def test_open_belt_round_two_circles_from_the_loop() -> None:
    # The loop round the larger circle from where the belt's sides meet, less that round the smaller, plus its girth.
    large, small, centres = 150.0, 75.0, 600.0
    apex = centres * large / (large - small)
    belt = belt_length(large, apex) - belt_length(small, apex - centres) + 2 * np.pi * small
    assert belt == pytest.approx(1916.245612, abs=1e-6)


@pytest.mark.parametrize(("k", "angle"), [(1.5, 60.0), (3, 23.073918), (5, 12.758741)])
def test_throat_of_an_eye_k_pin_diameters_long(k: float, angle: float) -> None:
    pin = 20.0
    assert np.degrees(throat_angle(pin / 2, (k - 0.5) * pin)) == pytest.approx(angle, abs=1e-6)


def test_leg_tension_at_sixty_degrees() -> None:
    assert leg_tension_share(np.radians(60)) == pytest.approx(0.57735027, abs=1e-8)
    assert leg_tension_share(0.0) == pytest.approx(0.5)


@pytest.mark.parametrize(("spacing", "rope"), [(2.5, 2.76), (3.0, 3.22), (3.5, 3.69), (4.0, 4.16)])
def test_arc_between_the_holes(spacing: float, rope: float) -> None:
    # L a/sin a with a = 2 atan(h/L), h = 1 d: arc of chord L and sagitta h/2 (elementary geometry).
    assert rope_between_holes(spacing, 1.0) == pytest.approx(rope, abs=0.006)
