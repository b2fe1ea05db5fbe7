"""The throat's angle as measured."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from broken_strands import Case, strands_of
from fidpath.checking.throat import throat_angle
from fidpath.geometry.braid import braid_of
from fidpath.geometry.seat import Seat
from fidpath.geometry.strands import Hole
from jobs import a_job


def test_plan_with_another_throat_is_contradicted(case: Case) -> None:
    assert "throat_angle_error_deg" in case.failed(planned_throat=case.plan.throat_angle + np.radians(1.5))


@pytest.mark.parametrize("degrees", [20.0, 45.0, 60.0])
@pytest.mark.parametrize("bearing", [15.0, 60.0])
def test_throat_angle_of_straight_legs_and_a_round_bend(degrees: float, bearing: float) -> None:
    half, radius, d = np.radians(degrees / 2), bearing / 2 + 5.0, 10.0
    leg = radius / np.tan(half)
    total = 2 * leg + radius * (np.pi + 2 * half)
    station = np.arange(np.ceil(total)) * total / np.ceil(total)
    turn = np.clip((station - leg) / radius, 0, np.pi + 2 * half)
    step = np.column_stack([np.cos(half - turn), np.sin(half - turn)])
    line = np.pad(np.cumsum(step, axis=0) * total / np.ceil(total), ((0, 0), (0, 1)))
    braid = replace(braid_of(a_job().rope), diameter=d)
    rope = strands_of(
        np.stack([line, line]),
        braid,
        total / np.ceil(total),
        holes=(Hole("H1", 0.0, total, 10.0),),
        seat=Seat(bearing / 2, bearing / 2, 0.0, 0.0, 0.0, 7.0),
    )
    assert np.degrees(throat_angle(rope)) == pytest.approx(degrees, abs=0.1)
