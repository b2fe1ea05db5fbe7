"""The lock's crossing zone, the eye round its terminator, the neck."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fidpath.errors import CannotBeMade
from fidpath.geometry.crossing_zone import BLEND, LEGS_APART, crossing_of_gap, crossing_of_spacing
from fidpath.geometry.curve import chain, curvature, heading, points
from fidpath.geometry.eye import eye_of_distance, eye_of_loop, eye_of_throat, leg_chain, throat_angle
from fidpath.geometry.neck import ENTRY_GAP, neck_of_length
from theory.closed_forms import belt_length, rope_between_holes

D = 10.0


@pytest.mark.parametrize("spacing", [1.6, 2.0, 2.5, 3.0, 3.5])
def test_legs_meet_at_both_holes_and_part_by_the_lens_between(spacing: float) -> None:
    zone = crossing_of_spacing(D, spacing * D)
    leg = chain(zone.pieces, BLEND * D, zone.half_angle)
    xy = points(leg, np.linspace(0, leg.length, 401))
    assert xy[-1] == pytest.approx([spacing * D, 0.0], abs=1e-6)
    assert 2 * xy[:, 1].max() == pytest.approx(LEGS_APART * D, rel=1e-3)
    assert np.abs(curvature(leg, np.linspace(0, leg.length, 401))).max() < 2 / D
    assert zone.rope == pytest.approx(rope_between_holes(zone.spacing, LEGS_APART * D), rel=0.02)


@given(st.floats(0.5, 2.5))
@settings(max_examples=25, deadline=None)
def test_hole_gap_asked_for_is_the_gap_left(gap: float) -> None:
    zone = crossing_of_gap(D, gap * D)
    assert zone.gap == pytest.approx(gap * D, abs=1e-6)


def test_too_small_a_gap_is_refused_with_the_least_that_would_do() -> None:
    with pytest.raises(CannotBeMade, match=r"at least 0\.3\d d"):
        crossing_of_gap(D, 0.1 * D)


@given(st.floats(2.0, 9.0), st.floats(25.0, 60.0))
@settings(max_examples=25, deadline=None)
def test_eye_closes_round_the_terminator(bearing: float, degrees: float) -> None:
    zone = crossing_of_gap(D, D)
    eye = eye_of_throat(zone, D, bearing * D, np.radians(degrees))
    line = leg_chain(eye, [(20.0, 0.0)], zone.half_angle, (0.0, 0.0))
    start = 20.0 + zone.rope
    s = np.linspace(start, start + eye.loop, 3001)
    xy = points(line, s)
    assert xy[0] == pytest.approx(xy[-1], abs=1e-6)
    crown = xy[1500]
    centre = crown - [eye.bend_radius, 0.0]
    assert np.linalg.norm(xy - centre, axis=1).min() == pytest.approx(eye.bend_radius, rel=0.01)
    leg_at = start + zone.straight + 1.2 * D + eye.leg / 2
    at = heading(line, np.array([leg_at, start + start + eye.loop - leg_at]))
    assert (at[1] - at[0]) % (2 * np.pi) - np.pi == pytest.approx(eye.throat, abs=0.01)


@given(st.floats(2.0, 8.0), st.floats(-0.5, 6.0))
@settings(max_examples=25, deadline=None)
def test_loop_decides_the_throat_as_the_belt_formula_says(bearing: float, more: float) -> None:
    zone = crossing_of_gap(D, D)
    loop = eye_of_throat(zone, D, bearing * D, np.radians(50)).loop + more * D
    eye = eye_of_loop(zone, D, bearing * D, loop)
    assert eye.loop == loop
    assert belt_length(eye.bend_radius, eye.distance) == pytest.approx(loop, rel=0.02)
    assert throat_angle(eye.bend_radius, eye.distance) == pytest.approx(eye.throat, abs=np.radians(9))


def test_longer_eye_has_a_narrower_throat() -> None:
    zone = crossing_of_gap(D, D)
    throats = [eye_of_distance(zone, D, 50.0, distance).throat for distance in (60.0, 80.0, 120.0)]
    assert throats == sorted(throats, reverse=True)


def test_loop_too_short_for_the_terminator_is_refused() -> None:
    with pytest.raises(CannotBeMade, match="too short"):
        eye_of_loop(crossing_of_gap(D, D), D, 50.0, 150.0)


@pytest.mark.parametrize("rope", [1.6, 2.0, 2.6, 3.0])
def test_neck_meets_h2_on_the_load_line(rope: float) -> None:
    zone = crossing_of_gap(D, D)
    neck = neck_of_length(zone, D, rope * D)
    leg = chain(neck.pieces, BLEND * D)
    s = np.linspace(0, leg.length, 2001)
    xy = points(leg, s)
    assert xy[-1, 1] == pytest.approx(0.0, abs=1e-6)
    assert heading(leg, s[-1:])[0] == pytest.approx(zone.half_angle, abs=1e-9)
    assert neck.entry == pytest.approx(rope * D, abs=1e-6)
    at_entry = np.interp(leg.length - neck.entry, s, -xy[:, 1])
    assert 2 * at_entry == pytest.approx(ENTRY_GAP * D, rel=1e-3)
