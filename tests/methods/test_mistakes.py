"""From what is seen at the bench to the likely mistake and the way back."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fidpath.errors import Exit
from fidpath.job.reader import read_job
from fidpath.methods.diagnosis import Answer, Diagnosis, diagnose
from fidpath.methods.diagnosis_questions import SightingError
from fidpath.methods.diagnosis_sheet import as_text
from fidpath.methods.lock_placeholders import printed_slack
from fidpath.methods.lock_sightings import Face
from fidpath.methods.locked_captive import hints, sightings
from fidpath.methods.locked_captive.hints import LOCKED
from fidpath.methods.locked_captive.sightings import CaptiveSightings, Hand
from fidpath.methods.registry import method_of
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.planning.shown import shown_mm
from fidpath.states.kinds import state_of
from jobs import a_job

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "scenes" / "demo.toml"
SCENES = [
    path for path in sorted((ROOT / "scenes").glob("*.toml")) if 'splice = "plain"' not in path.read_text("utf-8")
]
LOCK = method_of("locked-captive")
QUESTIONS = sightings.INSPECTION.questions(LOCK)
BY_KEY = {question.key: question for question in QUESTIONS}


def sightings_of(said: dict[str, str], plan: Plan | None) -> CaptiveSightings:
    return sightings.INSPECTION.read(LOCK, said, plan)


def likely(seen: CaptiveSightings, plan: Plan | None = None) -> tuple[Diagnosis, ...]:
    return diagnose(LOCK, seen, plan).likely


def look_next(seen: CaptiveSightings) -> tuple[str, ...]:
    return hints.look_next(LOCK, seen)


def after(step: int) -> str:
    """The state that a step leaves."""
    state = LOCK.last_state(step)
    assert state is not None
    return state


def demo() -> Plan:
    return make_plan(read_job(DEMO))


def off(plan: Plan, picks: float) -> float:
    """What is said of an eye that is so many picks from the plan's."""
    return plan.needed_lock().eye_slack / plan.pick + picks


def own_signs(plan: Plan) -> dict[str, CaptiveSightings]:
    """For each mistake what gives it away."""
    half, lost = plan.braid.strands // 2, plan.needed_lock().eye_lost / plan.pick
    practice = plan.job.practice
    return {
        "mark-on-strand": CaptiveSightings(mark_on_strand=True, slack_picks=off(plan, 1)),
        "split-5-7": CaptiveSightings(split_h1=(half - 1, half + 1)),
        "tail-other-face": CaptiveSightings(turns=2, hand=Hand.RIGHT, standing_part=Face.DOTTED),
        "bight-other-face": CaptiveSightings(turns=2, hand=Hand.LEFT, standing_part=Face.PLAIN),
        "both-other-face": CaptiveSightings(turns=0, standing_part=Face.PLAIN),
        "no-tail-pass": CaptiveSightings(turns=1, hand=Hand.RIGHT),
        "holes-too-far": CaptiveSightings(daylight=True, gap_diameters=practice.hole_gap_diameters + 2.5),
        "no-lock-allowance": CaptiveSightings(wont_go_in=True, slack_picks=off(plan, -lost)),
        "eye-overstretched": CaptiveSightings(slack_picks=off(plan, -2)),
        "eye-loose": CaptiveSightings(slack_picks=off(plan, 6)),
        "bury-too-short": CaptiveSightings(bury_diameters=0.35 * practice.bury_diameters),
        "no-taper": CaptiveSightings(cover_step=True),
    }


def names(found: tuple[Diagnosis, ...]) -> list[str]:
    return [one.mistake.name for one in found]


@pytest.mark.parametrize("scene", SCENES, ids=lambda path: path.stem)
def test_every_mistake_is_found_by_its_own_signs(scene: Path) -> None:
    plan = make_plan(read_job(scene))
    signs = own_signs(plan)
    assert sorted(signs) == sorted(mistake.name for mistake in LOCK.mistakes)
    for name, seen in signs.items():
        found = likely(seen, plan)
        assert found[0].mistake.name == name, (name, names(found))
        assert found[0].why and found[0].mistake.remedy
        assert len(found) == 1 or found[0].weight > found[1].weight


