"""A kind of terminator made up here is read, planned, meshed, offered and listed without a change to any module."""

from __future__ import annotations

import re
import runpy
from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Literal

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fidpath.errors import JobError
from fidpath.geometry.seat import clearance, seat_of
from fidpath.job.bearing_body import Body, Circle
from fidpath.job.keys import Key, Length, Name, Table
from fidpath.job.reader import parse_job
from fidpath.job.template import template
from fidpath.job.terminators.registry import kinds, register, unregister
from fidpath.job.terminators.shared_keys import BearingDiameter, Width, mm, refuse
from fidpath.meshing.meshes import open_edges, volume
from fidpath.meshing.terminator_body import terminator_mesh
from fidpath.outputs.jigs.parts.eye_former import eye_former
from fidpath.planning.planner import make_plan
from fidpath.viewing.live_page.fields import described
from fidpath.viewing.live_page.form import Form, Refused, read_form, tried

ROOT = Path(__file__).parents[1]


class BollardTable(Table):
    """[terminator] kind = "bollard": a post with a waist, and a hole for a bar."""

    kind: Literal["bollard"]
    name: Annotated[Name, Key("what the sheets call it", "bollard")] = "bollard"
    bearing_diameter: BearingDiameter
    width: Width
    waist: Annotated[Length, Key("radius of its waist", "20 mm", "Waist", (1.0, 500.0))]
    cap: Annotated[Literal["flat", "domed"], Key("shape of its top", "flat", "Top")]
    bars: Annotated[int, Key("holes for a bar", 1, "Bar holes", (0, 2))] = 0


def bollard(table: BollardTable, d: float) -> Body:
    """The bollard of a table. Raises KeyedError."""
    bearing, width, waist = mm(table, "bearing_diameter"), mm(table, "width"), mm(table, "waist")
    if waist < d:
        raise refuse("waist", f"a waist of {waist:g} mm pinches the rope", f"Give at least {d:g} mm.")
    holes = (Circle(0.0, 0.0, bearing / 8),) * table.bars
    return Body((Circle(0.0, 0.0, bearing / 2),), width, waist, holes=holes)


@pytest.fixture(scope="module", autouse=True)
def registered() -> Iterator[None]:
    """The kind, known while these tests run."""
    register(BollardTable, label="bollard with a waist", note="a post with a waist")(bollard)
    yield
    unregister("bollard")


def text(bearing: str = "60 mm", width: str = "30 mm", waist: str = "20 mm", bars: int = 1) -> str:
    """A job file of 10 mm rope with a bollard in its eye."""
    own = f'kind = "bollard"\nbearing_diameter = "{bearing}"\nwidth = "{width}"\nwaist = "{waist}"\ncap = "flat"\n'
    return re.sub(r"(?<=\[terminator\]\n).*?(?=\[line\])", f"{own}bars = {bars}\n\n", template("x"), flags=re.DOTALL)


@settings(max_examples=12, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.integers(20, 200), st.integers(12, 60), st.integers(10, 80), st.integers(0, 1))
def test_it_is_read_planned_and_given_a_closed_body(bearing: int, width: int, waist: int, bars: int) -> None:
    job = parse_job(text(f"{bearing} mm", f"{width} mm", f"{waist} mm", bars))
    plan = make_plan(job)
    assert (job.terminator.kind, job.terminator.name) == ("bollard", "bollard")
    assert plan.seat == seat_of(job.terminator)
    assert (plan.seat.crown, plan.seat.groove, plan.seat.half_width) == (bearing / 2, waist, width / 2)
    mesh = terminator_mesh(job.terminator)
    assert open_edges(mesh) == 0 and volume(mesh) > 0
    assert clearance(plan.seat, mesh.points).max() < 1e-4
    assert np.abs(np.hypot(mesh.points[:, 0], mesh.points[:, 1]) - bearing / 2).min() < 1e-4


def test_a_jig_is_made_for_it() -> None:
    assert eye_former(make_plan(parse_job(text()))).title == "Eye former for the bollard"


def test_what_is_wrong_with_it_is_said_in_its_own_words_with_the_line() -> None:
    for wrong, key, what in (
        (text(waist="9 mm"), "waist", "a waist of 9 mm pinches the rope"),
        (text(waist="0.5 mm"), "waist", "0.5 mm is too small"),
        (text().replace("waist", "wiast"), "wiast", "unknown key"),
        (text().replace('cap = "flat"\n', ""), "cap", "this key is missing"),
        (text().replace('"flat"', '"flatt"'), "cap", '"flatt" is not one of the choices'),
        (text().replace('"bollard"', '"bolard"'), "kind", '"bolard" is not one of the choices'),
    ):
        with pytest.raises(JobError) as caught:
            parse_job(wrong)
        assert caught.value.key == f"terminator.{key}" and caught.value.line
        assert what in caught.value.what
    assert "bollard" in caught.value.remedy


def test_it_is_offered_in_the_live_form_with_its_keys_words_and_limits(tmp_path: Path) -> None:
    form = read_form(ROOT / "scenes" / "demo.toml")
    offered = {field["key"]: field for field in described(form.job)}
    assert ["bollard", "bollard with a waist"] in offered["terminator.kind"]["choices"]
    assert offered["terminator.waist"]["of"] == ["bollard"]
    assert offered["terminator.waist"]["label"] == "Waist" and offered["terminator.waist"]["bounds"] == "1 mm to 500 mm"
    assert offered["terminator.cap"]["choices"] == [["flat", "flat"], ["domed", "domed"]]
    assert offered["terminator.bars"]["bounds"] == "0 to 2" and offered["terminator.bars"]["kind"] == "number"
    own = {"terminator.kind": "bollard", "terminator.waist": "20 mm", "terminator.cap": "domed", "terminator.bars": "1"}
    chosen = tried(form, form.texts | own)
    assert isinstance(chosen, Form) and chosen.job.terminator.body.groove == 20.0
    assert isinstance(tried(form, form.texts | own | {"terminator.waist": ""}), Refused)


def test_it_stands_in_a_new_job_file_and_in_the_reference() -> None:
    new = template("x")
    assert '"bollard"' in new and re.search(r'^# waist = "20 mm" +# bollard: radius of its waist$', new, re.M)
    page = runpy.run_path(str(ROOT / "docs" / "made_pages.py"))["job_file"]()
    section = page.partition('## [terminator], kind = "bollard"')[2].partition("\n## ")[0]
    assert "| `waist` | radius of its waist | a length with its unit: " in section and "| 1 to 500 mm |" in section
    assert '| `cap` | shape of its top | `"flat"`, `"domed"` | yes |' in section
    assert "| `bollard` | a post with a waist |" in page


def test_taken_out_again_nothing_knows_it() -> None:
    unregister("bollard")
    try:
        assert "bollard" not in kinds() and "bollard" not in template("x")
        with pytest.raises(JobError, match="not one of the choices"):
            parse_job(text())
    finally:
        register(BollardTable, label="bollard with a waist", note="a post with a waist")(bollard)
