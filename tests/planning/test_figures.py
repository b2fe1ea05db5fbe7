"""A plan's figures are the sums that their words say."""

from __future__ import annotations

from dataclasses import replace

import pytest

from fidpath.planning.planner import Plan, make_plan
from jobs import a_job


def sums(plan: Plan) -> dict[str, tuple[float, float]]:
    """Figures of a plan beside the sums that they are by their words."""
    d, lost = plan.braid.diameter, plan.eye_lost_to_lock
    crown_to_h1 = plan.eye.distance + plan.eye.bend_radius - d / 2
    rope = plan.cover.host_length + plan.neck_host + plan.neck_tail + 2 * plan.rope_between_holes
    spanned = plan.cover.tip_axial + plan.neck.reach + plan.hole_spacing + crown_to_h1
    return {
        "consumed": (plan.rope_consumed, rope + plan.eye_length + plan.bury_length - spanned),
        "bare neck": (plan.bare_neck, plan.neck_host - plan.hole_length / 2),
        "tail": (plan.tail_beyond_h1, plan.rope_h1_to_h2 + plan.neck_tail + plan.bury_length),
        "laid out": (plan.tail_to_lay_out, plan.tail_beyond_h1 + 4 * d),
        "rough mark": (plan.rough_bury_mark, plan.bury_length + 4 * d),
        "take-up": (plan.take_up, plan.cover.take_up + 0.045 * d),
        "stretch": (plan.stretch_needed_without_allowance, lost / (plan.loop_before_lock - 2 * lost)),
        "D/d": (plan.D_over_d, plan.job.terminator.bearing_diameter_mm / d),
        "tip": (plan.station_tip, plan.station_entry_tail + plan.bury_length),
        "entry": (plan.station_entry_host, -2 * plan.diamonds_entry_to_h1 * plan.pick),
        "H2": (plan.station_h2, plan.picks_h1_to_h2 * plan.pick),
    }  # fmt: skip


@pytest.mark.parametrize("kind", ["ring", "pin", "deadeye", "teardrop"])
def test_figures_are_the_sums_that_their_words_say(kind: str) -> None:
    plan = make_plan(a_job(d=8.0, kind=kind))
    for name, (figure, added) in sums(plan).items():
        assert figure == pytest.approx(added, rel=1e-12), name
    assert plan.locked
    assert not replace(plan, rope_between_holes=0.0).locked
