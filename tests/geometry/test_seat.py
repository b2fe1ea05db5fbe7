"""The seat of a terminator: crown and lip."""

from __future__ import annotations

import pytest

from fidpath.geometry.seat import seat_of
from terminators import a_terminator


def test_a_shallow_groove_wider_than_the_body_has_a_lip_of_its_own_depth() -> None:
    seat = seat_of(a_terminator("ring", 40.0, 12.0, 10.0))
    assert (seat.crown, seat.lip) == pytest.approx((20.0, 10.0 - 8.0))
    assert seat_of(a_terminator("ring", 40.0, 12.0, 5.0)).lip == 5.0
