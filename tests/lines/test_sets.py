"""Sets of lines: one cut list; what fails is named and the rest go on."""

from __future__ import annotations

import csv
import io
import json
import os
from pathlib import Path

import pytest

from fidpath.cli import main as cli
from fidpath.errors import Exit, JobError
from fidpath.lines import set_sheet
from fidpath.lines.line import make_line
from fidpath.lines.loft_file import read_loft
from fidpath.lines.set_file import read_set, read_spools
from fidpath.lines.sets import make_set
from lines import SETS

BOAT, FLEET, STOCK = SETS / "boat.toml", SETS / "fleet.csv", SETS / "stock.csv"


def copied(tmp_path: Path, name: str, *pairs: tuple[str, str]) -> Path:
    """A set in a folder of its own, its paths still leading to the scenes."""
    text = (SETS / name).read_text(encoding="utf-8")
    home = os.path.relpath(SETS.parent, tmp_path)
    text = text.replace("../lines/", f"{home}/lines/").replace("../loft/", f"{home}/loft/")
    for old, new in pairs:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    return path


def test_a_set_plans_every_line_as_it_would_be_planned_alone() -> None:
    wanted = read_set(BOAT)
    assert wanted.loft is not None
    done = make_set(wanted, read_loft(wanted.loft))
    assert [each.name for each in done.planned] == ["cap shroud", "aft shroud", "backstay"]
    assert done.failed == ()
    for each in done.planned:
        alone = make_line(each.plan.job, each.plan.estimate)
        assert alone.rope_to_cut == pytest.approx(each.plan.rope_to_cut)
        assert 0 <= each.cut - alone.rope_to_cut < 1
    assert done.planned[0].plan.estimate.tests == ("T1", "T2", "T3")
    assert done.planned[2].plan.estimate.tests == ()


def test_totals_and_spools_per_rope() -> None:
    wanted = read_set(BOAT)
    ten, twelve = make_set(wanted).totals
    assert (len(ten.pieces), len(twelve.pieces)) == (4, 1)
    assert ten.pieces[0][0] == "cap shroud, 1 of 2"
    assert ten.allocation is not None and ten.allocation.optimal
    assert {ten.spools[s].name for s in ten.allocation.spool_of if s is not None} == {"spool A"}


def test_a_line_that_fails_is_named_and_the_rest_go_on() -> None:
    done = make_set(read_set(FLEET, decimal_comma=True))
    assert [each.name for each in done.failed] == ["short strop"]
    assert "the two buries would meet" in str(done.failed[0].error)
    assert [each.name for each in done.planned] == ["red shroud", "green shroud", "backstay"]


def test_decimal_commas_are_read_where_they_are_declared() -> None:
    lines = {asked.name: asked.job for asked in read_set(FLEET, decimal_comma=True).lines}
    green = lines["green shroud"]
    assert green is not None
    assert green.line.finished_length_mm == 9420.0
    assert green.line.ends[0].eye_length_mm == 120.0
    assert [spool.length for spool in read_spools(STOCK, decimal_comma=True)] == [60000.0, 45500.0, 40000.0]


def test_undeclared_decimal_commas_are_not_guessed() -> None:
    with pytest.raises(JobError, match=r"fleet\.csv:1: the cells are separated by semicolons. Use --decimal-comma"):
        read_set(FLEET)


@pytest.mark.parametrize(
    ("old", "new", "line", "what"),
    [
        ("finished length [m]", "finished lenght [m]", 1, "no column is called"),
        ("9,42;120", "9,42,0;120", 3, "comma"),
        ("9,42;120", "9,42 kg;120", 3, "is a mass"),
        ("9,42;120", "9,42;120;7", 3, "6 cells for 5 columns"),
        (";1;1,20", ";one;1,20", 4, "quantity"),
        ("green shroud", "red shroud", None, "occurs twice"),
        ("finished length [m]", "finished length", 2, "no unit"),
    ],
)
def test_what_a_table_may_not_say(tmp_path: Path, old: str, new: str, line: int | None, what: str) -> None:
    with pytest.raises(JobError, match=what) as refused:
        read_set(copied(tmp_path, "fleet.csv", (old, new)), decimal_comma=True)
    if what != "comma":
        assert refused.value.line == line


def test_a_job_file_that_cannot_be_read_fails_its_lines_only(tmp_path: Path) -> None:
    path = copied(tmp_path, "fleet.csv")
    path.write_text(path.read_text(encoding="utf-8").replace("line-backstay", "none"), encoding="utf-8")
    done = make_set(read_set(path, decimal_comma=True))
    assert [each.name for each in done.failed] == ["short strop", "backstay"]
    assert "no such file" in str(done.failed[1].error)


def test_a_toml_set_may_keep_its_lines_in_a_table(tmp_path: Path) -> None:
    copied(tmp_path, "fleet.csv")
    path = copied(
        tmp_path, "boat.toml", ('name = "workboat rig"', 'name = "x"\nlines_file = "fleet.csv"\ndecimal_comma = true')
    )
    with pytest.raises(JobError, match="occurs twice"):
        read_set(path)
    text = path.read_text(encoding="utf-8").replace('name = "backstay"', 'name = "main backstay"')
    path.write_text(text, encoding="utf-8")
    assert len(read_set(path).lines) == 7


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ('quantity = 2\nfinished_length = "9.35 m"', "quantity = 0", "lines[1].quantity"),
        ('length = "50 m"', 'length = "50"', "spools[1].length"),
        ('loft = "', 'lofft = "', "lofft"),
    ],
)
def test_what_a_set_may_not_say(tmp_path: Path, old: str, new: str, key: str) -> None:
    with pytest.raises(JobError) as refused:
        read_set(copied(tmp_path, "boat.toml", (old, new)))
    assert refused.value.key == key
    assert refused.value.line is not None


def test_the_cut_list_and_its_table() -> None:
    done = make_set(read_set(BOAT))
    text = set_sheet.cut_list(done)
    assert "the least possible" in text
    assert text.count("cut the rope") == 3
    rows = list(csv.DictReader(io.StringIO(set_sheet.as_csv(done))))
    assert [row["name"] for row in rows] == ["cap shroud", "aft shroud", "backstay"]
    assert float(rows[0]["rope_to_cut [mm]"]) == done.planned[0].cut


def test_the_command_names_what_failed_and_says_so_by_its_code(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    code = cli.main(["set", str(FLEET), "--decimal-comma", "--spools", str(STOCK), "--json", "--out", str(tmp_path)])
    out, err = capsys.readouterr()
    assert code == Exit.CANNOT_BE_MADE
    assert "1 can't be made: short strop" in err
    data = json.loads(out)
    assert len(data["lines"]) == 3
    assert json.loads((tmp_path / "set.json").read_text(encoding="utf-8")) == data
    assert {path.name for path in tmp_path.iterdir()} == {"cut-list.txt", "cut-list.csv", "set.json"}


def test_a_set_that_can_be_made_ends_well(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["set", str(BOAT)]) == 0
    assert capsys.readouterr().err == ""


def test_no_room_is_said(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = copied(tmp_path, "boat.toml", ('length = "50 m"', 'length = "11 m"'))
    assert cli.main(["set", str(path)]) == Exit.CANNOT_BE_MADE
    out, err = capsys.readouterr()
    assert "NO ROOM FOUND for " in out
    assert "have no room on the spools" in err
