"""The folder that is worked in, questions for a new job, sheets of its files, examples to begin with."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import shows
from fidpath.errors import FidpathError, JobError, OutputError
from fidpath.viewing.live_page.form import Form, Refused
from fidpath.viewing.start_page.examples import EXAMPLES
from fidpath.viewing.start_page.questions import ASKED, answered, file_name, questions
from fidpath.viewing.start_page.reading import problem_in
from fidpath.viewing.start_page.reports import Given, made
from fidpath.viewing.start_page.workshop import NAME, Workshop, checked, digest

ANSWERS = {
    "name": "forestay",
    "rope.diameter": "10 mm",
    "rope.strands": "12",
    "rope.weave": "over-two",
    "rope.pitch": "unknown",
    "terminator.kind": "ring",
    "terminator.bearing_diameter": "50 mm",
    "terminator.groove_radius": "5.5 mm",
    "terminator.width": "14 mm",
    "line.ends[1].splice": "locked-captive",
    "tools.fids": "",
}


@pytest.fixture
def shop(tmp_path: Path) -> Workshop:
    return Workshop(tmp_path / "shop")


def test_files_are_known_by_what_they_hold_and_those_used_lately_come_first(shop: Workshop) -> None:
    for name in ("lines/line-backstay", "sets/boat", "loft/loft", "measured/cap-shroud"):
        path = shows.ROOT / "scenes" / f"{name}.toml"
        shop.add(path.name, path.read_text(encoding="utf-8"))
    shop.add("stock.csv", "name,rope,length (m)\n")
    shop.add("broken.toml", "= 1\n")
    kinds = {one.file: one.kind for one in shop.listed()}
    wanted = {"line-backstay.toml": "job", "boat.toml": "set", "loft.toml": "loft", "cap-shroud.toml": "measured"}
    assert kinds == {**wanted, "stock.csv": "table", "broken.toml": "broken"}
    shop.note_opened("boat.toml")
    assert shop.listed()[0].file == "boat.toml"


def test_a_file_taken_in_never_goes_over_another(shop: Workshop) -> None:
    assert [shop.add("stay.toml", text) for text in ("a = 1", "a = 2", "a = 3")] == [
        "stay.toml", "stay-2.toml", "stay-3.toml"
    ]  # fmt: skip
    assert shop.text("stay.toml") == "a = 1"


@pytest.mark.parametrize("name", ["../a.toml", "/etc/passwd", "..", "", "a.txt", ".hidden.toml", "a/../b.toml"])
def test_nothing_outside_the_folder_is_read_or_written(shop: Workshop, tmp_path: Path, name: str) -> None:
    (tmp_path / "a.toml").write_text("mine")
    with pytest.raises(JobError):
        shop.text(name)
    try:
        added = shop.add(name, "new")
    except OutputError:
        return
    assert (shop.folder / added).read_text() == "new"
    assert (tmp_path / "a.toml").read_text() == "mine"


@given(st.text(max_size=60))
def test_a_name_is_plain_or_refused(name: str) -> None:
    try:
        plain = checked(name)
    except OutputError:
        return
    assert NAME.fullmatch(plain)
    assert Path(plain).name == plain


def test_links_are_not_followed(shop: Workshop, tmp_path: Path) -> None:
    (tmp_path / "outside.toml").write_text("mine")
    (shop.folder / "link.toml").symlink_to(tmp_path / "outside.toml")
    assert shop.listed() == []
    with pytest.raises(JobError):
        shop.text("link.toml")


def test_an_edited_file_is_written_only_over_what_was_shown(shop: Workshop) -> None:
    shop.add("stay.toml", "a = 1\n")
    shop.change("stay.toml", "a = 2\n", digest("a = 1\n"))
    with pytest.raises(OutputError, match="changed elsewhere"):
        shop.change("stay.toml", "a = 3\n", digest("a = 1\n"))
    assert shop.text("stay.toml") == "a = 2\n"


@pytest.mark.parametrize("system", ["mm", "in"])
def test_the_questions_are_fields_of_a_job_with_an_example(system: str) -> None:
    found = questions(system)
    keys = {field["key"] for field in found["fields"]}
    assert keys >= set(ASKED)
    assert found["texts"]["rope.diameter"].endswith(system)
    assert all(field["note"] for field in found["fields"] if not field["of"] and field["key"] in ASKED)


def test_answers_make_a_job_named_by_them_with_the_fids_that_its_rope_asks_for() -> None:
    found = answered("mm", ANSWERS)
    assert isinstance(found, Form), found
    job = found.job
    assert (job.name, job.rope.name, job.rope.pitch_guessed) == ("forestay", "12-strand HMPE, 10 mm", True)
    assert job.tools.fids_mm == (8.0, 13.0)
    assert job.terminator.name == "ring"
    assert file_name(job.name) == "forestay.toml"


def test_nothing_answered_asks_for_what_must_be_known_and_no_more() -> None:
    blank = {key: "" for key in ANSWERS} | {
        "rope.weave": "over-two",
        "terminator.kind": "ring",
        "rope.pitch": "unknown",
    }
    found = answered("mm", {**blank, "line.ends[1].splice": "locked-captive"})
    assert isinstance(found, Refused)
    wanted = {"name", "rope.diameter", "rope.strands"}
    wanted |= {f"terminator.{key}" for key in ("bearing_diameter", "groove_radius", "width")}
    assert set(found.errors) == wanted


def test_answers_in_inches_and_another_body_make_a_job_too() -> None:
    own = {**ANSWERS, "rope.diameter": "3/8 in", "terminator.kind": "pin", "terminator.bearing_diameter": "1 in"}
    found = answered("in", {**own, "terminator.groove_radius": "", "terminator.width": "1 1/4 in"})
    assert isinstance(found, Form), found
    assert (found.job.length_unit, found.job.terminator.kind) == ("in", "pin")


@pytest.mark.parametrize("key", EXAMPLES)
def test_every_example_is_valid_as_it_stands(shop: Workshop, key: str) -> None:
    example = EXAMPLES[key]
    assert problem_in(shop.path(shop.add(example.file, example.text))) == ""


def test_every_sheet_is_made_of_the_examples(shop: Workshop) -> None:
    paths = {key: shop.path(shop.add(example.file, example.text)) for key, example in EXAMPLES.items()}
    parts = {"job": paths["line"], **{key: paths[key] for key in ("set", "loft", "measured")}}
    found = {kind: made(kind, Given(parts)) for kind in ("line", "set", "calibration", "comparison")}
    assert "rope to cut" in found["line"].text.lower()
    assert set(found["set"].files) == {"csv", "json"}
    assert "take-up" in found["calibration"].text.lower()
    assert found["comparison"].name == "stay-as-built"


def test_a_sheet_without_its_file_says_which_is_to_be_chosen(shop: Workshop) -> None:
    with pytest.raises(FidpathError, match="no file is chosen for the set"):
        made("set", Given({}))


def test_what_is_wrong_with_an_edited_file_is_said_with_its_line(shop: Workshop) -> None:
    text = EXAMPLES["line"].text.replace('diameter = "10 mm"', 'diameter = "10"')
    assert "Line" in problem_in(shop.path(shop.add("stay.toml", text)))
    assert "rope" in problem_in(shop.path(shop.add("odd.toml", "schema = 1\nname = 'a'\n")))
