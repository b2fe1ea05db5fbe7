"""Least diameter an eye bears on: ISO 2307:2010, 5.1, a test bollard of at least 2 d (read). 24 mm on 12 mm rope."""

from __future__ import annotations

import pytest

from fidpath.planning.notices import warnings
from fidpath.planning.planner import make_plan
from jobs import a_job


@pytest.mark.parametrize(("bearing_mm", "warned"), [(23.9, True), (24.0, False), (60.0, False)])
def test_an_eye_on_less_than_two_rope_diameters_is_warned_of(bearing_mm: float, warned: bool) -> None:
    plan = make_plan(a_job(d=12.0, bearing=bearing_mm / 12.0, kind="pin"))
    assert plan.D_over_d == pytest.approx(bearing_mm / 12.0)
    found = [notice for notice in warnings(plan) if notice.name == "D_over_d"]
    assert [notice.limit for notice in found] == ([2.0] if warned else [])
    assert all("ISO 2307:2010, 5.1" in notice.source for notice in found)
