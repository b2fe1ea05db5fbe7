"""A job file in, a Job out; and every way it can be wrong."""

import re
import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fidpath.errors import CannotBeMade, JobError
from fidpath.job.locate import key_lines, line_of
from fidpath.job.reader import LARGEST, parse_job, read_job, with_line
from fidpath.job.rules import rule
from fidpath.job.template import template, write_new
from texts import GOOD, refused

SCENES = sorted((Path(__file__).parents[2] / "scenes").glob("*.toml"))


def changed(old: str, new: str) -> str:
    """The good file with one line replaced."""
    assert GOOD.count(old) == 1, old
    return GOOD.replace(old, new)


def test_a_good_file() -> None:
    job = parse_job(GOOD)
    assert job.rope.pitch_mm == 56.0
    assert job.rope.pick_mm == pytest.approx(56 / 12)
    assert job.tools.fids_mm == (6.0, 10.0)
    assert job.tools.tape_division_mm == 1.0
    assert job.line.name == "test splice"
    assert (job.length_unit, job.units["rope.diameter"], job.units["rope.pitch"]) == ("mm", "mm", "d")


def test_defaults_are_the_rules_of_practice() -> None:
    practice = parse_job(GOOD).practice
    assert practice.bury_diameters == rule("bury").value
    assert practice.hole_gap_diameters == rule("hole_gap").value
    assert practice.reference_tension_n == 80.0
    assert practice.taper_drops == 5
    assert "practice.bury" not in parse_job(GOOD).units


def test_the_job_overrides_the_rules() -> None:
    text = GOOD + '[practice]\nbury = "480 mm"\nthroat_angle = "50 deg"\npost_stretch = "3 %"\nlock_stitch = true\n'
    practice = parse_job(text).practice
    assert practice.bury_diameters == 60.0
    assert practice.post_stretch_share == 0.03
    assert practice.lock_stitch
    assert parse_job(text).units["practice.bury"] == "mm"


@pytest.mark.parametrize("scene", SCENES, ids=lambda path: path.stem)
def test_every_scene_reads(scene: Path) -> None:
    assert read_job(scene).name
    assert scene.read_text(encoding="utf-8").startswith("# ")


def test_the_scenes_cover_what_they_should() -> None:
    jobs = [read_job(scene) for scene in SCENES]
    assert len(jobs) >= 8
    assert {job.rope.strands for job in jobs} == {8, 12, 16}
    assert {job.rope.weave for job in jobs} == {"over-two", "over-one"}
    assert {job.terminator.kind for job in jobs} == {"ring", "teardrop", "deadeye", "pin"}
    assert min(job.rope.diameter_mm for job in jobs) == 4
    assert max(job.rope.diameter_mm for job in jobs) == 20
    assert {job.length_unit for job in jobs} == {"mm", "in"}


def test_inches_are_read_by_the_tape_or_else_by_the_rope() -> None:
    inches = changed('diameter = "8 mm"\nstrands', 'diameter = "5/16 in"\nstrands')
    assert parse_job(inches).length_unit == "in"
    assert parse_job(inches).tools.tape_division_mm == 1.5875
    assert parse_job(inches + 'tape_division = "1 mm"\n').length_unit == "mm"


