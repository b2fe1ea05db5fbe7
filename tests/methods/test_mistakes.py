"""From what is seen at the bench to the likely mistake and the way back."""

from __future__ import annotations

import io
import json
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fidpath.cli import main as cli
from fidpath.cli import mistake_command as cli_mistake
from fidpath.errors import Exit
from fidpath.job.reader import read_job
from fidpath.methods.method_file import method
from fidpath.methods.mistake_sheet import as_text
from fidpath.methods.mistakes import LOCKED, Likely, likely, look_next
from fidpath.methods.placeholders import length_shown
from fidpath.methods.sightings import BY_KEY, QUESTIONS, SightingError, Sightings, check, sightings_of
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.states.kinds import state_of
from jobs import a_job

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "scenes" / "demo.toml"
SCENES = sorted((ROOT / "scenes").glob("*.toml"))


def demo() -> Plan:
    return make_plan(read_job(DEMO))


def off(plan: Plan, picks: float) -> float:
    """What is said of an eye that is so many picks from the plan's."""
    return plan.needed_lock().eye_slack / plan.pick + picks


def own_signs(plan: Plan) -> dict[str, Sightings]:
    """For each mistake what gives it away."""
    half, lost = plan.braid.strands // 2, plan.needed_lock().eye_lost / plan.pick
    practice = plan.job.practice
    return {
        "mark-on-strand": Sightings(mark_on_strand=True, slack_picks=off(plan, 1)),
        "split-5-7": Sightings(split_h1=(half - 1, half + 1)),
        "tail-other-face": Sightings(turns=2, hand="right", standing_part="dot"),
        "bight-other-face": Sightings(turns=2, hand="left", standing_part="other"),
        "both-other-face": Sightings(turns=0, standing_part="other"),
        "no-tail-pass": Sightings(turns=1, hand="right"),
        "holes-too-far": Sightings(daylight=True, gap_diameters=practice.hole_gap_diameters + 2.5),
        "no-lock-allowance": Sightings(wont_go_in=True, slack_picks=off(plan, -lost)),
        "eye-overstretched": Sightings(slack_picks=off(plan, -2)),
        "eye-loose": Sightings(slack_picks=off(plan, 6)),
        "bury-too-short": Sightings(bury_diameters=0.35 * practice.bury_diameters),
        "no-taper": Sightings(cover_step=True),
    }


def names(found: list[Likely]) -> list[str]:
    return [one.name for one in found]


@pytest.mark.parametrize("scene", SCENES, ids=lambda path: path.stem)
def test_every_mistake_is_found_by_its_own_signs(scene: Path) -> None:
    plan = make_plan(read_job(scene))
    signs = own_signs(plan)
    assert sorted(signs) == sorted(way.name for way in method("locked-captive").wrong_ways)
    for name, seen in signs.items():
        found = likely(seen, plan)
        assert found[0].name == name, (name, names(found))
        assert found[0].why and found[0].way_back
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
    made = {one.mistakes: (one.turns, -1 if one.face == "dot" else 1) for one in LOCKED}
    assert {mistakes: made[mistakes] for mistakes in table} == table


@pytest.mark.parametrize("name", ["tail-other-face", "bight-other-face", "both-other-face", "no-tail-pass"], ids=str)
def test_the_modelled_state_shows_what_leads_to_its_name(name: str) -> None:
    state = state_of(demo(), name)
    turns = state.opening("H2").turns[0]
    face = next(one.face for one in state.passes if one.hole == "H2")
    seen = Sightings(
        turns=abs(turns),
        hand=None if turns == 0 else "right" if turns > 0 else "left",
        standing_part="dot" if face == "left" else "other",
    )
    assert names(likely(seen, demo())) == [name]