def test_without_a_job_most_are_found_too() -> None:
    for name, seen in own_signs(demo()).items():
        found = names(likely(replace(seen, slack_picks=None) if name == "no-lock-allowance" else seen))
        assert found[0] == name, (name, found)


def test_turns_and_faces_are_those_of_the_table_of_invariants() -> None:
    """I_2, and s_2 as a face, of each way of making the lock, in the design's table of turns and linking."""
    table = {
        (): (0, -1),
        ("tail-other-face",): (2, -1),
        ("bight-other-face",): (-2, 1),
        ("both-other-face",): (0, 1),
        ("no-tail-pass",): (1, -1),
    }
    made = {one.mistakes: (one.turns, -1 if one.face is Face.DOTTED else 1) for one in LOCKED}
    assert {mistakes: made[mistakes] for mistakes in table} == table


@pytest.mark.parametrize("name", ["tail-other-face", "bight-other-face", "both-other-face", "no-tail-pass"], ids=str)
def test_the_modelled_state_shows_what_leads_to_its_name(name: str) -> None:
    state = state_of(demo(), name)
    turns = state.opening("H2").turns[0]
    face = next(one.face for one in state.passes if one.hole == "H2")
    seen = CaptiveSightings(
        turns=abs(turns),
        hand=None if turns == 0 else Hand.RIGHT if turns > 0 else Hand.LEFT,
        standing_part=Face.DOTTED if face == "left" else Face.PLAIN,
    )
    assert names(likely(seen, demo())) == [name]


def test_the_right_way_points_to_nothing() -> None:
    plan = demo()
    right = CaptiveSightings(
        turns=0,
        standing_part=Face.DOTTED,
        split_h1=(6, 6),
        split_h2=(6, 6),
        mark_on_strand=False,
        daylight=False,
        gap_diameters=1.0,
        slack_picks=off(plan, 0),
        wont_go_in=False,
        bury_diameters=72.0,
        cover_step=False,
    )
    assert likely(right, plan) == ()
    assert look_next(right) == ()
    assert "None of this points to a usual mistake" in as_text(diagnose(LOCK, right, plan), plan.job.name)


def test_inside_out_with_one_left_handed_turn_is_right_until_the_bight_goes_in() -> None:
    plan = demo()
    assert likely(CaptiveSightings(done=after(8), turns=1, hand=Hand.LEFT), plan) == ()
    assert names(likely(CaptiveSightings(done=after(8), turns=1, hand=Hand.RIGHT), plan)) == ["tail-other-face"]
    assert names(likely(CaptiveSightings(done=after(9), turns=0), plan)) == ["no-tail-pass"]
    assert names(likely(CaptiveSightings(done=after(11), turns=1), plan))[0] == "no-tail-pass"


def test_what_turns_alone_leave_open_is_asked() -> None:
    seen = CaptiveSightings(turns=2)
    found = likely(seen, demo())
    assert set(names(found)) == {"tail-other-face", "bight-other-face"}
    assert found[0].weight == found[1].weight
    assert any("--hand" in text for text in look_next(seen))
    assert any("--standing-part" in text for text in look_next(CaptiveSightings(turns=0)))
    assert look_next(CaptiveSightings(turns=2, hand=Hand.LEFT)) == ()


def test_two_mistakes_at_once() -> None:
    found = likely(CaptiveSightings(turns=1, hand=Hand.LEFT, standing_part=Face.PLAIN), demo())
    assert set(names(found)) == {"no-tail-pass", "bight-other-face"}
    found = likely(CaptiveSightings(split_h2=(4, 8), cover_step=True), demo())
    assert set(names(found)) == {"split-5-7", "no-taper"}
    assert "2 strands are on the wrong side at H2." in found[0].how_far_off