@pytest.mark.parametrize(
    "case",
    [
        ('diameter = "8 mm"\ns', 'diametre = "8 mm"\ns', 5, "rope.diametre", "unknown key", 'mean "diameter"'),
        ("[terminator]", "[terminater]", 10, "terminater", "unknown table", 'Did you mean "terminator"?'),
        ('pitch = "7 d"', 'pitch = "7 d"\nfids = 3', 9, "rope.fids", "unknown key here", "belongs in [tools]"),
        ('width = "12 mm"', 'length = "12 mm"', 14, "terminator.length", "unknown key for a ring", "Leave it out"),
        ('pitch = "7 d"', 'pitch = "7 d"\nzzz = 3', 9, "rope.zzz", "unknown key", "Leave it out"),
        ('name = "lower end"', 'nmae = "lower end"', 20, "line.ends[1].nmae", "unknown key", 'mean "name"'),
        ('diameter = "8 mm"\ns', 'diameter = "8 kg"\ns', 5, "rope.diameter", "is a mass", "Write a length in mm"),
        ('diameter = "8 mm"\ns', 'diameter = "8"\ns', 5, "rope.diameter", "has no unit", '"8 mm"'),
        ('diameter = "8 mm"\ns', "diameter = 8\ns", 5, "rope.diameter", "has no unit", '"8 mm"'),
        ('diameter = "8 mm"\ns', 'diameter = "-8 mm"\ns', 5, "rope.diameter", "greater than nothing", "positive"),
        ('diameter = "8 mm"\ns', 'diameter = "0 mm"\ns', 5, "rope.diameter", "greater than nothing", "positive"),
        ('diameter = "8 mm"\ns', 'diameter = "8 m"\ns', 5, "rope.diameter", "too large", "1 mm to 200 mm"),
        ('diameter = "8 mm"\ns', 'diameter = "8 d"\ns', 5, "rope.diameter", "can't be in rope diameters", "50 mm"),
        ('pitch = "7 d"', 'pitch = "70 d"', 8, "rope.pitch", "70 rope diameters is too large", "3 d to 20 d"),
        ('pitch = "7 d"', 'pitch = "7 mm"', 8, "rope.pitch", "too small", "3 d to 20 d"),
        ('pitch = "7 d"', "", 4, "rope.pitch", "this key is missing", 'Add pitch = "7 d"'),
        (
            "strands = 12",
            "strands = 10",
            6,
            "rope.strands",
            "10 strands can't close over-two",
            "8 and 12 close; 8, 12 and 16 are usual, more",
        ),
        (
            "strands = 12",
            "strands = 7",
            6,
            "rope.strands",
            "make no hollow braid",
            "turning each way; 8, 12 and 16 are",
        ),
        ("strands = 12", "strands = 1000", 6, "rope.strands", "make no hollow braid", "4 to 48"),
        ("strands = 12", "strands = 12.0", 6, "rope.strands", "12.0 is not a whole number", "whole number"),
        ("strands = 12", "strands = true", 6, "rope.strands", "True is not a whole number", "whole number"),
        ('weave = "over-two"', 'weave = "over-too"', 7, "rope.weave", "not one of its words", 'mean "over-two"'),
        ('kind = "ring"', 'kind = "rng"', 11, "terminator.kind", "not one of its words", 'mean "ring"'),
        ('kind = "ring"', "", 10, "terminator.kind", "this key is missing", "ring, teardrop, deadeye, pin"),
        ('kind = "ring"', 'kind = "teardrop"', 10, "terminator.length", "this key is missing", "Add length"),
        ('width = "12 mm"', 'width = "7 mm"', 14, "terminator.width", "narrower than the 8 mm rope", "at least as"),
        (
            'groove_radius = "4.5 mm"',
            'groove_radius = "3 mm"',
            13,
            "terminator.groove_radius",
            "the groove is 6 mm across, narrower than the 8 mm rope",
            "can't sit in this eye",
        ),
        (
            'width = "12 mm"',
            'width = "12 mm"\nhole = "40 mm"',
            15,
            "terminator.hole",
            "leaves nothing",
            "One of the two is wrong",
        ),
        ('fids = ["10 mm", "6 mm"]', 'fids = ["10 mm"]', 23, "tools.fids", "opens this rope", "4.8 mm to 8 mm"),
        ('fids = ["10 mm", "6 mm"]', 'fids = ["6 mm"]', 23, "tools.fids", "wide enough to pass", "8.4 mm to 12 mm"),
        ('fids = ["10 mm", "6 mm"]', "fids = []", 23, "tools.fids", "the list is empty", "at least one"),
        ('fids = ["10 mm", "6 mm"]', "fids = 6", 23, "tools.fids", "6 is not a list", "a list"),
        ("[tools]", "[tool]", 22, "tool", "unknown table", 'mean "tools"'),
        ('captive_end = "made off"', "", 16, "line.captive_end", "this key is missing", "Add captive_end"),
        ('captive_end = "made off"', 'captive_end = " "', 17, "line.captive_end", "printable text", "1 to 120"),
        (
            'captive_end = "made off"',
            'captive_end = "\\u001b[2J"',
            17,
            "line.captive_end",
            "printable text",
            "1 to 120",
        ),
        ('name = "lower end"', 'splice = "plain"', 20, "line.ends[1].splice", "asks for plain", "locked-captive"),
        ('name = "lower end"', 'eye_length = "1 mm"', 20, "line.ends[1].eye_length", "too small", "5 mm"),
        ('name = "test splice"', 'name = "../x"', 2, "name", "can't name a folder", "Leave out"),
        ('name = "test splice"', "", None, "name", "this key is missing", "Add name"),
        ("schema = 1", "schema = 2", 1, "schema", "2 is no schema", "schema = 1"),
        ("schema = 1", "schema = true", 1, "schema", "True is no schema", "schema = 1"),
        ("schema = 1", "", None, "schema", "this key is missing", "Add schema = 1"),
    ],
)
def test_every_refusal_names_the_line_the_key_and_the_remedy(
    case: tuple[str, str, int | None, str, str, str],
) -> None:
    old, new, line, key, what, remedy = case
    error = refused(changed(old, new))
    assert (error.file, error.line, error.key) == ("job.toml", line, key)
    assert what in error.what
    assert remedy in error.remedy


