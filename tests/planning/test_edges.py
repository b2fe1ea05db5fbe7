"""Jobs at the edges of what a file may hold, one key at a time and in pairs: a plan, or one of our own errors."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

from edges import BODIES, EDGES, Row, alone, covering, text_of
from fidpath.errors import FidpathError
from fidpath.job import LIMITS_D, LIMITS_MM, parse_job
from fidpath.lines import make_line
from fidpath.lines.line_sheet import bench_sheet
from fidpath.planning import make_plan, warnings
from fidpath.planning.sheet import as_data, as_json, bench_table

BROKEN_ONCE: tuple[Row, ...] = (
    {"terminator.pin.bearing_diameter": "3 mm", "practice.hole_gap": "10 d"},
    {"rope.diameter": "1 mm", "line.ends.eye_length": "100000 mm"},  # a plan of minutes
    {"practice.taper_share": 0},
)
ROUNDS = 12
"""How often a row that is refused is tried again without the key that was to blame."""


def planned(row: Row) -> FidpathError | None:
    """Plans a job at edges, and its line where it is one; the error it is refused by."""
    try:
        job = parse_job(text_of(row))
        plan = make_plan(job)
        line = make_line(job) if job.line.finished_length_mm is not None else None
    except FidpathError as refused:
        assert refused.remedy, str(refused)
        return refused
    assert "NaN" not in as_json(as_data(plan, both_units=True))
    assert bench_table(plan)
    assert line is None or bench_sheet(line, both=True)
    return None


def test_an_eye_of_too_many_rope_diameters_is_refused_before_it_is_planned() -> None:
    refused = planned({"rope.diameter": "1 mm", "line.ends.eye_length": "100000 mm"})
    assert refused is not None
    assert "It can be up to 2000 d" in str(refused)


def without(row: Row, refused: FidpathError) -> Row:
    """A row without the key that a refusal names, or else without its first; what it names may be no edge's key."""
    named = (refused.key or "").replace("[1]", "").replace("[2]", "").replace("terminator.", "terminator.pin.")
    blamed = next((key for key in row if key == named), next(iter(row)))
    return {key: value for key, value in row.items() if key != blamed}


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("row", list(alone()), ids=lambda row: " ".join(f"{key}={value}" for key, value in row.items()))
def test_one_key_at_its_edge_is_planned_or_refused_with_the_key_to_change(row: Row) -> None:
    refused = planned(row)
    assert refused is None or refused.key


@pytest.mark.filterwarnings("error")
def test_any_two_keys_at_their_edges_are_planned_or_refused_with_the_key_to_change() -> None:
    made = 0
    rows = [*BROKEN_ONCE, *covering()]
    for each in rows:
        row = each
        for _ in range(ROUNDS):
            refused = planned(row)
            if refused is None or not row:
                break
            row = without(row, refused)
        made += refused is None
    assert made > len(rows) / 2, f"{made} of {len(rows)}"


def test_every_two_edges_stand_together_in_some_row_of_few() -> None:
    rows = covering()
    assert len(rows) < 90
    together = {(one, row[one], other, row[other]) for row in rows for one in row for other in row if one < other}
    for one, other in ((a, b) for a in EDGES for b in EDGES if a < b):
        assert {(one, x, other, y) for x in EDGES[one] for y in EDGES[other]} <= together


@pytest.mark.parametrize(
    ("row", "key"),
    [
        ({"terminator.pin.bearing_diameter": "13 mm"}, "terminator.bearing_diameter"),
        ({"practice.throat_angle": "90 deg"}, "practice.throat_angle"),
        ({"practice.bury": "10 d"}, "practice.bury"),
        ({"rope.weave": "over-one", "rope.pitch": "9.7 d"}, "rope.pitch"),
        ({"rope.strands": 16, "rope.pitch": "5.5 d"}, "rope.pitch"),
        ({"rope.strands": 16, "practice.hole_gap": "2 d"}, "practice.hole_gap"),
        ({"rope.strands": 16, "rope.weave": "over-one"}, "rope.strands"),
    ],
)
def test_what_the_model_is_known_to_miss_is_said_by_the_plan_with_the_key(row: Row, key: str) -> None:
    found = [one.text for one in warnings(make_plan(parse_job(text_of(row)))) if one.name.startswith("model_")]
    assert any(key in text for text in found)
    assert not [one for one in warnings(make_plan(parse_job(text_of({})))) if one.name.startswith("model_")]


def test_the_edges_are_those_of_the_limits_and_of_the_reference() -> None:
    assert set(EDGES) >= {*LIMITS_MM, *LIMITS_D}
    assert {f"{limit:g} mm" for limit in LIMITS_MM["print.kerf"]} <= set(EDGES["print.kerf"])
    path = Path(__file__).parents[2] / "docs" / "made_pages.py"
    spec = importlib.util.spec_from_file_location("made_pages", path)
    assert spec is not None and spec.loader is not None
    made = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(made)
    assert set(made.SPANS) <= set(EDGES)
    assert len({key.split(".")[1] for key in BODIES}) == 7
