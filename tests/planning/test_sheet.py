"""The plan as it is read: complete, sourced, rounded the safe way, and the same every time."""

import dataclasses
import json
import math
import re
from pathlib import Path
from typing import Any

import pytest

from fidpath import units
from fidpath.job.reader import parse_job, read_job
from fidpath.planning import sheet
from fidpath.planning.figure import Figure, figures
from fidpath.planning.length_figures import lengths
from fidpath.planning.mark_figures import marks
from fidpath.planning.notices import warnings
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from terminators import a_terminator

SCENES = sorted((Path(__file__).parents[2] / "scenes").glob("*.toml"))
DEMO = Path(__file__).parents[2] / "scenes" / "demo.toml"
TOP = (
    "bury_length_mm",
    "eye_length_along_rope_mm",
    "eye_lost_to_lock_mm",
    "eye_slack_mm",
    "hole_gap_mm",
    "hole_spacing_mm",
    "throat_angle_deg",
    "leg_tension_share",
    "D_over_d",
    "pick_mm",
    "swollen_diameter_mm",
    "take_up_mm",
    "rope_consumed_mm",
)


@pytest.fixture(scope="module")
def demo() -> Plan:
    return make_plan(read_job(DEMO))


@pytest.fixture(scope="module")
def data(demo: Plan) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(sheet.as_json(sheet.as_data(demo)))
    return made


def planned(**changes: str) -> Plan:
    """The demo with some of its keys written otherwise; new ones go into [practice]."""
    text = DEMO.read_text(encoding="utf-8")
    for key, value in changes.items():
        line = f"{key} = {value}"
        text, found = re.subn(rf"^{key} = .*$", line, text, flags=re.MULTILINE)
        text += "" if found else f"{line}\n"
    return make_plan(parse_job(text))


def test_the_keys_other_programs_ask_for(data: dict[str, Any]) -> None:
    for key in TOP:
        assert isinstance(data[key], float), key
    assert data["D_over_d"] == 5.0
    assert data["pick_mm"] == pytest.approx(70 / 12, abs=1e-6)
    assert data["bury_length_mm"] == 720.0


def test_every_length_and_mark_has_formula_source_and_where_from(data: dict[str, Any]) -> None:
    for entry in data["lengths"] + data["marks"]:
        for key in ("name", "label", "formula", "source", "measured_from", "shown"):
            assert entry[key].strip(), entry
        assert isinstance(entry["value_mm"], float)
    names = [entry["name"] for entry in data["lengths"] + data["marks"] + data["figures"]]
    assert len(names) == len(set(names))


def test_top_level_and_lists_agree(data: dict[str, Any]) -> None:
    listed = {f"{entry['name']}_mm": entry["value_mm"] for entry in data["lengths"]}
    shared = [key for key in data if key in listed]
    assert len(shared) >= 12
    assert {key: data[key] for key in shared} == {key: listed[key] for key in shared}


def test_marks_hang_together(demo: Plan) -> None:
    at = {mark.name: mark.value for mark in marks(demo)}
    assert at["H1"] - at["bury_mark"] == pytest.approx(at["rough_bury_mark"])
    assert 0 < at["H2"] < at["bury_mark"] < at["H1"]
    assert at["tail_cut"] == demo.bury_length
    drops = [value for name, value in at.items() if name.startswith("taper_drop")]
    assert len(drops) == demo.job.practice.taper_drops
    assert drops == sorted(drops)
    assert drops[-1] < at["tail_cut"]


def test_rope_lost_to_the_lock_is_the_gap_and_the_rope_between(data: dict[str, Any]) -> None:
    lost = data["hole_gap_mm"] + data["rope_between_holes_mm"]
    assert data["eye_lost_to_lock_mm"] == pytest.approx(lost, abs=1e-5)
    assert data["loop_before_lock_mm"] == pytest.approx(data["eye_length_along_rope_mm"] + lost, abs=1e-5)


def test_the_chosen_place_for_h2_is_among_the_choices(data: dict[str, Any]) -> None:
    chosen = [choice for choice in data["h2_choices"] if choice["chosen"]]
    assert len(chosen) == 1
    assert chosen[0]["eye_slack_mm"] == pytest.approx(data["eye_slack_mm"], abs=1e-5)
    slacks = [choice["eye_slack_mm"] for choice in data["h2_choices"]]
    assert slacks[0] < 0 < slacks[-1]
    assert slacks == sorted(slacks)


def test_a_quiet_job_has_no_warnings(data: dict[str, Any]) -> None:
    assert data["warnings"] == []


def with_figures(
    plan: Plan,
    throat: float | None = None,
    bearing: float | None = None,
    tip: float | None = None,
    bare_neck: float | None = None,
) -> Plan:
    """The plan with other figures: throat angle in degrees, bearing diameter, bury and bare neck in mm."""
    replace, job, lock = dataclasses.replace, plan.job, plan.needed_lock()
    if bearing is not None:
        job = replace(job, terminator=a_terminator("pin", bearing, 20.0))
    if bare_neck is not None:
        lock = replace(lock, neck_host=bare_neck + lock.zone.hole_length / 2)
    eye = plan.eye if throat is None else replace(plan.eye, throat=math.radians(throat))
    cut = plan.taper if tip is None else replace(plan.taper, tip=tip)
    return replace(plan, job=job, lock=lock, eye=eye, taper=cut)


