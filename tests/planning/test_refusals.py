"""What a plan refuses, word for word with file and key, and the bounds at which it begins to; choices at the margin."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from fidpath.errors import CannotBeMade
from fidpath.geometry.braid import braid_of, hands, lift, strand_angles, strand_offsets
from fidpath.geometry.neck import neck_of_length
from fidpath.geometry.seat import seat_of
from fidpath.job.job import Job, closes
from fidpath.planning import h2_places, locked
from fidpath.planning.notices import warnings
from fidpath.planning.planner import make_plan, openings_of
from jobs import a_job


def refusal(job: Job) -> CannotBeMade:
    with pytest.raises(CannotBeMade) as refused:
        make_plan(job)
    return refused.value


def found(error: CannotBeMade) -> tuple[Any, ...]:
    return error.what, error.remedy, error.file, error.key


@pytest.mark.parametrize(
    ("changes", "wanted"),
    [
        (
            {"strands": 10},
            (
                "a braid of 10 strands doesn't close on itself over-two",
                "Use a number of strands that is a multiple of 4, or over-one",
                "job.toml",
                "rope.weave",
            ),
        ),
        (
            {"strands": 10, "weave": "over-one"},
            (
                "a straight hole can't part 10 strands evenly: a gap faces a crossing",
                "A straight hole needs a number of strands that is a multiple of 4",
                "job.toml",
                "rope.strands",
            ),
        ),
    ],
)
def test_a_braid_that_cannot_be_parted_is_refused(changes: dict[str, Any], wanted: tuple[Any, ...]) -> None:
    assert found(refusal(replace(a_job(**changes), source="job.toml"))) == wanted
    assert refusal(replace(a_job(**changes), source="")).file is None


@pytest.mark.parametrize(
    ("fids", "name", "planned"),
    [
        ((5.9, 12.0), "fid_opens", (6.0, 12.0)),
        ((8.0, 10.4), "fid_passes", (8.0, 10.5)),
        ((8.0, 15.1), "fid_passes", (8.0, 15.0)),
    ],
)
def test_fids_of_the_wrong_size_are_warned_of_and_the_plan_goes_on_with_one_that_would_do(
    fids: tuple[float, ...], name: str, planned: tuple[float, float]
) -> None:
    job = a_job()
    made = make_plan(replace(job, tools=replace(job.tools, fids_mm=fids)))
    assert (made.openings.first_fid, made.openings.second_fid) == pytest.approx(planned)
    warned = {notice.name: notice.text for notice in warnings(made)}
    assert "tools.fids" in warned[name]
    assert not {"fid_opens", "fid_passes"} & {notice.name for notice in warnings(make_plan(job))}


def test_fids_at_the_very_bounds_will_do_and_the_kindest_are_chosen() -> None:
    job = a_job()
    chosen = openings_of(job.rope, replace(job.tools, fids_mm=(6.0, 9.0, 10.0, 10.5, 15.0)))
    assert (chosen.first_fid, chosen.second_fid) == (10.0, 10.5)
    assert openings_of(job.rope, replace(job.tools, fids_mm=(6.0, 15.0))).second_fid == 15.0
    assert chosen.h1_across == pytest.approx(7.5)
    assert chosen.h2_across == pytest.approx(7.5 * (np.pi + 2) / np.pi)
    assert chosen.most_across == pytest.approx(15.0)


def test_a_terminator_that_fits_nowhere_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(h2_places, "fits", lambda *_given: False)
    job = replace(a_job(), source="job.toml")
    wanted = (
        "the terminator (ring) can't sit in an eye with this throat",
        "Ask for a smaller throat angle or a longer eye",
        "job.toml",
        "terminator",
    )
    assert found(refusal(job)) == wanted
    assert refusal(replace(job, source="")).file is None


def test_a_neck_that_cannot_be_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    job = replace(a_job(), source="job.toml")
    with monkeypatch.context() as patch:
        patch.setattr(locked, "LEAST_NECK", 90.0)
        said = refusal(job)
    assert found(said) == (
        "no whole number of diamonds (11.7 mm each) leaves a neck that closes",
        "Use a shorter pitch or another hole gap",
        "job.toml",
        "rope.pitch",
    )

    def never(*_given: object) -> None:
        raise ArithmeticError

    monkeypatch.setattr(locked, "neck_of_length", never)
    said = refusal(job)
    assert said.what.startswith("the neck between the entry and H2 doesn't close at ") and said.what.endswith(" d")
    assert 0.5 < float(said.what.split()[-2]) < 4.0
    assert found(said)[1:] == ("Use another hole gap or pitch", "job.toml", "practice.hole_gap")
    assert refusal(replace(job, source="")).file is None


@pytest.mark.parametrize("neck", [0.3, 1.1, 2.0, 3.0])
@pytest.mark.parametrize("pitch", [5.0, 7.0, 9.0])
def test_the_neck_is_the_whole_number_of_diamonds_nearest_to_what_is_asked(neck: float, pitch: float) -> None:
    job = a_job(pitch=pitch)
    plan = make_plan(replace(job, practice=replace(job.practice, neck_diameters=neck)))
    diamond, d = 2 * plan.braid.pick, 10.0
    wanted = neck * d + plan.eye.zone.hole_length / 2 + plan.eye.zone.rope
    able = [k for k in range(60) if locked.LEAST_NECK * d <= k * diamond - plan.eye.zone.rope <= locked.MOST_NECK * d]
    assert plan.needed_lock().diamonds_entry_to_h1 == min(able, key=lambda k: abs(k * diamond - wanted))
    assert plan.needed_lock().neck_host == pytest.approx(
        plan.needed_lock().diamonds_entry_to_h1 * diamond - plan.eye.zone.rope
    )


def test_room_for_the_terminator_is_counted_from_its_rim() -> None:
    """Half a rope and what passes must lie between the crossing and the rim; a teardrop's flanks bear, to a degree."""
    pin, drop = (seat_of(a_job(kind=kind).terminator) for kind in ("pin", "teardrop"))
    eye = make_plan(a_job(kind="pin")).eye
    least = pin.crown + (0.5 + h2_places.PASSING_ROOM) * 10.0
    for distance, room in ((least, True), (least - 1e-6, False)):
        assert h2_places.fits(replace(eye, distance=distance, throat=1.0), pin) is room
    for more, room in ((0.9, True), (1.1, False)):
        assert h2_places.fits(replace(eye, distance=1e4, throat=2 * (drop.flank + np.radians(more))), drop) is room
    rim = drop.reach + drop.nose + drop.lip
    for beyond, room in ((8.0, True), (8.0 - 1e-6, False)):
        assert h2_places.fits(replace(eye, distance=rim + beyond, throat=drop.flank), drop) is room


