"""Jobs at the edges of what a file may hold, one key at a time and in pairs: a plan, or one of our own errors."""

from __future__ import annotations

import random
from itertools import combinations

import pytest

from fidpath.errors import FidpathError
from fidpath.job import LIMITS_D, parse_job
from fidpath.planning import make_plan, warnings
from fidpath.planning.sheet import as_data, as_json, bench_table

USUAL = {
    "rope.diameter": "10 mm",
    "rope.strands": 12,
    "rope.weave": "over-two",
    "rope.pitch": "7 d",
    "rope.squeeze": 0.75,
    "terminator.bearing_diameter": "50 mm",
    "line.ends.eye_length": None,
    "line.ends.splice": "locked-captive",
    "practice.bury": "72 d",
    "practice.taper_share": 0.33,
    "practice.taper_drops": None,
    "practice.hole_gap": "1 d",
    "practice.throat_angle": "45 deg",
    "practice.neck": "1.1 d",
    "tools.fids": "8 mm",
}
EDGES = {
    "rope.diameter": ("1 mm", "200 mm"),
    "rope.strands": (4, 8, 16, 48),
    "rope.weave": ("over-one",),
    "rope.pitch": ("3 d", "5 d", "9.7 d", "20 d", "unknown"),
    "rope.squeeze": (0.5, 1.0),
    "terminator.bearing_diameter": ("3 mm", "13 mm", "3 m"),
    "line.ends.eye_length": ("5 mm", "120 mm", "100 m"),
    "line.ends.splice": ("plain", "locked-free"),
    "practice.bury": ("6 d", "1000 d"),
    "practice.taper_share": (0, 0.02, 1.0),
    "practice.taper_drops": (0, 1),
    "practice.hole_gap": ("0.1 d", "3 d", "10 d"),
    "practice.throat_angle": ("5 deg", "119 deg"),
    "practice.neck": ("0.1 d", "10 d"),
    "tools.fids": ("0.5 mm", "300 mm"),
}
ONE_BY_ONE = [(key, value) for key, values in EDGES.items() for value in values]
EVERY_PAIR = [pair for pair in combinations(ONE_BY_ONE, 2) if pair[0][0] != pair[1][0]]
BROKEN_ONCE = ((("terminator.bearing_diameter", "3 mm"), ("practice.hole_gap", "10 d")),)
PAIRS = [*BROKEN_ONCE, *random.Random(14).sample(EVERY_PAIR, 90)]


def text_of(changes: dict[str, object]) -> str:
    """A job file with these values in place of the usual ones; None leaves a key out."""
    values = USUAL | changes
    rows: dict[str, list[str]] = {table: [] for table in ("rope", "terminator", "tools", "practice", "line.ends")}
    for path, value in values.items():
        table, _, key = path.rpartition(".")
        shown = f'"{value}"' if isinstance(value, str) else str(value)
        rows[table] += [] if value is None else [f"{key} = {f'[{shown}]' if key == 'fids' else shown}"]
    rows["terminator"] += ['kind = "pin"', 'name = "pin"', 'width = "30 mm"']
    heads = {"line.ends": '[line]\ncaptive_end = "made off"\n[[line.ends]]'}
    tables = [f"{heads.get(name, f'[{name}]')}\n" + "\n".join(lines) for name, lines in rows.items()]
    return 'schema = 1\nname = "edge"\n' + "\n".join(tables) + "\n"


def planned(changes: dict[str, object]) -> str:
    """The sheet of a job at an edge, or the words it is refused in."""
    try:
        plan = make_plan(parse_job(text_of(changes)))
    except FidpathError as refused:
        assert refused.key and refused.remedy, str(refused)
        return str(refused)
    assert "NaN" not in as_json(as_data(plan, both_units=True))
    return bench_table(plan)


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("edge", ONE_BY_ONE, ids=lambda edge: f"{edge[0]}={edge[1]}")
def test_one_key_at_its_edge_is_planned_or_refused_with_the_key_to_change(edge: tuple[str, object]) -> None:
    assert planned(dict([edge]))


@pytest.mark.filterwarnings("error")
def test_two_keys_at_their_edges_are_planned_or_refused_with_the_key_to_change() -> None:
    assert all(planned(dict(pair)) for pair in PAIRS)


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"terminator.bearing_diameter": "13 mm"}, "terminator.bearing_diameter"),
        ({"practice.throat_angle": "90 deg"}, "practice.throat_angle"),
        ({"practice.bury": "10 d"}, "practice.bury"),
        ({"rope.weave": "over-one", "rope.pitch": "9.7 d"}, "rope.pitch"),
        ({"rope.strands": 16, "rope.pitch": "5.5 d"}, "rope.pitch"),
        ({"rope.strands": 16, "practice.hole_gap": "2 d"}, "practice.hole_gap"),
        ({"rope.strands": 16, "rope.weave": "over-one"}, "rope.strands"),
    ],
)
def test_what_the_model_is_known_to_miss_is_said_by_the_plan_with_the_key(changes: dict[str, object], key: str) -> None:
    found = [one.text for one in warnings(make_plan(parse_job(text_of(changes)))) if one.name.startswith("model_")]
    assert any(key in text for text in found)
    assert not [one for one in warnings(make_plan(parse_job(text_of({})))) if one.name.startswith("model_")]


def test_the_edges_are_those_of_the_limits() -> None:
    for key in ("rope.pitch", "practice.bury", "practice.neck", "practice.hole_gap"):
        least = LIMITS_D[key][0]
        assert f"{least:g} d" in EDGES[key]