def test_the_right_way_points_to_nothing() -> None:
    plan = demo()
    right = Sightings(
        turns=0,
        standing_part="dot",
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
    assert likely(right, plan) == []
    assert look_next(right) == ()
    assert "Nothing of this points to a usual mistake" in as_text(right, [], plan.job.name)


def test_inside_out_with_one_left_handed_turn_is_right_until_the_bight_goes_in() -> None:
    plan = demo()
    assert likely(Sightings(at_step=8, turns=1, hand="left"), plan) == []
    assert names(likely(Sightings(at_step=8, turns=1, hand="right"), plan)) == ["tail-other-face"]
    assert names(likely(Sightings(at_step=9, turns=0), plan)) == ["no-tail-pass"]
    assert names(likely(Sightings(at_step=11, turns=1), plan))[0] == "no-tail-pass"


def test_what_turns_alone_leave_open_is_asked() -> None:
    seen = Sightings(turns=2)
    found = likely(seen, demo())
    assert set(names(found)) == {"tail-other-face", "bight-other-face"}
    assert found[0].weight == found[1].weight
    assert any("--hand" in text for text in look_next(seen))
    assert any("--standing-part" in text for text in look_next(Sightings(turns=0)))
    assert look_next(Sightings(turns=2, hand="left")) == ()


def test_two_mistakes_at_once() -> None:
    found = likely(Sightings(turns=1, hand="left", standing_part="other"), demo())
    assert set(names(found)) == {"no-tail-pass", "bight-other-face"}
    found = likely(Sightings(split_h2=(4, 8), cover_step=True), demo())
    assert set(names(found)) == {"split-5-7", "no-taper"}
    assert "At H2 2 strands on the wrong side." in found[0].how_far_off


def test_more_signs_weigh_more() -> None:
    plan = demo()
    alone = likely(Sightings(mark_on_strand=True), plan)[0]
    both = likely(Sightings(mark_on_strand=True, slack_picks=off(plan, -1)), plan)
    assert both[0].name == "mark-on-strand" and both[0].weight > alone.weight
    assert names(both)[1:] == ["eye-overstretched"]


def test_how_far_off_is_in_the_jobs_own_figures() -> None:
    plan = demo()
    tight = likely(sightings_of({"tight": "32 mm"}, plan), plan)
    assert tight[0].name == "no-lock-allowance"
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
    assert likely(Sightings(bury_diameters=80.0, slack_picks=off(plan, 0.4)), plan) == []
    assert likely(Sightings(gap_diameters=1.3), plan) == []


def test_a_job_that_drops_no_strands_is_told_so() -> None:
    found = likely(Sightings(cover_step=True), make_plan(a_job(drops=0)))
    assert "own practice drops no strands" in found[0].how_far_off
    assert "own practice" not in likely(Sightings(cover_step=True), make_plan(a_job()))[0].how_far_off


REFUSED = [
    ({"turns": "3"}, "3 turns can't be"),
    ({"turns": "two"}, "is not a whole number"),
    ({"hand": "left"}, "no turns were counted"),
    ({"turns": "0", "hand": "left"}, "no turns were counted"),
    ({"turns": "2", "hand": "right", "standing-part": "other"}, "can't both be"),
    ({"turns": "1", "hand": "left", "standing-part": "dot"}, "can't both be"),
    ({"hand": "up"}, "Write left or right"),
    ({"loose": "1 pick", "tight": "1 pick"}, "can't be loose and tight at once"),
    ({"split-h1": "5/6"}, "this rope has 12"),
    ({"split-h1": "0/12"}, "there is no hole"),
    ({"split-h1": "twelve"}, "not a count of both sides"),
    ({"wont-go-in": "yes", "loose": "2 picks"}, "the eye isn't tight"),
    ({"daylight": "yes", "gap": "0 mm"}, "yet no rope between the holes"),
    ({"daylight": "maybe"}, "neither yes nor no"),
    ({"gap": "12"}, "has no unit"),
    ({"gap": "-3 mm"}, "can't be"),
    ({"gap": "9 km"}, "no unit known here"),
    ({"bury": "3 m"}, "longer than the whole tail"),
    ({"tight": "60 picks"}, "no rope in it"),
    ({"at-step": "15"}, "there is no step 15"),
    ({"at-step": "6", "turns": "1"}, "before step 8"),
    ({"at-step": "8", "turns": "2"}, "one turn at most"),
    ({"at-step": "10", "turns": "1"}, "on their way out"),
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
    assert likely(Sightings(at_step=6, daylight=False, cover_step=False, mark_on_strand=False), demo()) == []
    with pytest.raises(SightingError, match="not drawn up before step 11"):
        check(Sightings(at_step=6, slack_picks=0.0), demo())


def test_without_a_job_lengths_have_nothing_to_be_held_against() -> None:
    for said in ({"gap": "12 mm"}, {"tight": "12 mm"}):
        with pytest.raises(SightingError, match=r"without a job.*or name the job file"):
            sightings_of(said, None)
    assert sightings_of({"gap": "3 d", "tight": "2 picks"}, None) == Sightings(gap_diameters=3.0, slack_picks=-2.0)


def test_strands_that_dont_add_up_without_a_job() -> None:
    with pytest.raises(SightingError, match="11 strands"):
        check(Sightings(split_h1=(5, 6)), None)
    with pytest.raises(SightingError, match="different sums"):
        check(Sightings(split_h1=(4, 4), split_h2=(6, 6)), None)


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
        seen = sightings_of(said, plan)
        found = likely(seen, plan)
    except SightingError as refused:
        assert refused.what and refused.remedy
        return
    assert [one.weight for one in found] == sorted((one.weight for one in found), reverse=True)
    assert all(one.weight > 0 and one.why for one in found)
    assert as_text(seen, found, "job" if with_job else None).endswith("\n")


PLAN = make_plan(a_job())


@pytest.fixture(autouse=True)
def registered(monkeypatch: pytest.MonkeyPatch) -> None:
    """The command stands in the command line, once."""
    others = [known for known in cli.app.registered_commands if known.callback is not cli_mistake.mistake]
    monkeypatch.setattr(cli.app, "registered_commands", others)
    cli_mistake.register(cli.app)


def run(capsys: pytest.CaptureFixture[str], *args: str | Path) -> tuple[int, str, str]:
    code = cli.main(["mistake", *(str(arg) for arg in args)])
    out, err = capsys.readouterr()
    return code, out, err


class Terminal(io.StringIO):
    """Someone at a terminal who types these lines."""

    def isatty(self) -> bool:
        return True


def test_the_answer_at_the_bench(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, DEMO, "--turns", "2", "--hand", "left")
    assert (code, err) == (0, "")
    assert out.startswith("1. THE BIGHT WENT IN AT THE OTHER FACE OF H2 (made at step 9)\n")
    assert "exports/workboat stay/wrong/bight-other-face.png" in out
    assert "carries no load" in out and "qualified rigger" in out
    assert max(len(line) for line in out.splitlines()) <= 120


def test_the_answer_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, DEMO, "--split-h1", "5/7", "--loose", "3 picks", "--json")
    data = json.loads(out)
    assert code == 0
    assert data["sightings"] == {"split_h1": [5, 7], "slack_picks": 3.0}
    assert [one["name"] for one in data["likely"]] == ["split-5-7", "eye-loose"]
    assert data["likely"][0]["picture"] == "exports/workboat stay/wrong/split-5-7.png"
    assert data["cautions"]


def test_without_a_job_no_picture_and_no_figures(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "--daylight")
    assert code == 0
    assert "THE HOLES ARE TOO FAR APART" in out and "[hole gap]" in out and "name its file" in out
    assert ".png" not in out


def test_where_nobody_can_be_asked_the_options_are_named(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO("2\n"))
    code, out, err = run(capsys, DEMO)
    assert (code, out) == (Exit.USAGE, "")
    assert all(f"--{question.key}" in err for question in QUESTIONS)


def test_a_refusal_is_one_line_with_its_option(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "--gap", "12 mm")
    assert (code, out) == (Exit.USAGE, "")
    assert err.startswith("--gap: ") and err.count("\n") == 1


def test_a_job_that_isnt_there(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    code, _, err = run(capsys, tmp_path / "none.toml", "--turns", "1")
    assert code == Exit.JOB and "there is no such file" in err


def test_at_a_terminal_each_question_is_asked_until_it_can_be_read(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    typed = {"turns": ["many", "2"], "hand": ["right"]}
    lines = [line for question in QUESTIONS for line in typed.get(question.key, [""])]
    monkeypatch.setattr(sys, "stdin", Terminal("\n".join(lines) + "\n"))
    code, out, err = run(capsys, DEMO)
    assert code == 0
    assert out.startswith("1. THE TAIL'S END WENT IN AT THE OTHER FACE OF H2")
    assert "'many' is not a whole number" in err
    assert BY_KEY["turns"].ask in err and BY_KEY["turns"].ask not in out


def test_what_cant_follow_isnt_asked(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    asked = [question for question in QUESTIONS if question.key not in ("hand", "tight")]
    lines = ["2 picks" if question.key == "loose" else "" for question in asked]
    monkeypatch.setattr(sys, "stdin", Terminal("\n".join(lines) + "\n"))
    code, out, err = run(capsys, DEMO)
    assert code == 0 and "THE EYE IS TOO LOOSE" in out
    assert BY_KEY["hand"].ask not in err and BY_KEY["tight"].ask not in err


def test_answering_nothing_is_said_so(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", Terminal("\n" * 40))
    code, out, err = run(capsys)
    assert (code, out) == (Exit.USAGE, "")
    assert "nothing was looked at" in err


def test_a_face_is_taken_by_the_pictures_words_too() -> None:
    for said, face in (("dotted", "dot"), ("Plain", "other"), ("other", "other")):
        assert sightings_of({"standing-part": said}, None).standing_part == face


def test_a_face_is_answered_by_the_pictures_words() -> None:
    said = as_text(*answered({"standing-part": "plain"}, make_plan(a_job())), None)
    assert "the standing part goes into H2 at the plain face" in said


def answered(said: dict[str, str], plan: Plan) -> tuple[Sightings, tuple[Likely, ...]]:
    """What is seen, and what it points to."""
    seen = sightings_of(said, plan)
    return seen, likely(seen, plan)


def test_what_the_plan_leaves_loose_is_said() -> None:
    plan = next(p for p in (make_plan(a_job(bearing=b)) for b in np.linspace(3, 6, 13)) if p.eye_slack > p.pick / 2)
    said = as_text(*answered({"loose": "5 picks"}, plan), plan.job.name)
    assert (
        f"The plan itself leaves it {length_shown(plan.needed_lock().eye_slack, plan)} looser than exact."
        in " ".join(said.split())
    )
