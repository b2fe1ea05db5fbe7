"""Load handed over along a bury: Coulomb friction (exact; constant friction, angle and radius, no lock, no stitch)."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.geometry.bury import half_load_length
from fidpath.job.rules import rule
from theory.closed_forms import load_share


def test_share_of_the_load_after_a_length_of_bury() -> None:
    angle = np.radians(20)
    assert half_load_length(0.07, angle, 5.0) == pytest.approx(373.7367, abs=1e-3)
    assert load_share(720.0, 0.07, angle, 5.0) == pytest.approx(0.7369316, abs=1e-7)
    assert load_share(half_load_length(0.07, angle, 5.0), 0.07, angle, 5.0) == pytest.approx(0.5)


def test_friction_is_the_lower_end_of_the_band() -> None:
    # 0.05 to 0.10: general materials literature, from memory.
    assert rule("friction_least").value == 0.05