def test_more_signs_weigh_more() -> None:
    plan = demo()
    alone = likely(CaptiveSightings(mark_on_strand=True), plan)[0]
    both = likely(CaptiveSightings(mark_on_strand=True, slack_picks=off(plan, -1)), plan)
    assert both[0].mistake.name == "mark-on-strand" and both[0].weight > alone.weight
    assert names(both)[1:] == ["eye-overstretched"]


def test_how_far_off_is_in_the_jobs_own_figures() -> None:
    plan = demo()
    tight = likely(sightings_of({"tight": "32 mm"}, plan), plan)
    assert tight[0].mistake.name == "no-lock-allowance"
    rope = 32 + plan.needed_lock().eye_slack
    stretch = rope / (plan.eye_length - rope)
    assert f"{rope:.1f} mm too tight" in tight[0].how_far_off
    assert f"takes {stretch:.1%}; the limit is {plan.job.practice.post_stretch_share:.1%}" in tight[0].how_far_off
    short = likely(sightings_of({"bury": "40 d"}, plan), plan)[0]
    assert "320 mm too short" in short.how_far_off and "720 mm" in short.how_far_off
    apart = likely(sightings_of({"gap": "31 mm"}, plan), plan)[0]
    assert "21 mm too far apart" in apart.how_far_off


def test_a_longer_bury_and_a_pick_as_planned_are_no_mistakes() -> None:
    plan = demo()
    assert likely(CaptiveSightings(bury_diameters=80.0, slack_picks=off(plan, 0.4)), plan) == ()
    assert likely(CaptiveSightings(gap_diameters=1.3), plan) == ()


def test_a_job_that_drops_no_strands_is_told_so() -> None:
    found = likely(CaptiveSightings(cover_step=True), make_plan(a_job(drops=0)))
    assert "own practice drops no strands" in found[0].how_far_off
    assert "own practice" not in likely(CaptiveSightings(cover_step=True), make_plan(a_job()))[0].how_far_off


REFUSED = [
    ({"turns": "3"}, "3 turns can't be"),
    ({"turns": "two"}, "is not a whole number"),
    ({"hand": "left"}, "no turns were counted"),
    ({"turns": "0", "hand": "left"}, "no turns were counted"),
    ({"turns": "2", "hand": "right", "standing-part": "other"}, "can't both be"),
    ({"turns": "1", "hand": "left", "standing-part": "dot"}, "can't both be"),
    ({"hand": "up"}, "Write left or right"),
    ({"loose": "1 pick", "tight": "1 pick"}, "can't be both loose and tight"),
    ({"split-h1": "5/6"}, "this rope has 12"),
    ({"split-h1": "0/12"}, "there is no hole"),
    ({"split-h1": "twelve"}, "not a count of both sides"),
    ({"wont-go-in": "yes", "loose": "2 picks"}, "the eye isn't tight"),
    ({"daylight": "yes", "gap": "0 mm"}, "but no rope between the holes"),
    ({"daylight": "maybe"}, "neither yes nor no"),
    ({"gap": "12"}, "has no unit"),
    ({"gap": "-3 mm"}, "can't be"),
    ({"gap": "9 km"}, "not a known unit"),
    ({"bury": "3 m"}, "longer than the whole tail"),
    ({"tight": "60 picks"}, "no rope in it"),
    ({"at-step": "15"}, "there is no step 15"),
    ({"at-step": "6", "turns": "1"}, "before step 8"),
    ({"at-step": "8", "turns": "2"}, "one turn at most"),
    ({"at-step": "10", "turns": "1"}, "just coming out"),
    ({"at-step": "4", "split-h2": "6/6"}, "H2 is not opened before step 6"),
    ({"at-step": "9", "tight": "1 pick"}, "not drawn up before step 11"),
    ({"at-step": "12", "cover-step": "yes"}, "not buried before step 14"),
]


@pytest.mark.parametrize(("said", "why"), REFUSED, ids=lambda each: str(each)[:50])
def test_what_cant_be_or_contradicts_itself_is_refused_in_words(said: dict[str, str], why: str) -> None:
    with pytest.raises(SightingError) as refused:
        sightings_of(said, demo())
    assert why in str(refused.value)
    assert refused.value.remedy and refused.value.code == Exit.USAGE