@pytest.mark.parametrize(
    ("practice", "what"),
    [
        ('bury = "-72 d"', "greater than nothing"),
        ('bury = "7200 d"', "too large"),
        ("bury = 72", "has no unit"),
        ('hole_gap = "1 kg"', "is a mass"),
        ('throat_angle = "170 deg"', "throat angle of 170 deg can't be"),
        ("taper_share = 1.5", "share of 1.5 can't be"),
        ("taper_drops = 6", "6 drops of two strands from 12 can't be"),
        ("taper_drops = -1", "can't be"),
        ('post_stretch = "80 %"', "can't be"),
        ('reference_tension = "9 lb"', "is a mass, and a force is wanted"),
        ('lock_stitch = "yes"', "is not true or false"),
    ],
)
def test_practice_out_of_bounds(practice: str, what: str) -> None:
    error = refused(f"{GOOD}[practice]\n{practice}\n")
    assert what in error.what
    assert error.line == 25
    assert error.key == f"practice.{practice.partition(' ')[0]}"


@pytest.mark.parametrize("table", ["rope", "terminator", "line", "tools"])
def test_a_missing_table_is_named(table: str) -> None:
    parts = [part for part in re.split(r"\n(?=\[)", GOOD) if not part.lstrip("[").startswith(table)]
    error = refused("\n".join(parts))
    assert error.key == table
    assert error.what == f"the table [{table}] is missing"
    assert f"Add [{table}] with" in error.remedy
    assert error.remedy != "Add [rope] with" and ("squeeze" in error.remedy) is False
    if table == "rope":
        assert error.remedy == "Add [rope] with diameter, strands, weave, pitch"


@pytest.mark.parametrize(
    ("line", "remedy"),
    [
        ("squeeze = 0,75", "Write a full stop in place of the decimal comma, such as 0.75"),
        ("squeeze = 0,75 # as measured", "Write a full stop in place of the decimal comma, such as 0.75"),
        ("pitch = \u201c7 d\u201d", 'Use straight quotes, ", in place of \u201c and \u201d'),
        ("pitch = \u201e7 d\u201c", 'Use straight quotes, ", in place of \u201c and \u201e'),
    ],
)
def test_what_a_word_processor_or_another_country_writes_is_named(line: str, remedy: str) -> None:
    error = refused(GOOD.replace('pitch = "7 d"', line))
    assert error.remedy == remedy and error.what.startswith("this is not TOML")