def test_a_throat_within_sixty_degrees_is_chosen_before_less_slack() -> None:
    plan = make_plan(a_job(bearing=3.0, throat=60.0))
    good = [c for c in plan.needed_lock().choices if c.fits and not c.rolled]
    narrow = [c for c in good if c.eye.throat <= np.radians(60)]
    assert narrow and any(c.eye.throat > np.radians(60) for c in good)
    assert min(good, key=lambda c: abs(c.slack)) not in narrow
    assert plan.needed_lock().picks_h1_to_h2 == min(narrow, key=lambda c: abs(c.slack)).picks


def test_what_is_not_asked_for_is_left_to_flanks_or_practice() -> None:
    narrow, wide, ring = a_job(kind="teardrop", throat=10.0), a_job(kind="teardrop", throat=80.0), a_job(throat=40.0)
    lock, flank = make_plan(narrow).needed_lock(), seat_of(narrow.terminator).flank
    throats = [locked.wanted_eye(job, lock.zone, seat_of(job.terminator)).throat for job in (narrow, wide, ring)]
    assert throats == pytest.approx([np.radians(10), 2 * flank, np.radians(40)], abs=1e-6)
    assert lock.eye_wanted == pytest.approx(locked.wanted_eye(narrow, lock.zone, seat_of(narrow.terminator)).loop)


@pytest.mark.parametrize(
    ("strands", "weave", "closed"),
    [*((n, "over-two", n in (4, 8, 12)) for n in range(13)), *((n, "over-one", n in (4, 6, 8)) for n in range(10))],
)
def test_which_braids_close(strands: int, weave: Any, closed: bool) -> None:
    assert closes(strands, weave) is closed


def test_strands_alternate_and_turn_once_in_a_pitch() -> None:
    assert hands(8).tolist() == [1, -1, 1, -1, 1, -1, 1, -1]
    station = np.array([0.0, 17.5, 70.0])
    angle = strand_angles(8, 70.0, station)
    assert angle[:, 0] == pytest.approx(2 * np.pi * np.array([0, 0, 1, 1, 2, 2, 3, 3]) / 4)
    turned = angle - angle[:, :1]
    assert turned[0] == pytest.approx([0, np.pi / 2, 2 * np.pi]) and turned[1] == pytest.approx(
        [0, -np.pi / 2, -2 * np.pi]
    )


@pytest.mark.parametrize("weave", ["over-two", "over-one"])
def test_where_two_strands_cross_one_is_as_far_over_as_the_other_under(weave: Any) -> None:
    braid = braid_of(a_job(strands=8, weave=weave).rope)
    station = np.arange(0, 16) * braid.pick
    angle = strand_angles(8, braid.pitch, station)
    over = lift(8, weave, braid.pitch, station, angle)
    assert over.shape == (8, 16)
    met = 0
    for k, other in ((k, m) for k in range(0, 8, 2) for m in range(1, 8, 2)):
        gap = np.abs(np.angle(np.exp(1j * (angle[k] - angle[other])))) < 1e-9
        assert over[k][gap] == pytest.approx(-over[other][gap])
        assert np.abs(over[k][gap]) == pytest.approx(1.0)
        met += gap.sum()
    assert met == 8 * 8 // 2 * 16 // 8


def test_offsets_take_the_radius_and_undulation_they_are_given() -> None:
    braid = braid_of(a_job().rope)
    station = np.linspace(0, braid.pitch, 9)
    own, angle = strand_offsets(braid, station)
    over = lift(12, "over-two", braid.pitch, station, angle)
    assert own == pytest.approx(braid.radius + braid.undulation * over)
    wide, same = strand_offsets(braid, station, 2.0 * braid.radius, np.full(9, 0.5 * braid.undulation))
    assert same == pytest.approx(angle)
    assert wide == pytest.approx(2.0 * braid.radius + 0.5 * braid.undulation * over)


def test_a_neck_without_rope_closes_nowhere() -> None:
    with pytest.raises(ArithmeticError):
        neck_of_length(make_plan(a_job()).eye.zone, 10.0, 0.0)


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
