"""A job file in, a Job out; and files that are no job files at all."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fidpath.errors import CannotBeMade, JobError
from fidpath.job.reader import LARGEST, parse_job, read_job, with_line
from fidpath.job.rules import rule
from job_texts import GOOD, changed, refused

SCENES = sorted((Path(__file__).parents[2] / "scenes").glob("*.toml"))


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
    assert {job.terminator.kind for job in jobs} == {"ring", "teardrop", "deadeye", "pin", "shackle", "sheave"}
    assert min(job.rope.diameter_mm for job in jobs) == 4
    assert max(job.rope.diameter_mm for job in jobs) == 20
    assert {job.length_unit for job in jobs} == {"mm", "in"}


def test_inches_are_read_by_the_tape_or_else_by_the_rope() -> None:
    inches = changed('diameter = "8 mm"\nstrands', 'diameter = "5/16 in"\nstrands')
    assert parse_job(inches).length_unit == "in"
    assert parse_job(inches).tools.tape_division_mm == 1.5875
    assert parse_job(inches + 'tape_division = "1 mm"\n').length_unit == "mm"


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