def test_a_length_that_doesnt_fit_the_rope_names_both() -> None:
    error = refused(GOOD.replace('pitch = "7 d"', 'pitch = "5 mm"'))
    assert error.key == "rope.pitch" and error.what.endswith("rope diameters is too small: 5 mm in 8 mm rope")


def terminator(table: str) -> str:
    """The good file with another terminator."""
    return re.sub(r"\[terminator\].*?(?=\[line\])", lambda _: f"[terminator]\n{table}\n", GOOD, flags=re.DOTALL)


TEARDROP = 'kind = "teardrop"\nbearing_diameter = "40 mm"\ngroove_radius = "4.5 mm"\nwidth = "12 mm"\n'
DEADEYE = 'kind = "deadeye"\nbearing_diameter = "48 mm"\ngroove_radius = "4.5 mm"\nwidth = "12 mm"\n'


@pytest.mark.parametrize(
    ("table", "key", "what"),
    [
        (TEARDROP + 'length = "40 mm"', "terminator.length", "shorter than its own circle"),
        (TEARDROP + 'length = "70 mm"\nnose_radius = "20 mm"', "terminator.nose_radius", "no narrower than the crown"),
        (DEADEYE + 'lashing_holes = 0\nlashing_hole = "9 mm"', "terminator.lashing_holes", "0 lashing holes"),
        (DEADEYE + 'lashing_holes = 3\nlashing_hole = "23 mm"', "terminator.lashing_hole", "don't fit inside"),
        ('kind = "pin"\nbearing_diameter = "20 mm"\nwidth = "7 mm"', "terminator.width", "narrower than"),
        ('kind = "pin"\nbearing_diameter = "20 mm"\nwidth = "9 mm"\nhole = "3 mm"', "terminator.hole", "for a pin"),
    ],
)
def test_a_terminator_that_cant_be(table: str, key: str, what: str) -> None:
    error = refused(terminator(table))
    assert error.key == key
    assert what in error.what


def test_every_kind_of_terminator_reads() -> None:
    assert parse_job(terminator(TEARDROP + 'length = "70 mm"')).terminator.length_mm == 70
    assert parse_job(terminator(DEADEYE + 'lashing_holes = 3\nlashing_hole = "9 mm"')).terminator.lashing_holes == 3
    pin = parse_job(terminator('kind = "pin"\nbearing_diameter = "20 mm"\nwidth = "9 mm"')).terminator
    assert pin.groove_radius_mm is None


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("schema = 1\nname = splice\n", 2),
        ("schema = 1\n[rope\n", 2),
        ("schema = 1\nschema = 1\n", 2),
        ("schema = 1\n[rope]\ndiameter = 8 mm\n", 3),
        ('name = "x', 1),
    ],
)
def test_what_is_not_toml(text: str, line: int) -> None:
    error = refused(text)
    assert error.what.startswith("this is not TOML")
    assert error.line == line


def test_measures_without_quotes_get_the_right_hint() -> None:
    assert 'such as diameter = "8 mm"' in refused("[rope]\ndiameter = 8 mm\n").remedy


def test_brackets_too_deep() -> None:
    assert "nested too deeply" in refused("a = " + "[" * 100_000).what


def test_no_such_file(tmp_path: Path) -> None:
    with pytest.raises(JobError, match="there is no such file") as caught:
        read_job(tmp_path / "none.toml")
    assert "fidpath new" in caught.value.remedy


def test_a_folder_is_not_a_file(tmp_path: Path) -> None:
    with pytest.raises(JobError, match="this is not a file"):
        read_job(tmp_path)


def test_not_utf8(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b'schema = 1\nname = "caf\xe9"\n')
    with pytest.raises(JobError, match="not UTF-8") as caught:
        read_job(path)
    assert caught.value.line == 2


