"""A plan's figures are the sums that their words say."""

from __future__ import annotations

import pytest

from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from jobs import a_job


def sums(plan: Plan) -> dict[str, tuple[float, float]]:
    """Figures of a plan beside the sums that they are by their words."""
    d, lost = plan.braid.diameter, plan.needed_lock().eye_lost
    crown_to_h1 = plan.eye.distance + plan.eye.bend_radius - d / 2
    necks = plan.needed_lock().neck_host + plan.needed_lock().neck_tail
    rope = plan.cover.host_length + necks + 2 * plan.rope_between_holes
    spanned = plan.cover.tip_axial + plan.neck.reach + plan.eye.zone.spacing + crown_to_h1
    return {
        "consumed": (plan.rope_consumed, rope + plan.eye_length + plan.bury_length - spanned),
        "bare neck": (plan.needed_lock().bare_neck, plan.needed_lock().neck_host - plan.eye.zone.hole_length / 2),
        "tail": (plan.station_tip, plan.station_h2 + plan.needed_lock().neck_tail + plan.bury_length),
        "laid out": (plan.tail_to_lay_out, plan.station_tip + 4 * d),
        "rough mark": (plan.rough_bury_mark, plan.bury_length + 4 * d),
        "take-up": (plan.take_up, plan.cover.take_up + 0.045 * d),
        "stretch": (plan.needed_lock().stretch_without_allowance, lost / (plan.loop_fitted - 2 * lost)),
        "D/d": (plan.D_over_d, plan.job.terminator.bearing_diameter_mm / d),
        "tip": (plan.station_tip, plan.station_entry_tail + plan.bury_length),
        "entry": (plan.station_entry_host, -2 * plan.needed_lock().diamonds_entry_to_h1 * plan.pick),
        "H2": (plan.station_h2, plan.needed_lock().picks_h1_to_h2 * plan.pick),
    }  # fmt: skip


@pytest.mark.parametrize("kind", ["ring", "pin", "deadeye", "teardrop"])
def test_figures_are_the_sums_that_their_words_say(kind: str) -> None:
    plan = make_plan(a_job(d=8.0, kind=kind))
    for name, (figure, added) in sums(plan).items():
        assert figure == pytest.approx(added, rel=1e-12), name
