"""The usual mistakes of a plain eye and of a lock with both ends free: each told by its own signs at the bench."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from fidpath.errors import Exit
from fidpath.job.reader import read_job
from fidpath.methods.diagnosis import diagnose, diagnostics_of
from fidpath.methods.diagnosis_questions import SightingError
from fidpath.methods.registry import method_names, method_of
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.states.kinds import KINDS, made

SCENES = Path(__file__).parents[2] / "scenes"

SAID: dict[str, dict[str, dict[str, str]]] = {
    "plain": {
        "mark-on-strand": {"mark-on-strand": "yes"},
        "plain-split-5-7": {"split-entry": "5/7"},
        "plain-eye-loose": {"loose": "6 picks"},
        "plain-eye-tight": {"wont-go-in": "yes", "tight": "2 picks"},
        "bury-too-short": {"bury": "25 d"},
        "no-taper": {"cover-step": "yes"},
    },
    "locked-free": {
        "mark-on-strand": {"mark-on-strand": "yes"},
        "split-5-7": {"split-h2": "5/7"},
        "end-other-face": {"standing-part": "other"},
        "holes-too-far": {"daylight": "yes", "gap": "4 d"},
        "no-lock-allowance": {"wont-go-in": "yes", "tight": "29.3 mm"},
        "eye-overstretched": {"tight": "3 picks"},
        "eye-loose": {"loose": "6 picks"},
        "bury-too-short": {"bury": "25 d"},
        "no-taper": {"cover-step": "yes"},
    },
}
"""What is said at the bench of each mistake."""


@cache
def plan_of(splice: str) -> Plan:
    return make_plan(read_job(SCENES / {"plain": "plain-eye.toml", "locked-free": "both-ends-free.toml"}[splice]))


def likely(splice: str, said: dict[str, str], plan: Plan | None) -> list[str]:
    method = method_of(splice)
    seen: Any = diagnostics_of(method).read(method, said, plan)
    return [one.mistake.name for one in diagnose(method, seen, plan).likely]


def test_every_method_has_mistakes_and_tells_them() -> None:
    assert {splice: [one.name for one in method_of(splice).mistakes] for splice in SAID} == {
        splice: list(said) for splice, said in SAID.items()
    }
    for splice in method_names():
        method = method_of(splice)
        assert diagnostics_of(method).questions(method)
        assert all(KINDS[one.name].mistake for one in method.mistakes)


@pytest.mark.parametrize(("splice", "name"), [(splice, name) for splice, said in SAID.items() for name in said])
def test_a_mistake_is_the_likeliest_by_its_own_signs(splice: str, name: str) -> None:
    assert likely(splice, SAID[splice][name], plan_of(splice))[0] == name


@pytest.mark.parametrize("splice", list(SAID))
def test_what_is_as_planned_points_to_no_mistake(splice: str) -> None:
    plan = plan_of(splice)
    slack = plan.lock.eye_slack if plan.lock else 0.0
    right = {"tight" if slack < 0 else "loose": f"{abs(slack):.6f} mm", "bury": "72 d", "cover-step": "no"}
    assert likely(splice, right, plan) == []
    assert likely(splice, {"mark-on-strand": "no"}, None) == []


def test_a_plain_eye_is_not_asked_for_holes() -> None:
    with pytest.raises(SightingError, match=r"--turns doesn't apply") as refused:
        likely("plain", {"turns": "1"}, plan_of("plain"))
    assert "--split-entry" in refused.value.remedy
    assert refused.value.code == Exit.USAGE


@pytest.mark.parametrize(
    ("splice", "said", "why"),
    [
        ("plain", {"at-step": "2", "split-entry": "6/6"}, "E is not opened before step 3"),
        ("plain", {"at-step": "3", "bury": "72 d"}, "the tail is not cut before step 4"),
        ("plain", {"split-entry": "5/6"}, "11 strands were counted"),
        ("plain", {"tight": "400 picks"}, "no rope in it"),
        ("plain", {"loose": "1 pick", "wont-go-in": "yes"}, "isn't tight"),
        ("locked-free", {"at-step": "4", "standing-part": "dot"}, "the standing part is not in H2 before step 5"),
        ("locked-free", {"split-h1": "6/6", "split-h2": "4/4"}, "8 strands were counted"),
        ("locked-free", {"daylight": "yes", "gap": "0 mm"}, "no rope between the holes"),
    ],
)
def test_what_cannot_be_seen_is_refused(splice: str, said: dict[str, str], why: str) -> None:
    with pytest.raises(SightingError, match=why):
        likely(splice, said, plan_of(splice))


def test_the_loose_eye_is_made_to_a_longer_eye_and_nothing_else() -> None:
    plan = plan_of("plain")
    loose, _ = made(plan, "plain-eye-loose")
    tight, _ = made(plan, "plain-eye-tight")
    assert loose.eye_length - plan.eye_length == pytest.approx(6 * plan.pick)
    assert plan.eye_length - tight.eye_length == pytest.approx(2 * plan.pick)
    assert loose.throat_angle < plan.throat_angle < tight.throat_angle
    assert loose.bury_length == plan.bury_length and replace(loose, eye=plan.eye) == plan