def test_too_large(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b"#" * (LARGEST + 1))
    with pytest.raises(JobError, match="too large"):
        read_job(path)


def test_a_byte_order_mark_and_other_line_ends_are_fine(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    assert read_job(path).rope.diameter_mm == 8.0


def test_an_unknown_key_comes_before_what_is_missing_for_it() -> None:
    error = refused(changed('pitch = "7 d"', 'ptich = "7 d"'))
    assert error.key == "rope.ptich"


def test_a_later_phase_gets_its_line(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(GOOD, encoding="utf-8")
    for key, line in (("rope.pitch", 8), ("line.ends.name", 20), ("practice.bury", None)):
        assert with_line(CannotBeMade("x", file=str(path), key=key)).line == line
    assert with_line(CannotBeMade("x", file=str(tmp_path / "gone"), key="rope.pitch")).line is None


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(tmp_path_factory: pytest.TempPathFactory, content: bytes) -> None:
    path = tmp_path_factory.mktemp("any") / "job.toml"
    path.write_bytes(content)
    with pytest.raises(JobError) as caught:
        read_job(path)
    assert "\n" not in str(caught.value)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, GOOD.count("\n") - 1), st.text(max_size=12))
def test_any_line_may_be_replaced(number: int, line: str) -> None:
    lines = GOOD.splitlines()
    lines[number] = line
    try:
        parse_job("\n".join(lines))
    except JobError as error:
        assert error.remedy


KEYS = st.lists(st.from_regex(r"[a-z]{1,6}", fullmatch=True), min_size=1, max_size=30, unique=True)


@given(KEYS, st.data())
def test_lines_are_those_the_keys_stand_on(keys: list[str], data: st.DataObject) -> None:
    values = ['"a # b = c"', "[1,\n 2]", "{x = 1, y = [2, {z = 3}]}", "'''\nk = 1\n[t]\n'''", "1.5 # c", '"""\\\n"""']
    text, expected = "", {}
    for key in keys:
        text += data.draw(st.sampled_from(["", "# note\n", "\n"]))
        expected[key] = text.count("\n") + 1
        text += f"{key} = {data.draw(st.sampled_from(values))}\n"
    assert set(tomllib.loads(text)) == set(keys)
    found = key_lines(text)
    assert {key: found[(key,)] for key in keys} == expected


def test_lines_in_every_kind_of_table() -> None:
    text = """\
a.b = 1
[t]
c = {d = 1, e.f = [1, {g = 2}]}
[[t.list]]
h = 1
[[t.list]]
"i j" = [
  1,
  {k = 3}]
[t.list.sub]
l = 1
"""
    tomllib.loads(text)
    lines = key_lines(text)
    assert lines[("a", "b")] == 1
    assert lines[("t", "c", "e", "f", 1, "g")] == 3
    assert lines[("t", "list", 0, "h")] == 5
    assert lines[("t", "list", 1, "i j", 1, "k")] == 9
    assert lines[("t", "list", 1, "sub", "l")] == 11
    assert line_of(text, ("t", "list", 1, "nothing")) == 6
    assert line_of(text, ("nothing",)) is None


def test_the_new_file_reads_and_every_key_in_its_notes_is_one(tmp_path: Path) -> None:
    assert parse_job(template("my job")).name == "my job"
    with_notes = re.sub(r"^# (\w+ = )", r"\1", template("x"), flags=re.MULTILINE)
    as_teardrop = with_notes.replace('kind = "ring"', 'kind = "teardrop"')
    assert parse_job(re.sub(r"^lashing_hole.*\n", "", as_teardrop, flags=re.MULTILINE)).rope.strength_n == 95000
    path = tmp_path / "A stay (2).toml"
    write_new(path)
    assert read_job(path).name == "A stay 2"


def test_new_in_any_name(tmp_path: Path) -> None:
    for name in ("...", "-", "x" * 130, "Wanten é", "a{b}"):
        assert parse_job(template(name)).name