def test_what_isnt_there_yet_may_be_said_not_to_be_seen() -> None:
    assert likely(CaptiveSightings(done=after(6), daylight=False, cover_step=False, mark_on_strand=False), demo()) == ()
    with pytest.raises(SightingError, match="not drawn up before step 11"):
        sightings.INSPECTION.check(LOCK, CaptiveSightings(done=after(6), slack_picks=0.0), demo())


def test_without_a_job_lengths_have_nothing_to_be_held_against() -> None:
    for said in ({"gap": "12 mm"}, {"tight": "12 mm"}):
        with pytest.raises(SightingError, match=r"without a job.*or name the job file"):
            sightings_of(said, None)
    assert sightings_of({"gap": "3 d", "tight": "2 picks"}, None) == CaptiveSightings(
        gap_diameters=3.0, slack_picks=-2.0
    )


def test_strands_that_dont_add_up_without_a_job() -> None:
    with pytest.raises(SightingError, match="11 strands"):
        sightings.INSPECTION.check(LOCK, CaptiveSightings(split_h1=(5, 6)), None)
    with pytest.raises(SightingError, match="counts at H1 and H2 differ"):
        sightings.INSPECTION.check(LOCK, CaptiveSightings(split_h1=(4, 4), split_h2=(6, 6)), None)


def test_lengths_are_read_in_the_users_units() -> None:
    plan = make_plan(read_job(ROOT / "scenes" / "inches.toml"))
    seen = sightings_of({"gap": "5/8 in"}, plan)
    assert seen.gap_diameters == pytest.approx(2.0)
    assert sightings_of({"loose": "1/2 in"}, plan).slack_picks == pytest.approx(12.7 / plan.pick)


WORDS = st.sampled_from(["0", "1", "2", "6/6", "5/7", "left", "right", "dot", "other", "yes", "no", "3 picks", "12 mm",
                         "1.5 d", "-1 mm", "", "  ", "nan", "1e9 mm", "½ in", "9/0 in", "é"])  # fmt: skip
SAID = st.dictionaries(st.sampled_from([question.key for question in QUESTIONS]), WORDS | st.text(max_size=6))


@given(SAID, st.booleans())
def test_anything_said_gives_an_answer_or_a_refusal(said: dict[str, str], with_job: bool) -> None:
    plan = PLAN if with_job else None
    try:
        answer = diagnose(LOCK, sightings_of(said, plan), plan)
    except SightingError as refused:
        assert refused.what and refused.remedy
        return
    weights = [one.weight for one in answer.likely]
    assert weights == sorted(weights, reverse=True)
    assert all(one.weight > 0 and one.why for one in answer.likely)
    assert as_text(answer, "job" if with_job else None).endswith("\n")


PLAN = make_plan(a_job())


def test_a_face_is_taken_by_the_pictures_words_too() -> None:
    for said, face in (("dotted", Face.DOTTED), ("Plain", Face.PLAIN), ("other", Face.PLAIN)):
        assert sightings_of({"standing-part": said}, None).standing_part is face


def test_a_face_is_answered_by_the_pictures_words() -> None:
    said = as_text(answered({"standing-part": "plain"}, make_plan(a_job())), None)
    assert "the standing part goes into H2 at the plain face" in said


def answered(said: dict[str, str], plan: Plan) -> Answer:
    """What is seen, and what it points to."""
    return diagnose(LOCK, sightings_of(said, plan), plan)


def test_what_the_plan_leaves_loose_is_said() -> None:
    plan = next(
        p
        for p in (make_plan(a_job(bearing=b)) for b in np.linspace(3, 6, 13))
        if p.needed_lock().eye_slack > p.pick / 2
    )
    said = as_text(answered({"loose": "5 picks"}, plan), plan.job.name)
    assert f"The plan itself leaves it {shown_mm(printed_slack(plan), plan)} looser than exact." in " ".join(
        said.split()
    )
