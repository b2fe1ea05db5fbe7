"""Braid and plan to the last sign: exact values from the braid's law, figures as the sums that their words say."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fidpath.errors import CannotBeMade
from fidpath.geometry import braid as law
from fidpath.geometry.braid import Braid, braid_of, fitted, lift, straight, strand_offsets
from fidpath.geometry.eye import eye_of_loop, eye_of_throat
from fidpath.geometry.seat import seat_of
from fidpath.job.job import Job
from fidpath.planning.locked import chosen, fits, wanted_eye
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from jobs import a_job

ROOT2 = np.sqrt(2.0)


def test_lift_is_one_at_every_crossing_in_the_weaves_order() -> None:
    crossings = 2 * np.pi * np.arange(6) / 12
    angle = np.tile(crossings, (12, 1))
    over = lift(12, "over-two", 7.0, np.zeros(6), angle)
    assert over[0] == pytest.approx([1, 1, -1, -1, 1, 1])
    assert over[1] == pytest.approx(-over[0])
    assert lift(12, "over-two", 7.0, np.zeros(1), np.full((12, 1), np.pi / 12))[4] == pytest.approx([ROOT2])
    plain = lift(8, "over-one", 40.0, np.array([0.0, 5.0, 10.0, 12.5]), np.zeros((8, 4)))
    assert plain[:2] == pytest.approx(np.array([[1, -1, 1, 0], [-1, 1, -1, 0]]), abs=1e-12)


def test_strands_of_straight_rope_lie_at_mean_radius_and_their_wave() -> None:
    braid = Braid(8, "over-one", 10.0, 40.0, 2.0, 3.5, 0.5)
    radius, angle = strand_offsets(braid, np.array([0.0, 5.0]))
    assert radius[:2] == pytest.approx(np.array([[4.0, 3.0], [3.0, 4.0]]))
    assert angle[:2, 1] == pytest.approx([np.pi / 4, -np.pi / 4])
    assert straight(braid, np.array([10.0]))[0, 0] == pytest.approx([10.0, 0.0, 4.0])
    swollen, _ = strand_offsets(braid, np.array([0.0, 5.0]), radius=np.array([6.0, 7.0]))
    assert swollen[0] == pytest.approx([6.5, 6.5])
    pressed, _ = strand_offsets(braid, np.array([0.0, 5.0]), undulation=np.array([0.25, 0.125]))
    assert pressed[0] == pytest.approx([3.75, 3.375])


@pytest.mark.parametrize("foot", [0.7, 1.0, 1.3, 2.4, 4.0, 4.45])
def test_valley_of_a_parabola_is_its_foot(foot: float) -> None:
    samples = (np.arange(6.0) - foot) ** 2 + 0.25
    assert law._valley(samples) == pytest.approx(0.25)
    assert law._valley(np.stack([samples, samples + 1])) == pytest.approx([0.25, 1.25])


def test_valley_at_an_end_and_of_flat_ground_stands_as_it_is() -> None:
    slope = np.array([1.0, 1.5, 3.0, 5.0])
    assert law._valley(slope) == 1.0
    assert law._valley(slope[::-1]) == 1.0
    assert law._valley(np.full(5, 2.0)) == 2.0


def test_a_ropes_braid_is_the_fitted_one_in_its_own_size() -> None:
    rope = replace(a_job(d=8.0).rope, pitch_mm=8.0 * 7.1234564)
    thickness, radius, undulation = fitted(12, "over-two", 7.123456)
    assert braid_of(rope) == Braid(12, "over-two", 8.0, rope.pitch_mm, 8 * thickness, 8 * radius, 8 * undulation)


def test_one_long_diamond_can_be_the_whole_neck() -> None:
    plan = make_plan(a_job(pitch=14.0, gap=0.6, strands=8))
    assert plan.needed_lock().diamonds_entry_to_h1 == 1


@pytest.mark.parametrize(
    ("job", "what", "remedy", "key"),
    [
        (
            a_job(kind="teardrop", eye_length=100.0),
            "the terminator (teardrop) can't sit in an eye with this throat",
            "Ask for a smaller throat angle or a longer eye",
            "terminator",
        ),
        (
            a_job(pitch=12.0, gap=2.5, strands=8),
            "no whole number of diamonds (30.0 mm each) leaves a neck that closes",
            "Use a shorter pitch or another hole gap",
            "rope.pitch",
        ),
    ],
    ids=["eye", "neck"],
)
@pytest.mark.parametrize("source", ["eye.toml", ""])
def test_a_refusal_says_what_where_and_what_to_do(job: Job, source: str, what: str, remedy: str, key: str) -> None:
    with pytest.raises(CannotBeMade) as refused:
        make_plan(replace(job, source=source))
    error = refused.value
    assert (error.what, error.remedy, error.key, error.file) == (what, remedy, key, source or None)


def sums(plan: Plan) -> dict[str, tuple[float, float]]:
    """Figures of a plan beside the sums that they are by their words."""
    d, lost = plan.braid.diameter, plan.needed_lock().eye_lost
    crown_to_h1 = plan.eye.distance + plan.eye.bend_radius - d / 2
    rope = (
        plan.cover.host_length
        + plan.needed_lock().neck_host
        + plan.needed_lock().neck_tail
        + 2 * plan.rope_between_holes
    )
    spanned = plan.cover.tip_axial + plan.neck.reach + plan.eye.zone.spacing + crown_to_h1
    return {
        "consumed": (plan.rope_consumed, rope + plan.eye_length + plan.bury_length - spanned),
        "bare neck": (plan.needed_lock().bare_neck, plan.needed_lock().neck_host - plan.eye.zone.hole_length / 2),
        "tail": (plan.station_tip, plan.station_h2 + plan.needed_lock().neck_tail + plan.bury_length),
        "laid out": (plan.tail_to_lay_out, plan.station_tip + 4 * d),
        "rough mark": (plan.rough_bury_mark, plan.bury_length + 4 * d),
        "take-up": (plan.take_up, plan.cover.take_up + 0.045 * d),
        "stretch": (plan.needed_lock().stretch_without_allowance, lost / (plan.needed_lock().loop_before - 2 * lost)),
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


def test_places_for_h2_reach_from_three_picks_short_to_four_long() -> None:
    plan = make_plan(a_job())
    ideal = (plan.needed_lock().eye_wanted + plan.rope_between_holes) / plan.pick
    picks = [choice.picks for choice in plan.needed_lock().choices]
    assert picks == list(range(int(np.floor(ideal)) - 3, int(np.ceil(ideal)) + 5))
    for choice in plan.needed_lock().choices:
        assert choice.rope_h1_to_h2 == pytest.approx(choice.picks * plan.pick)
        assert choice.eye.loop == pytest.approx(choice.rope_h1_to_h2 - plan.rope_between_holes)


def test_the_place_chosen_has_the_least_slack_of_those_that_fit_under_sixty_degrees() -> None:
    for throat in (35.0, 50.0, 58.0, 60.0, 64.0):
        plan = make_plan(a_job(throat=throat))
        good = [c for c in plan.needed_lock().choices if c.fits and not c.rolled]
        narrow = [c for c in good if c.eye.throat <= np.radians(60) + 1e-9] or good
        best = min(narrow, key=lambda c: abs(c.slack))
        assert plan.needed_lock().picks_h1_to_h2 == best.picks, throat


def room(plan: Plan, choice_eye: float) -> float:
    """Clear rope beyond the terminator's rim, in rope diameters."""
    d = plan.braid.diameter
    eye = eye_of_loop(plan.eye.zone, d, plan.job.terminator.bearing_diameter_mm, choice_eye)
    return (eye.distance - plan.seat.reach - plan.seat.nose - plan.seat.lip) / d


