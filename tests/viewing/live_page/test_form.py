"""Fields of the live page: to a checked job and back."""

from pathlib import Path

import pytest

import shows
from fidpath.job.reader import parse_job, text_of, toml_of
from fidpath.job.schema import keys_of, tables
from fidpath.viewing.live_page.fields import described, fields
from fidpath.viewing.live_page.form import Form, Refused, read_form, tried, with_texts
from live import HOSTILE

SCENES = sorted((shows.ROOT / "scenes").glob("*.toml"))


def test_every_field_is_a_key_of_job_files() -> None:
    for field in fields():
        table = ".".join(part for part in field.path[:-1] if isinstance(part, str))
        assert table in tables()
        assert field.path[-1] in keys_of(table)
    assert len({field.key for field in fields()}) == len(fields())


def test_every_key_of_a_job_has_a_field() -> None:
    own = {field.path.in_schema for field in fields()}
    tables_of_keys = {"practice.lock_stitch"}
    keys = {f"{table}.{key}".strip(".") for table in tables() for key in keys_of(table)}
    assert keys - own - set(tables()) - tables_of_keys == {"schema"}


CHANGES: list[dict[str, str]] = [
    {"line.ends[2].name": "upper", "line.ends[2].splice": "plain"},
    {"line.ends[2].name": "upper", "line.ends[2].terminator.kind": "pin", "line.ends[2].terminator.width": "30 mm",
     "line.ends[2].terminator.bearing_diameter": "40 mm"},
    {"line.adjuster.kind": "lashing", "line.adjuster.shorten": "60 mm", "line.adjuster.lengthen": "60 mm"},
    {"practice.lock_stitch.stitches": "9", "practice.lock_stitch.spacing": "2 d"},
    {"rope.friction": "0.05, 0.1"},
    {"tools.fid_sizes": "no. 3 = 8 mm", "tools.fids": "no. 3, 12 mm"},
    {"print.bed": "200 mm, 200 mm, 200 mm"},
    {"name": "mine", "line.thread_on_first": ""},
]  # fmt: skip


@pytest.mark.parametrize("given", CHANGES, ids=lambda given: next(iter(given)))
def test_tables_come_with_their_first_key_and_go_with_their_last(given: dict[str, str]) -> None:
    own = read_form(shows.DEMO)
    found = tried(own, {**own.texts, **given})
    assert isinstance(found, Form), found
    assert {key: found.texts[key] for key in given} == given
    back = tried(found, {**found.texts, **{key: own.texts[key] for key in given}})
    assert isinstance(back, Form), back
    assert back.job == own.job
    assert back.texts == own.texts


def test_fields_say_their_units_and_limits_in_the_jobs_own_unit(form: Form) -> None:
    fields = {field["key"]: field for field in described(form.job)}
    assert fields["rope.diameter"]["bounds"] == "1 mm to 200 mm"
    assert fields["rope.pitch"]["bounds"] == "3 to 20 d"
    assert fields["practice.neck"]["default"] == "1.1 d"
    inches = {field["key"]: field for field in described(read_form(shows.ROOT / "scenes" / "inches.toml").job)}
    assert inches["terminator.width"]["bounds"].endswith(" in")


@pytest.mark.parametrize("path", SCENES, ids=lambda path: path.stem)
def test_fields_as_they_stand_make_the_same_job(path: Path) -> None:
    own = read_form(path)
    found = tried(own, own.texts)
    assert isinstance(found, Form)
    assert found.job == own.job


@pytest.mark.parametrize("path", SCENES, ids=lambda path: path.stem)
def test_a_file_whose_fields_are_as_they_stand_stays_as_it_is(path: Path) -> None:
    own = read_form(path)
    found = tried(own, own.texts)
    assert isinstance(found, Form)
    assert found.text == text_of(path)


@pytest.mark.parametrize(
    "name", [HOSTILE, 'a "quoted" \\ name', "Tauwerk für Ölzeug", "綱", "it's", "🪢", "# no comment"]
)
def test_comments_order_and_names_stay_when_a_field_changes(name: str) -> None:
    quoted = name.replace("\\", "\\\\").replace('"', '\\"')
    text = text_of(shows.DEMO).replace('name = "grooved ring"', f'name = "{quoted}"  # ours')
    after = with_texts(text, {"practice.bury": "60 d", "rope.squeeze": "0.7"})
    assert toml_of(after, "after")["terminator"]["name"] == name
    lines = after.splitlines()
    assert [line for line in lines if line not in text.splitlines()] == ["squeeze = 0.7", 'bury = "60 d"']
    assert [line for line in text.splitlines() if line not in lines] == ['bury = "72 d"']


LAYOUTS = {
    "dotted keys": """\
schema = 1
name = "a"
rope.diameter = "8 mm"
rope.strands = 12
rope.weave = "over-two"
rope.pitch = "7 d"
terminator.kind = "ring"
terminator.bearing_diameter = "40 mm"
terminator.groove_radius = "4.5 mm"
terminator.width = "12 mm"
line.captive_end = "made off"
line.ends = [{name = "lower"}] # one end
tools.fids = ["10 mm", "6 mm"]
""",
    "inline tables": """\
schema = 1
name = "a"
rope = {diameter = "8 mm", strands = 12, weave = "over-two", pitch = "7 d"}
terminator = {kind = "ring", bearing_diameter = "40 mm", groove_radius = "4.5 mm", width = "12 mm"}
tools = {fids = ["10 mm", "6 mm"]}
[line]
captive_end = "made off"
ends = [
  # the lower end
  {name = "lower"},
]
""",
    "tables out of order, lines ended otherwise": """\
schema = 1
name = "a"
[[line.ends]]
name = "lower"
[rope]
diameter = "8 mm"
strands = 12
weave = "over-two"
pitch = "7 d"
[line]
captive_end = "made off"
[tools]
fids = ["10 mm", "6 mm"]
[terminator] # grooved
kind = "ring"
bearing_diameter = "40 mm"
groove_radius = "4.5 mm"
width = "12 mm"
""".replace("\n", "\r\n"),
}


