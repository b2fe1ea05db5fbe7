"""Left-handed work: the mirror image of every state, with the other faces and turns, and the same lengths."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from fidpath.job.reader import read_job
from fidpath.outputs.check_reports import state_report
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.settling import settled_state
from fidpath.states.draping import axis_of
from fidpath.states.kinds import KINDS, state_of
from fidpath.states.rope_state import mirrored

DEMO = Path(__file__).parents[2] / "scenes" / "demo.toml"


def planned(hand: str) -> Plan:
    job = read_job(DEMO)
    return make_plan(replace(job, practice=replace(job.practice, hand=hand)))


RIGHT, LEFT = planned("right"), planned("left")

ALIKE = 1.0
"""Millimetres: the rope's own lay isn't mirrored, so groups turned the other way take up a little more or less rope."""

NAMES = [name for name in KINDS if not name.startswith(("plain", "end-"))]


@pytest.mark.parametrize("name", NAMES)
def test_a_left_handed_state_is_the_mirror_image(name: str) -> None:
    right, left = state_of(RIGHT, name), state_of(LEFT, name)
    assert mirrored(left).heading == right.heading
    station = np.linspace(right.first, right.last, 200)
    there, here = axis_of(right, station)[0], axis_of(left, station)[0]
    assert np.allclose(here, there * np.array([1.0, -1.0, 1.0]), atol=ALIKE)
    assert [p.face for p in left.passes] == [{"left": "right", "right": "left"}[p.face] for p in right.passes]
    assert [o.turns for o in left.openings] == [(-a, -b) for a, b in (o.turns for o in right.openings)]
    for one, other in zip(right.rods, left.rods, strict=True):
        assert other.tip == pytest.approx(np.array(one.tip) * [1, -1, 1])
        assert other.direction == pytest.approx(np.array(one.direction) * [1, -1, 1])


def measured(plan: Plan, name: str) -> dict[str, Any]:
    return state_report(plan, settled_state(plan, name))


@pytest.mark.parametrize("name", ["marking", "h2-inside-out", "locked"])
def test_settled_both_ways_the_check_finds_mirror_images(name: str) -> None:
    right, left = measured(RIGHT, name), measured(LEFT, name)
    assert right["failures"] == left["failures"] == []
    assert [p["split"] for p in left["passes"]] == [p["split"] for p in right["passes"]]
    assert {p["face"] for p in right["passes"]} == {"left"}
    assert {p["face"] for p in left["passes"]} == {"right"}
    assert left["invariants"] == {key: -value for key, value in right["invariants"].items()}
    turns = np.array([right["turns"]["H2"], left["turns"]["H2"]])
    assert turns[0] == pytest.approx(-turns[1], abs=0.02)
    if "throat_to_crown_mm" in right:
        assert left["throat_to_crown_mm"] == pytest.approx(right["throat_to_crown_mm"], abs=0.1)


@pytest.mark.parametrize("name", ["tail-other-face", "bight-other-face"])
def test_the_check_names_a_left_handers_mistakes(name: str) -> None:
    assert measured(LEFT, name)["named"] == name