@pytest.mark.parametrize(
    ("changes", "name", "source"),
    [
        ({"throat": 61.0}, "throat_angle", "29 CFR 1926.251(d)(2)"),
        ({"bearing": 19.0}, "D_over_d", "ISO 2307:2010, 5.1"),
        ({"tip": 719.0}, "bury", "common practice, no source"),
        ({"bare_neck": 20.1}, "bare_neck", "no source"),
    ],
)
def test_each_warning_names_its_source(demo: Plan, changes: dict[str, float], name: str, source: str) -> None:
    plan = with_figures(demo, **changes)
    found = {warning.name: warning for warning in warnings(plan)}
    assert set(found) == {name}
    assert source in found[name].source
    assert found[name].text in sheet.bench_table(plan)
    assert [entry["name"] for entry in sheet.as_data(plan)["warnings"]] == [name]


def test_figures_on_their_limits_pass(demo: Plan) -> None:
    assert warnings(with_figures(demo, throat=60.0, bearing=20.0, bare_neck=20.0)) == ()


def test_a_short_bury_asked_for_is_warned_of() -> None:
    assert [warning.name for warning in warnings(planned(bury='"60 d"'))] == ["bury"]


def test_least_lengths_go_up_and_greatest_down(demo: Plan) -> None:
    shown = {figure.name: sheet.shown(figure, demo) for figure in (*lengths(demo), *marks(demo))}
    for name in ("rough_bury_mark", "bury_length", "rope_consumed", "tail_cut", "trim"):
        value = next(figure.value for figure in (*lengths(demo), *marks(demo)) if figure.name == name)
        assert units.read_length(shown[name]).value >= value - 1e-6, name
    most = next(figure for figure in lengths(demo) if figure.name == "most_across")
    assert units.read_length(sheet.shown(most, demo)).value <= most.value


def test_a_least_length_in_sixteenths(demo: Plan) -> None:
    job = dataclasses.replace(
        demo.job, length_unit="in", tools=dataclasses.replace(demo.job.tools, tape_division_mm=25.4 / 16)
    )
    plan = dataclasses.replace(demo, job=job)
    figure = Figure("x", "x", 864.0, "f", "s", "m", rounding="up")
    assert sheet.shown(figure, plan) == "34 1/16 in"
    assert sheet.shown(figure, plan, both_units=True) == "34 1/16 in (864 mm)"


def test_the_source_says_who_set_a_rule() -> None:
    def source(plan: Plan) -> str:
        return next(figure.source for figure in lengths(plan) if figure.name == "bury_length")

    assert source(planned(bury='"72 d"')) == "job file; common practice, no source"
    assert source(planned(bury='"60 d"')) == "job file; the rule is 72 d (common practice, no source)"
    unset = DEMO.read_text(encoding="utf-8").replace('bury = "72 d"\n', "")
    assert source(make_plan(parse_job(unset))) == "common practice, no source"


@pytest.mark.parametrize("scene", SCENES, ids=lambda path: path.stem)
def test_every_scene_has_a_sheet(scene: Path) -> None:
    plan = make_plan(read_job(scene))
    text = sheet.bench_table(plan, both_units=True)
    assert max(len(line) for line in text.splitlines()) <= 125
    for figure in (*lengths(plan), *marks(plan), *figures(plan)):
        assert figure.label in text
    assert "qualified rigger" in text
    assert "rope maker" in text
    assert plan.lock is None or len(plan.lock.choices) >= 3


def test_inches_first_for_those_who_wrote_inches() -> None:
    plan = make_plan(read_job(DEMO.with_name("inches.toml")))
    text = sheet.bench_table(plan)
    assert re.search(r"bury +22 1/2 in", text)
    assert not re.search(r"\d mm\b", text)
    assert re.search(r"bury +22 1/2 in \(572 mm\)", sheet.bench_table(plan, both_units=True))


def test_the_same_job_gives_the_same_bytes() -> None:
    first, second = (make_plan(read_job(DEMO)) for _ in range(2))
    assert sheet.as_json(sheet.as_data(first)) == sheet.as_json(sheet.as_data(second))
    assert sheet.bench_table(first) == sheet.bench_table(second)


def test_what_lies_below_a_millionth_is_the_machines(demo: Plan) -> None:
    cover = dataclasses.replace(demo.cover, take_up=demo.cover.take_up - 1e-12)
    noisy = dataclasses.replace(demo, cover=cover)
    assert sheet.as_json(sheet.as_data(noisy)) == sheet.as_json(sheet.as_data(demo))


def test_nothing_in_the_json_tells_where_it_was_made(demo: Plan) -> None:
    assert str(DEMO.parent) not in sheet.as_json(sheet.as_data(demo))


@pytest.mark.parametrize("scene", sorted((Path(__file__).parents[2] / "scenes").glob("*.toml")), ids=lambda p: p.stem)
def test_every_scenes_plan_goes_into_json(scene: Path) -> None:
    data = json.loads(sheet.as_json(sheet.as_data(make_plan(read_job(scene)))))
    assert data["eye_length_along_rope_mm"] > 0
    assert all(isinstance(choice["terminator_fits"], bool) for choice in data.get("h2_choices", ()))
