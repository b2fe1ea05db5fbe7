"""Words of left-handed work: every side and hand is the other one, and nothing else changes."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from fidpath.job.reader import read_job
from fidpath.methods.card import card_lines
from fidpath.methods.diagnosis import diagnose, diagnostics_of
from fidpath.methods.diagnosis_questions import SightingError
from fidpath.methods.method import Method
from fidpath.methods.registry import method_of
from fidpath.methods.wording import worded_method
from fidpath.planning.figure import figures
from fidpath.planning.length_figures import lengths
from fidpath.planning.mark_figures import marks
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan

SCENES = Path(__file__).parents[2] / "scenes"
JOBS = ("demo", "both-ends-free", "plain-eye")
OTHER = {"left": "right", "right": "left"}
NO_SIDE = re.compile(
    r"right side out|rope left out|^right: |right (?:place|way|one)|A left-handed turn slopes|a right-handed one like"
    r"|(?:no|No|Turns|turns|are|is|stays|Strands) (?:turns )?left\b|left (?:at|in|over)\b"
)
"""Where these words name no side."""


def planned(name: str, hand: str) -> Plan:
    job = read_job(SCENES / f"{name}.toml")
    return make_plan(replace(job, practice=replace(job.practice, hand=hand)))


def words_of(method: Method, plan: Plan) -> list[str]:
    said = worded_method(method, plan)
    steps = [t for s in said.steps for t in (s.caption, *s.instructions, s.check, s.caution, *(v.say for v in s.views))]
    wrong = [t for m in said.mistakes for t in (m.title, *m.signs, *m.remedy, m.how_far_off)]
    return [*steps, *wrong, *card_lines(method, plan)]


def swapped(text: str) -> str:
    kept = NO_SIDE.sub(lambda found: found[0].replace("left", "LEFT").replace("right", "RIGHT"), text)
    kept = re.sub(r"\b(left|right)\b", lambda found: OTHER[found[0]], kept)
    return kept.replace("LEFT", "left").replace("RIGHT", "right")


@pytest.mark.parametrize("name", JOBS)
def test_every_side_and_hand_is_the_other_one(name: str) -> None:
    right, left = planned(name, "right"), planned(name, "left")
    method = method_of(right.job.line.ends[0].splice)
    usual, mirrored = words_of(method, right), words_of(method, left)
    assert [swapped(text) for text in usual] == mirrored
    assert usual != mirrored


@pytest.mark.parametrize("name", JOBS)
def test_the_figures_stay(name: str) -> None:
    right, left = planned(name, "right"), planned(name, "left")
    for kind in (lengths, marks, figures):
        assert [(f.name, f.value) for f in kind(left)] == [(f.name, f.value) for f in kind(right)]


def test_views_are_seen_from_the_mirrored_place() -> None:
    right, left = planned("demo", "right"), planned("demo", "left")
    method = method_of(right.job.line.ends[0].splice)
    pairs = zip(worded_method(method, right).steps, worded_method(method, left).steps, strict=True)
    for one, other in ((a, b) for s, t in pairs for a, b in zip(s.views, t.views, strict=True)):
        for usual, mirrored in ((one.direction, other.direction), (one.up, other.up)):
            assert mirrored == (usual[0], -usual[1], usual[2])


@pytest.mark.parametrize(("hand", "turned"), [("right", "right"), ("left", "left")])
def test_turns_at_the_bench_are_told_by_the_jobs_hand(hand: str, turned: str) -> None:
    plan = planned("demo", hand)
    method = method_of(plan.job.line.ends[0].splice)
    diagnostics = diagnostics_of(method)
    said = {"turns": "2", "hand": turned, "standing-part": "dot"}
    found = diagnose(method, diagnostics.read(method, said, plan), plan)
    assert [one.mistake.name for one in found.likely] == ["tail-other-face"]
    against = {**said, "hand": OTHER[turned]}
    with pytest.raises(SightingError, match="can't both be"):
        diagnose(method, diagnostics.read(method, against, plan), plan)
