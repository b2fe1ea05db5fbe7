"""`fidpath jig`: what it writes, what it refuses, and the [print] table of a job file."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import typer

from fidpath.cli import jig_command as cli_jig
from fidpath.errors import Exit, NotOurs
from fidpath.job.job import Printing
from fidpath.job.reader import parse_job, read_job
from job_texts import GOOD, refused

DEMO = Path(__file__).parents[2] / "scenes" / "demo.toml"


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]):  # type: ignore[no-untyped-def]
    """Runs the command; returns what it printed. Errors come out as they are raised."""
    app = typer.Typer()
    cli_jig.register(app)
    app.callback()(lambda: None)

    def go(*args: object) -> str:
        app(["jig", *map(str, args)], standalone_mode=False)
        return capsys.readouterr().out

    return go


def test_one_jig_by_its_name(run, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    said = run(DEMO, "rope-gauge", "--out", tmp_path)
    names = {path.name for path in tmp_path.iterdir() if path.is_file()}
    solids = {"rope-gauge-mm.stl", "rope-gauge.3mf", "rope-gauge.svg", "rope-gauge.dxf"}
    assert names == solids | {"jigs.txt", "jigs.json"}
    assert "ROPE GAUGE" in said and "EYE FORMER" not in said


def test_formats_and_json(run, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    said = run(DEMO, "coupon", "--out", tmp_path, "--format", "stl", "--format", "svg", "--json")
    assert {path.suffix for path in tmp_path.iterdir() if path.is_file()} == {".stl", ".svg", ".txt", ".json"}
    assert json.loads(said) == json.loads((tmp_path / "jigs.json").read_text(encoding="utf-8"))


def test_a_model_of_a_step_in_halves(run, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    run(DEMO, "model", "--step", "3a", "--scale", "2.5", "--halves", "--out", tmp_path, "--format", "stl")
    names = sorted(path.name for path in tmp_path.iterdir() if path.suffix == ".stl")
    assert names == [f"model-h1-first-fid-{part}-mm.stl" for part in ("lower", "pin", "upper")]


@pytest.mark.parametrize(
    "args", [("spanner",), ("coupon", "--format", "obj")], ids=["an unknown jig", "an unknown format"]
)
def test_words_that_are_not_known(run, tmp_path: Path, args: tuple[str, ...]) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(Exception, match="there are"):
        run(DEMO, *args, "--out", tmp_path / "new")
    assert not (tmp_path / "new").exists()


def test_a_scale_out_of_bounds(run, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(typer.BadParameter, match="8 times") as caught:
        run(DEMO, "model", "--scale", "8", "--out", tmp_path)
    assert caught.value.param_hint == "--scale" and caught.value.exit_code == Exit.USAGE


def test_a_step_there_is_none_of_is_refused_before_a_folder_is_made(run, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(typer.BadParameter, match=r"no step '9z'.*9b.*bight-in-h2") as caught:
        run(DEMO, "model", "--step", "9z", "--out", tmp_path / "new")
    assert caught.value.param_hint == "--step" and not (tmp_path / "new").exists()


@pytest.mark.parametrize(
    ("said", "state"), [("9b", "bight-in-h2"), ("bight-in-h2",) * 2, ("locked",) * 2, ("no-taper",) * 2]
)
def test_a_step_by_its_number_its_state_or_a_mistake(said: str, state: str) -> None:
    assert cli_jig._state(said, read_job(DEMO)) == state


def test_a_users_own_file_is_not_written_over(run, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    (tmp_path / "coupon-mm.stl").write_text("mine")
    with pytest.raises(NotOurs, match=r"coupon-mm\.stl exists"):
        run(DEMO, "coupon", "--out", tmp_path)
    assert (tmp_path / "coupon-mm.stl").read_text() == "mine"
    (tmp_path / "coupon-mm.stl").unlink()
    for _ in range(2):
        run(DEMO, "coupon", "--out", tmp_path)


def test_the_print_table() -> None:
    assert parse_job(GOOD).printing == Printing()
    text = GOOD + (
        '[print]\nnozzle = "0.6 mm"\nbed = ["250 mm", "210 mm", "0.2 m"]\nclearance = "0.1 mm"\n'
        'slot_shrink = "0.12 mm"\ntext_height = "5 mm"\nplate = "1/8 in"\nkerf = "0.2 mm"\nscale = 2.5\n'
        'fuse = "0.3 mm"\n'
    )
    printing = parse_job(text).printing
    assert printing == Printing(0.6, 0.1, (250.0, 210.0, 200.0), 5.0, 3.175, 0.12, 0.2, 2.5, 0.3)


@pytest.mark.parametrize(
    ("line", "key", "said"),
    [
        ('bed = ["220 mm", "220 mm"]', "print.bed", "don't describe a printer"),
        ('bed = ["220 mm", "50 mm", "220 mm"]', "print.bed[2]", "too small"),
        ("scale = 7", "print.scale", "7 times"),
        ('text_height = "2 mm"', "print.text_height", "too small"),
        ('clearance = "0.5 mm"', "print.clearance", "too large"),
        ('nozle = "0.4 mm"', "print.nozle", "unknown key"),
    ],
)
def test_what_the_print_table_refuses(line: str, key: str, said: str) -> None:
    error = refused(GOOD + "[print]\n" + line + "\n")
    assert error.key == key and said in error.what
    assert error.line == GOOD.count("\n") + 2
