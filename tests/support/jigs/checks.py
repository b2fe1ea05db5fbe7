"""What a jig's file must hold to, measured as a reader of the file has it: shared by the tests and the soak."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.outputs.jigs.parts.rope_gauge import DEPTH, rope_gauge
from fidpath.planning.plan import Plan
from jigs.readback import at_height, circle_through, crossings, from_stl, gaps

WIDTH, RADIUS, VOLUME = 0.002, 0.005, 1e-3
"""Bounds: of a width and of a radius in mm, of a volume as a share."""


def check_slots(plan: Plan) -> None:
    """The rope gauge's slots, read from its file, are as wide as the job's limits, their bottoms round."""
    piece = rope_gauge(plan).pieces[0]
    body = from_stl(piece)
    section = at_height(body, 0.4 * plan.job.printing.plate_mm)
    top = section[:, :, 1].max()
    shrink = plan.job.printing.slot_shrink_mm
    rope = plan.job.rope
    asked = [rope.diameter_min_mm, rope.diameter_mm, rope.diameter_max_mm, plan.swollen_diameter]
    straight = DEPTH * (asked[0] + shrink) - (asked[0] + shrink) / 2
    for depth in (1.05, straight - 0.01):
        places = crossings(section, 1, top - max(depth, 1.05))
        assert gaps(places) == pytest.approx([size + shrink for size in asked], abs=WIDTH)
    for size, middle in zip(asked, (places[1:-1:2] + places[2::2]) / 2, strict=True):
        wide = size + shrink
        foot = section.reshape(-1, 2)
        near = (np.abs(foot[:, 0] - middle) < wide / 2) & (foot[:, 1] < top - DEPTH * wide + wide / 2 - 1e-3)
        near &= foot[:, 1] > top - DEPTH * wide - 0.01
        centre, radius, miss = circle_through(foot[near])
        assert radius == pytest.approx(wide / 2, abs=RADIUS)
        assert miss < RADIUS
        assert centre[0] == pytest.approx(middle, abs=WIDTH)
