"""Every way a job's tables and keys can be wrong: refused with the line, the key and the remedy."""

import re

import pytest

from fidpath.job.reader import parse_job
from fidpath.planning.length_figures import lengths
from fidpath.planning.notices import warnings
from fidpath.planning.planner import make_plan
from job_texts import GOOD, changed, refused


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
        ('diameter = "8 mm"\ns', 'diameter = "-8 mm"\ns', 5, "rope.diameter", "greater than zero", "positive"),
        ('diameter = "8 mm"\ns', 'diameter = "0 mm"\ns', 5, "rope.diameter", "greater than zero", "positive"),
        ('diameter = "8 mm"\ns', 'diameter = "8 m"\ns', 5, "rope.diameter", "too large", "1 mm to 200 mm"),
        (
            'diameter = "8 mm"\ns',
            'diameter = "8 d"\ns',
            5,
            "rope.diameter",
            "can't be given in rope diameters",
            "Write it in mm, cm",
        ),
        ('pitch = "7 d"', 'pitch = "70 d"', 8, "rope.pitch", "70 rope diameters is too large", "3 d to 20 d"),
        ('pitch = "7 d"', 'pitch = "7 mm"', 8, "rope.pitch", "too small", "3 d to 20 d"),
        ('pitch = "7 d"', "", 4, "rope.pitch", "this key is missing", 'Until then write pitch = "unknown"'),
        (
            "strands = 12",
            "strands = 10",
            6,
            "rope.strands",
            "10 strands can't close over-two",
            "whether each passes over two or over one",
        ),
        (
            "strands = 12",
            "strands = 7",
            6,
            "rope.strands",
            "don't make a hollow braid",
            "half of them turning each way",
        ),
        ("strands = 12", "strands = 1000", 6, "rope.strands", "don't make a hollow braid", "4 to 48"),
        ("strands = 12", "strands = 12.0", 6, "rope.strands", "12.0 is not a whole number", "whole number"),
        ("strands = 12", "strands = true", 6, "rope.strands", "True is not a whole number", "whole number"),
        ('weave = "over-two"', 'weave = "over-too"', 7, "rope.weave", "not one of the choices", 'mean "over-two"'),
        ('kind = "ring"', 'kind = "rng"', 11, "terminator.kind", "not one of the choices", 'mean "ring"'),
        ('kind = "ring"', "", 10, "terminator.kind", "this key is missing", "deadeye, pin, ring, "),
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
        ('fids = ["10 mm", "6 mm"]', 'fids = ["no. 4"]', 23, "tools.fids[1]", "nor a fid's name", "tools.fid_sizes"),
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
        ('name = "lower end"', 'splice = "plian"', 20, "line.ends[1].splice", "not one of the choices", '"plain"'),
        ('name = "lower end"', 'eye_length = "1 mm"', 20, "line.ends[1].eye_length", "too small", "5 mm"),
        ('name = "test splice"', 'name = "../x"', 2, "name", "can't name a folder", "Leave out"),
        ('name = "test splice"', "", None, "name", "this key is missing", "Add name"),
        ("schema = 1", "schema = 2", 1, "schema", "2 is not a known schema", "schema = 1"),
        ("schema = 1", "schema = true", 1, "schema", "True is not a known schema", "schema = 1"),
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
        ('bury = "-72 d"', "greater than zero"),
        ('bury = "7200 d"', "too large"),
        ("bury = 72", "has no unit"),
        ('hole_gap = "1 kg"', "is a mass"),
        ('throat_angle = "170 deg"', "throat angle of 170 deg can't be"),
        ("taper_share = 1.5", "share of 1.5 can't be"),
        ("taper_drops = 6", "6 drops of two strands from 12 can't be"),
        ("taper_drops = -1", "can't be"),
        ('post_stretch = "80 %"', "can't be"),
        ('reference_tension = "9 lb"', "is a mass, but a force is needed"),
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
        assert error.remedy == "Add [rope] with diameter, strands, weave"


def test_a_length_that_doesnt_fit_the_rope_names_both() -> None:
    error = refused(GOOD.replace('pitch = "7 d"', 'pitch = "5 mm"'))
    assert error.key == "rope.pitch" and error.what.endswith("rope diameters is too small: 5 mm in 8 mm rope")


def test_an_unknown_key_comes_before_what_is_missing_for_it() -> None:
    error = refused(changed('pitch = "7 d"', 'ptich = "7 d"'))
    assert error.key == "rope.ptich"


def test_a_source_of_its_own_stands_beside_its_figure_and_silences_the_rule() -> None:
    short = GOOD + '[practice]\nbury = "50 d"\n'
    assert any(one.name == "bury" for one in warnings(make_plan(parse_job(short))))
    plan = make_plan(parse_job(short + 'bury_source = "maker: splicing sheet"\n'))
    assert not any(one.name == "bury" for one in warnings(plan))
    (bury,) = [figure for figure in lengths(plan) if figure.name == "bury_length"]
    assert bury.source == "maker: splicing sheet"


def test_a_source_without_its_figure_is_refused() -> None:
    error = refused(GOOD + '[practice]\ntaper_source = "maker: sheet"\n')
    assert error.key == "practice.taper_source" and "Give practice.taper_share" in error.remedy


@pytest.mark.parametrize(
    ("written", "pattern"),
    [
        ("true", (7, 1.0)),
        ("{ stitches = 9 }", (9, 1.0)),
        ('{ stitches = 9, spacing = "4 mm", twine = "1 mm" }', (9, 0.5)),
    ],
)
def test_a_lock_stitch_is_a_pattern(written: str, pattern: tuple[int, float]) -> None:
    stitch = parse_job(GOOD + f"[practice]\nlock_stitch = {written}\n").practice.stitch
    assert stitch is not None and (stitch.stitches, stitch.spacing_diameters) == pattern


@pytest.mark.parametrize(
    ("written", "key", "what"),
    [
        ("{ stitches = 0 }", "practice.lock_stitch.stitches", "0 stitches"),
        ("{ stiches = 3 }", "practice.lock_stitch.stiches", "unknown key"),
        ('{ stitches = "3" }', "practice.lock_stitch.stitches", "is not a whole number"),
    ],
)
def test_a_lock_stitch_that_cant_be_is_refused(written: str, key: str, what: str) -> None:
    error = refused(GOOD + f"[practice]\nlock_stitch = {written}\n")
    assert error.key == key and what in error.what