@pytest.mark.parametrize("text", LAYOUTS.values(), ids=LAYOUTS)
def test_any_layout_of_a_file_can_be_changed(text: str) -> None:
    given = {
        "rope.pitch": "66 mm",
        "rope.squeeze": "0.7",
        "line.ends[1].eye_length": "130 mm",
        "practice.bury": "60 d",
        "tools.fids": "11 mm, 6 mm",
        "tools.tape_division": "0.5 mm",
    }
    before, after = toml_of(text, "before"), toml_of(with_texts(text, given), "after")
    before["rope"] |= {"pitch": "66 mm", "squeeze": 0.7}
    before["line"]["ends"][0]["eye_length"] = "130 mm"
    before["tools"] = {"fids": ["11 mm", "6 mm"], "tape_division": "0.5 mm"}
    assert after == {**before, "practice": {"bury": "60 d"}}
    assert with_texts(text, {}) == text
    emptied = toml_of(with_texts(with_texts(text, given), dict.fromkeys(given, "")), "emptied")
    assert "pitch" not in emptied["rope"] and "eye_length" not in emptied["line"]["ends"][0]
    assert emptied["practice"] == {}


def changed(form: Form, **texts: str) -> Form | Refused:
    """The form with these fields changed; two underscores stand for a full stop."""
    return tried(form, {**form.texts, **{key.replace("__", "."): text for key, text in texts.items()}})


def test_a_change_makes_the_job_that_a_file_with_it_makes(form: Form) -> None:
    found = changed(form, rope__pitch="66 mm", practice__bury="60 d", rope__squeeze="70 %")
    assert isinstance(found, Form)
    text = text_of(shows.DEMO).replace('pitch = "7 d"', 'pitch = "66 mm"\nsqueeze = "70 %"').replace("72 d", "60 d")
    assert found.job == parse_job(text, str(shows.DEMO))
    assert found.plan.bury_length == pytest.approx(600)
    assert parse_job(found.text, str(shows.DEMO)) == found.job


def test_an_emptied_field_falls_back_on_the_rule(form: Form) -> None:
    found = changed(form, practice__bury="")
    assert isinstance(found, Form)
    assert found.job.practice.bury_diameters == 72
    assert "bury" not in found.tables["practice"]


@pytest.mark.parametrize(
    ("field", "text", "words"),
    [
        ("rope__diameter", "12", "no unit"),
        ("rope__diameter", "", "Something has to stand here"),
        ("rope__diameter", "0.1 mm", "too small"),
        ("rope__strands", "ten", "whole number"),
        ("rope__strands", "10", "needs a multiple of 4"),
        ("rope__weave", "over-three", "over-two"),
        ("rope__squeeze", "nan", "not a share"),
        ("terminator__kind", HOSTILE, "Write one of deadeye"),
        ("tools__fids", "8 stones", "a name from a table of your own"),
        ("practice__hole_gap", "1 kN", "a force"),
        ("practice__taper_drops", "9", "0 to 5"),
        ("practice__lock_stitch", "perhaps", "true or false"),
        ("practice__throat_angle", "1 deg", "5 to 119 deg"),
        ("line__ends[1]__eye_length", "60 mm", "Make it at least"),
        ("rope__pitch", "9" * 300, "too long"),
    ],
)
def test_a_value_that_cannot_be_is_refused_beside_its_field(form: Form, field: str, text: str, words: str) -> None:
    found = changed(form, **{field: text})
    assert isinstance(found, Refused)
    assert list(found.errors) == [field.replace("__", ".")]
    assert words in next(iter(found.errors.values()))
    assert "demo.toml" not in next(iter(found.errors.values()))


def test_every_wrong_field_is_named_at_once(form: Form) -> None:
    found = changed(form, rope__pitch="2 d", practice__bury="long", rope__squeeze="70 %")
    assert isinstance(found, Refused)
    assert set(found.errors) == {"rope.pitch", "practice.bury"}


def test_what_has_to_follow_is_said_where_it_has_to(form: Form) -> None:
    found = changed(form, rope__diameter="12 mm")
    assert isinstance(found, Refused)
    assert "must be at least 6 mm" in found.errors["terminator.groove_radius"]
    assert found.errors["rope.diameter"].startswith("Not used yet")
    follows = {
        "terminator__groove_radius": "6.6 mm",
        "terminator__bearing_diameter": "60 mm",
        "tools__fids": "10 mm, 14 mm",
    }
    assert isinstance(changed(form, rope__diameter="12 mm", **follows), Form)


def test_another_kind_of_terminator_keeps_only_its_own_measures(form: Form) -> None:
    found = changed(form, terminator__kind="pin")
    assert isinstance(found, Form)
    assert set(found.tables["terminator"]) == {"kind", "name", "bearing_diameter", "width"}
    asked = changed(form, terminator__kind="teardrop")
    assert isinstance(asked, Refused)
    assert "terminator.length" in asked.errors
