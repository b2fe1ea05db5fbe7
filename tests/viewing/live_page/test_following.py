"""What goes with a rope: proposed where the rope changes, and never a name that says what the rope was."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import shows
from fidpath.viewing.live_page.fields import fields
from fidpath.viewing.live_page.following import names_to_follow, proposals
from fidpath.viewing.live_page.form import Form, read_form, tried
from fidpath.viewing.live_page.lengths import measured, sized_up, switched, written

SCENES = sorted((shows.ROOT / "scenes").glob("*.toml")) + sorted((shows.ROOT / "scenes" / "lines").glob("*.toml"))


def with_rope(form: Form, diameter: str) -> dict[str, str]:
    return {**form.texts, "rope.diameter": diameter}


@pytest.mark.parametrize("path", SCENES, ids=lambda path: path.stem)
@pytest.mark.parametrize("diameter", ["16 mm", "5/8 in", "6 mm"])
def test_what_is_proposed_makes_a_job_of_the_changed_rope_at_once(path: Path, diameter: str) -> None:
    form = read_form(path)
    texts = with_rope(form, diameter)
    followed = {one.key: one.new for one in proposals(form.texts, texts)}
    found = tried(form, {**texts, **followed})
    assert isinstance(found, Form), found
    assert not proposals(found.texts, found.texts)


def test_a_thicker_rope_takes_its_ring_its_fids_and_its_name_along() -> None:
    form = read_form(shows.DEMO)
    found = {one.key: one.new for one in proposals(form.texts, with_rope(form, "16 mm"))}
    assert found["rope.name"] == "12-strand HMPE, 16 mm"
    assert found["terminator.groove_radius"] == "9 mm"
    assert found["terminator.width"] == "22.5 mm"
    assert found["tools.fids"].startswith("8 mm, 12 mm, ")
    assert "practice.bury" not in found


def test_what_a_person_has_typed_since_is_left_to_them() -> None:
    form = read_form(shows.DEMO)
    texts = with_rope(form, "16 mm") | {"terminator.width": "30 mm"}
    assert "terminator.width" not in {one.key for one in proposals(form.texts, texts)}


@pytest.mark.parametrize("diameter", ["", "16", "1", "16 m", "much", "2 d", "10 mm"])
def test_nothing_is_proposed_for_a_rope_that_stands_half_typed_or_is_the_same(diameter: str) -> None:
    form = read_form(shows.DEMO)
    assert proposals(form.texts, with_rope(form, diameter)) == []


def test_what_was_measured_of_the_rope_before_is_not_taken_along() -> None:
    form = read_form(shows.DEMO)
    base = {**form.texts, "rope.pitch": "70 mm", "rope.strength": "95 kN", "rope.diameter_min": "9.6 mm"}
    found = {one.key: one.new for one in proposals(base, {**base, "rope.diameter": "12 mm"})}
    assert (found["rope.pitch"], found["rope.strength"], found["rope.diameter_min"]) == ("unknown", "", "")


def test_other_strands_change_the_name_and_the_number_of_drops() -> None:
    form = read_form(shows.DEMO)
    base = {**form.texts, "practice.taper_drops": "5"}
    found = {one.key: one.new for one in proposals(base, {**base, "rope.strands": "8"})}
    assert found == {"rope.name": "8-strand HMPE, 10 mm", "practice.taper_drops": ""}


def test_only_names_are_asked_for_when_a_job_is_saved() -> None:
    form = read_form(shows.DEMO)
    assert [one.key for one in names_to_follow(form.texts, with_rope(form, "16 mm"))] == ["rope.name"]
    assert names_to_follow(form.texts, form.texts) == []


@given(st.floats(0.5, 90000))
def test_a_length_keeps_in_either_unit_and_finds_its_way_back(mm: float) -> None:
    slip = min(0.02, 0.002 * mm)
    for system in ("mm", "in"):
        text = written(mm, system)
        there = measured(text)
        assert there is not None
        assert abs(there.value - mm) <= slip + 1e-9
        assert text.endswith(system)


@given(st.floats(0.5, 3000), st.sampled_from(["mm", "in"]))
@settings(max_examples=50)
def test_a_size_that_things_come_in_is_never_smaller(mm: float, system: str) -> None:
    there = measured(sized_up(mm, system))  # type: ignore[arg-type]
    assert there is not None
    assert mm - 0.03 <= there.value <= max(mm * 1.2, mm + 2)


def test_fractions_are_written_where_they_are_what_it_is() -> None:
    assert written(34.925, "in") == "1 3/8 in"
    assert written(9.525, "in") == "3/8 in"
    assert written(10.0, "in") == "0.394 in"


@pytest.mark.parametrize("path", SCENES, ids=lambda path: path.stem)
def test_units_switched_there_and_back_leave_every_figure_as_it_was(path: Path) -> None:
    form = read_form(path)
    there = switched(fields(), form.texts, "in")
    found = tried(form, there)
    assert isinstance(found, Form), found
    assert found.job.length_unit == "in"
    assert found.job.rope.diameter_mm == pytest.approx(form.job.rope.diameter_mm, rel=0.003)
    back = tried(found, switched(fields(), found.texts, "mm"))
    assert isinstance(back, Form), back
    assert back.job.rope.diameter_mm == pytest.approx(form.job.rope.diameter_mm, rel=0.002)
    assert back.job.length_unit == "mm"
