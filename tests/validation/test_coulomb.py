"""Load handed over along a bury: Coulomb friction (exact; constant friction, angle and radius, no lock, no stitch)."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from fidpath.geometry import wall
from fidpath.job.rules import rule
from fidpath.planning.planner import make_plan
from jobs import a_job
from theory.closed_forms import load_share

DOCS = Path(__file__).parents[2] / "docs" / "unknown.md"


def test_share_of_the_load_after_a_length_of_bury() -> None:
    angle = np.radians(20)
    assert load_share(720.0, 0.07, angle, 5.0) == pytest.approx(0.7369316, abs=1e-7)
    assert load_share(373.7367, 0.07, angle, 5.0) == pytest.approx(0.5, abs=1e-6)


def test_the_documentation_says_where_half_the_load_goes_over_in_the_demo() -> None:
    plan = make_plan(a_job())
    cover, radius = plan.cover, plan.cover.swollen_diameter / 2 - wall(plan.braid)
    friction = rule("friction_least").value
    half = math.log(2) * radius / (friction * math.tan(cover.cover_angle) ** 2)
    assert load_share(half, friction, cover.cover_angle, radius) == pytest.approx(0.5)
    said = " ".join(DOCS.read_text(encoding="utf-8").split())
    assert f"half of the load has passed after {half:.0f} mm, at $\\mu$ = {friction:g}" in said


def test_friction_is_the_lower_end_of_the_band() -> None:
    # 0.05 to 0.10: general materials literature, from memory.
    assert rule("friction_least").value == 0.05
