"""As built: planned, measured, allowed, and what a difference means at the bench."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from fidpath.cli import main as cli
from fidpath.errors import Exit, JobError
from fidpath.job.job import Job
from fidpath.job.reader import parse_job, read_job
from fidpath.job.template import template
from fidpath.lines import planned_and_measured_sheet as compare_sheet
from fidpath.lines.planned_and_measured import Row, compare, pick_of_eye, read_measured, squeeze_of
from fidpath.planning.planner import make_plan
from lines import BACKSTAY, LOFT, ROOT, SHROUD, backstay, shroud

MEASURED = ROOT / "scenes" / "measured" / "cap-shroud.toml"


def rows(job: Job, tmp_path: Path, text: str) -> dict[str, Row]:
    """The comparison of a job with measurements written so."""
    path = tmp_path / "measured.toml"
    path.write_text(f"schema = 1\n[measured]\n{text}\n", encoding="utf-8")
    return {row.name: row for row in compare(job, read_measured(path, job))}


def eight_millimetre() -> Job:
    """An 8 mm rope by the usual rule: a bury of 576 mm."""
    text = template("x").replace('diameter = "10 mm"', 'diameter = "8 mm"')
    return parse_job(text.replace('fids = ["8 mm", "12 mm"]', 'fids = ["6.4 mm", "9.5 mm"]'))


def test_a_bury_cut_to_a_round_figure_below_the_rule_is_short(tmp_path: Path) -> None:
    """576 mm cut at 22 in (558.8 mm): 17.2 mm short (arithmetic)."""
    job = eight_millimetre()
    row = rows(job, tmp_path, 'bury = "22 in"')["bury"]
    assert row.planned == 576.0
    assert not row.within
    assert compare_sheet.verdict(job, row) == "17.2 mm short: out"
    assert "rope maker" in row.meaning


def test_a_bury_as_long_as_a_tape_can_tell_or_longer_passes(tmp_path: Path) -> None:
    job = eight_millimetre()
    said = {
        length: rows(job, tmp_path, f'bury = "{length} mm"')["bury"] for length in (576.0, 574.0, 572.1, 571.8, 600.0)
    }
    assert [row.within for row in said.values()] == [True, True, True, False, True]
    assert compare_sheet.verdict(job, said[576.0]) == "as planned"
    assert compare_sheet.verdict(job, said[574.0]) == "2 mm short: fine"
    assert said[574.0].meaning == ""


def test_every_tolerance_says_where_it_comes_from() -> None:
    for row in compare(shroud(), read_measured(MEASURED, shroud())):
        assert "no source" in row.allowance or "confidence" in row.allowance, row.name


def test_no_length_measured_by_hand_is_held_nearer_than_half_a_rope_diameter(tmp_path: Path) -> None:
    job = read_job(ROOT / "scenes" / "demo.toml")
    text = 'bury = "700 mm"\neye_length = "98 mm"\nh1_to_h2 = "280 mm"'
    assert all(row.least == -job.rope.diameter_mm / 2 for row in rows(job, tmp_path, text).values())


def test_an_eye_is_put_right_in_picks(tmp_path: Path) -> None:
    job = read_job(ROOT / "scenes" / "demo.toml")
    plan = make_plan(job)
    step = pick_of_eye(plan)
    assert 0.4 * plan.pick < step < 0.6 * plan.pick
    planned = plan.eye.distance + 25.0
    long = rows(job, tmp_path, f'eye_length = "{planned + 3 * step:.2f} mm"')["eye_length"]
    assert not long.within
    assert "put H2 3 picks (18 mm of rope) nearer to H1" in long.meaning and "shorter" in long.meaning
    assert "rolled by one strand" in long.meaning
    short = rows(job, tmp_path, f'eye_length = "{planned - 2 * step:.2f} mm"')["eye_length"]
    assert "put H2 2 picks (12 mm of rope) further from H1" in short.meaning and "longer" in short.meaning
    assert "rolled" not in short.meaning
    near = rows(job, tmp_path, f'eye_length = "{planned + step:.2f} mm"')["eye_length"]
    assert near.within and near.meaning == ""


def test_holes_a_pick_too_far(tmp_path: Path) -> None:
    job = read_job(ROOT / "scenes" / "demo.toml")
    plan = make_plan(job)
    row = rows(job, tmp_path, f'h1_to_h2 = "{plan.station_h2 + plan.pick:.2f} mm"')["h1_to_h2"]
    assert "1 pick too far" in row.meaning and "longer" in row.meaning
    assert not row.within


def test_a_swollen_cover_gives_the_squeeze_that_fits_it(tmp_path: Path) -> None:
    job = read_job(ROOT / "scenes" / "demo.toml")
    plan = make_plan(job)
    assert squeeze_of(job, plan.swollen_diameter) == pytest.approx(job.rope.squeeze, abs=1e-9)
    row = rows(job, tmp_path, f'swollen_diameter = "{1.1 * plan.swollen_diameter:.2f} mm"')["swollen_diameter"]
    assert not row.within
    assert "packs looser" in row.meaning and "squeeze = " in row.meaning


def test_a_finished_line_against_its_interval_and_its_adjuster(tmp_path: Path) -> None:
    inside = rows(shroud(), tmp_path, 'finished_length = "9.341 m"')["finished_length"]
    assert inside.within
    assert compare_sheet.verdict(shroud(), inside) == "9 mm short: fine"
    assert "makes it good" in inside.meaning
    outside = rows(shroud(), tmp_path, 'finished_length = "9.43 m"')["finished_length"]
    assert not outside.within
    assert "reaches 60 mm and can't make it good" in outside.meaning


def test_take_up_against_what_is_believed(tmp_path: Path) -> None:
    text = 'before = "1000 mm"\nafter = "916 mm"'
    row = rows(shroud(), tmp_path, text)["take_up"]
    assert row.measured == 84.0
    assert "With the bury measured too" in row.meaning
    assert row.meaning != (whole := rows(shroud(), tmp_path, text + '\nbury = "720 mm"')["take_up"].meaning)
    assert whole == "The record can join the loft's test splices."


@pytest.mark.parametrize(
    ("job", "text", "what"),
    [
        ("shroud", "", "no measurements"),
        ("shroud", 'bury = "-2 mm"', "greater than zero"),
        ("shroud", 'burry = "2 mm"', "unknown key"),
        ("shroud", 'end = 3\nbury = "2 mm"', "less than or equal"),
        ("backstay", 'end = 2\nbury = "700 mm"', "made-up fitting"),
        ("backstay", 'h1_to_h2 = "150 mm"', "isn't locked"),
        ("demo", 'finished_length = "9 m"', "one end"),
    ],
)
def test_what_measurements_may_not_say(tmp_path: Path, job: str, text: str, what: str) -> None:
    made = {"shroud": shroud, "backstay": backstay, "demo": eight_millimetre}[job]()
    with pytest.raises(JobError, match=what):
        rows(made, tmp_path, text)


def test_the_record_goes_into_the_jobs_folder(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    code = cli.main(["compare", str(SHROUD), str(MEASURED), "--loft", str(LOFT), "--json"])
    out, _ = capsys.readouterr()
    assert code == 0
    record = json.loads((tmp_path / "exports" / "cap shroud" / "as-built-cap-shroud.json").read_text(encoding="utf-8"))
    assert record == json.loads(out)
    assert record["outside"] == []
    assert record["rows"][0]["verdict"] == "2 mm short: fine"
    assert record["test_splice"]["before"] == 1000.0
    assert record["date"] == "2026-03-20"


def test_a_figure_that_is_out_ends_with_its_own_code(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "m.toml"
    path.write_text('schema = 1\n[measured]\nbury = "700 mm"\neye_length = "119 mm"\n', encoding="utf-8")
    code = cli.main(["compare", str(SHROUD), str(path), "--out", str(tmp_path)])
    out, err = capsys.readouterr()
    assert code == Exit.CHECK_FAILED
    assert "bury: 20 mm short: out" in err and "eye" not in err
    assert "eye, throat to crown: 1.1 mm long: fine" in out


def test_all_within_ends_well(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "m.toml"
    path.write_text('schema = 1\n[measured]\nfinished_length = "12.41 m"\n', encoding="utf-8")
    assert cli.main(["compare", str(BACKSTAY), str(path), "--out", str(tmp_path)]) == 0
    out = capsys.readouterr().out
    assert "finished length: 10 mm long: fine" in out
    assert ": out" not in out


def test_no_word_of_strength_but_the_caution() -> None:
    job = shroud()
    found = read_measured(MEASURED, job)
    text = compare_sheet.table(job, found, compare(job, found))
    assert "strong" not in text
    assert text.count("strength") == 1