@pytest.mark.parametrize("eye_length", [90.0, 95.0, 100.0, 110.0, 130.0])
def test_a_place_fits_where_the_rim_leaves_the_rope_room_to_pass(eye_length: float) -> None:
    plan = make_plan(a_job(eye_length=eye_length))
    for choice in plan.needed_lock().choices:
        assert choice.fits is bool(room(plan, choice.eye.loop) >= 0.8), choice


def test_a_teardrops_flanks_leave_one_degree_to_spare() -> None:
    seen = set()
    for bearing in (4.0, 4.5, 5.0, 5.5, 6.0):
        plan = make_plan(a_job(kind="teardrop", bearing=bearing))
        for choice in plan.needed_lock().choices:
            wide = choice.eye.throat / 2 > plan.seat.flank + np.radians(1.0)
            assert choice.fits is (not wide and bool(room(plan, choice.eye.loop) >= 0.8))
            seen.add((wide, choice.fits))
        narrow = make_plan(a_job(kind="teardrop", bearing=bearing, throat=20.0))
        by_flank = min(2 * plan.seat.flank, np.radians(20.0))
        wanted = eye_of_throat(plan.eye.zone, 10.0, bearing * 10, by_flank)
        assert narrow.needed_lock().eye_wanted == pytest.approx(wanted.loop)
    assert len(seen) > 1


def test_a_throat_of_sixty_degrees_is_preferred_to_a_wider_one_whatever_the_slack() -> None:
    job = a_job()
    plan = make_plan(job)
    near, wide = plan.needed_lock().choices[3], np.radians(60) + 1e-9
    wanted = wanted_eye(job, plan.eye.zone, plan.seat)
    for throat, taken in ((wide, 20), (wide + 1e-6, 30), (np.radians(60.5), 30)):
        choices = (
            replace(near, picks=20, eye=replace(near.eye, throat=throat), slack=0.1, fits=True, rolled=False),
            replace(near, picks=30, eye=replace(near.eye, throat=np.radians(50)), slack=-5.0, fits=True, rolled=False),
        )
        assert chosen(job, wanted, choices).picks == taken


def test_a_teardrops_throat_may_be_wider_than_its_flanks_by_one_degree_and_no_more() -> None:
    job = a_job(kind="teardrop")
    eye = make_plan(job).eye
    seat = seat_of(job.terminator)
    half = seat.flank + np.radians(1.0)
    assert fits(replace(eye, throat=2 * half, distance=1e4), seat)
    assert not fits(replace(eye, throat=2 * half + 1e-9, distance=1e4), seat)
