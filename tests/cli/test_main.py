"""The command line: what it prints, where, and the code it ends with."""

import json
import os
import re
import subprocess
import sys
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

from fidpath.cli import main as cli
from fidpath.errors import CannotBeMade, CheckFailed, EnvironmentProblem, Exit, FidpathError, JobError, OutputError

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "scenes" / "demo.toml"
OWN_SOURCE = {"PYTHONPATH": str(ROOT / "src")}
ROOMS = {path.parent.name for path in (ROOT / "src" / "fidpath").glob("*/__init__.py")}


def run(capsys: pytest.CaptureFixture[str], *args: str | Path) -> tuple[int, str, str]:
    """Exit code, stdout and stderr of a command."""
    code = cli.main([str(arg) for arg in args])
    out, err = capsys.readouterr()
    return code, out, err


def separate(*args: str) -> subprocess.CompletedProcess[str]:
    """A command in a process of its own."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
    return subprocess.run(
        [sys.executable, "-m", "fidpath", *args], capture_output=True, text=True, env=environment, check=False
    )


def test_new_then_plan(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "stay.toml"
    assert run(capsys, "new", path) == (0, f"wrote {path}\n", "")
    code, out, err = run(capsys, "plan", path)
    assert (code, err) == (0, "")
    assert out.startswith("stay: ")


def test_new_never_overwrites(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "stay.toml"
    path.write_text("mine", encoding="utf-8")
    code, out, err = run(capsys, "new", path)
    assert (code, out) == (Exit.OUTPUT, "")
    assert "this file exists" in err
    assert path.read_text(encoding="utf-8") == "mine"


def test_new_into_no_folder(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    code, _, err = run(capsys, "new", tmp_path / "none" / "stay.toml")
    assert code == Exit.OUTPUT
    assert "can't be written" in err


def test_plan_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "plan", "--json", DEMO)
    assert (code, err) == (0, "")
    assert json.loads(out)["bury_length_mm"] == 720.0


def test_plan_in_both_units(capsys: pytest.CaptureFixture[str]) -> None:
    assert "720 mm (28 3/8 in)" in run(capsys, "plan", DEMO, "--both-units")[1]
    assert "28 3/8 in" not in run(capsys, "plan", DEMO)[1]


def test_a_wrong_job_is_one_line_and_its_own_code(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(DEMO.read_text(encoding="utf-8").replace("strands = 12", "strnads = 12"), encoding="utf-8")
    for command in ("plan", "verify", "build"):
        code, out, err = run(capsys, command, path)
        assert (code, out) == (Exit.JOB, "")
        assert err == f'{path}:9: rope.strnads: unknown key. Did you mean "strands"?\n'


def test_what_the_plan_refuses_gets_its_line(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    text = DEMO.read_text(encoding="utf-8").replace("strands = 12", "strands = 10")
    path.write_text(text.replace('weave = "over-two"', 'weave = "over-one"'), encoding="utf-8")
    code, _, err = run(capsys, "plan", path)
    assert code == Exit.CANNOT_BE_MADE
    assert err.startswith(f"{path}:9: rope.strands: ")


def test_what_a_deep_phase_refuses_gets_its_file_and_line(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    text = DEMO.read_text(encoding="utf-8").replace('hole_gap = "1 d"', 'hole_gap = "0.1 d"')
    path.write_text(text, encoding="utf-8")
    code, _, err = run(capsys, "plan", path)
    assert code == Exit.CANNOT_BE_MADE
    line = text.split("hole_gap")[0].count("\n") + 1
    assert err.startswith(f"{path}:{line}: practice.hole_gap: ")


def no_building(monkeypatch: pytest.MonkeyPatch, failures: list[dict[str, object]]) -> list[Path]:
    """Stand in for building and verifying; returns the list of folders to build into."""
    built: list[Path] = []
    report = {"name": "x", "finished": {"overlap_max": 0.0315, "split": {"H1": [6, 6]}, "failures": failures}}
    monkeypatch.setattr("fidpath.building.verify_job", lambda job, *asked: report)
    monkeypatch.setattr("fidpath.building.build", lambda job, out, **asked: built.append(out))
    return built


def test_a_check_that_passes(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    no_building(monkeypatch, [])
    code, out, err = run(capsys, "verify", DEMO)
    assert (code, err) == (0, "")
    assert re.search(r"deepest run of a strand into another +3.15 % +at most 2 %", out)
    assert re.search(r"strands on each side of H1 +6 and 6 +half and half", out)
    assert out.splitlines()[-1].startswith("All within their bounds.")
    code, out, _ = run(capsys, "verify", DEMO, "--json")
    assert (code, json.loads(out)["finished"]["split"]) == (0, {"H1": [6, 6]})


def test_a_check_that_fails_says_which_and_where(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    failure = {"check": "overlap_max", "value": 0.0315, "bound": 0.02, "where_mm": 34.2}
    no_building(monkeypatch, [failure, {"check": "tail_enclosed", "value": False, "bound": True, "where_mm": None}])
    code, out, err = run(capsys, "verify", DEMO, "--json")
    assert code == Exit.CHECK_FAILED
    assert len(json.loads(out)["finished"]["failures"]) == 2
    assert "strands run into one another by 3.1% of their thickness" in err
    assert "at 34 mm of rope from the throat (change rope.pitch" in err
    assert "the tail shows outside the cover (change practice.bury" in err
    assert "overlap_max" not in err
    assert err.count("\n") == 1
    _, out, _ = run(capsys, "verify", DEMO)
    assert out.splitlines()[-1] == "2 beyond their bounds: don't work from any of this"


@pytest.mark.parametrize("command", ["plan", "verify", "build"])
def test_a_splice_there_is_none_of_is_refused_before_anything_is_done(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path, command: str
) -> None:
    no_building(monkeypatch, [])
    job = tmp_path / "job.toml"
    job.write_text(DEMO.read_text(encoding="utf-8").replace('splice = "locked-captive"', 'splice = "foo"'), "utf-8")
    code, out, err = run(capsys, command, job)
    assert (code, out) == (Exit.JOB, "")
    assert "line.ends[1].splice" in err and "locked-captive" in err


def test_build_goes_under_the_jobs_name_or_where_told(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    built = no_building(monkeypatch, [])
    assert run(capsys, "build", DEMO) == (0, f"wrote {Path('exports') / 'workboat stay'}\n", "")
    assert run(capsys, "build", DEMO, "--out", tmp_path)[0] == 0
    assert built == [Path("exports") / "workboat stay", tmp_path]


def test_letters_that_move_the_cursor_stay_out_of_the_terminal(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = tmp_path / "job.toml"
    path.write_text('schema = 1\n"\\u001b[2J\\n" = 1\n', encoding="utf-8")
    _, _, err = run(capsys, "plan", path)
    assert "\x1b" not in err
    assert err.count("\n") == 1


@pytest.mark.parametrize(
    ("args", "word"),
    [
        (("plan",), "JOB"),
        (("plan", "--jsn", "x"), "--jsn"),
        (("paln", "x"), "paln"),
        (("plan", "a", "b"), "b"),
    ],
)
def test_usage(capsys: pytest.CaptureFixture[str], args: tuple[str, ...], word: str) -> None:
    code, out, err = run(capsys, *args)
    assert code == Exit.USAGE
    assert out == ""
    assert word in err


@pytest.mark.parametrize("kind", [JobError, CannotBeMade, CheckFailed, OutputError, EnvironmentProblem])
def test_every_error_ends_with_its_code(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, kind: type[FidpathError]
) -> None:
    def fails(path: Path) -> None:
        raise kind("it went wrong", "do it again", key="rope.pitch")

    monkeypatch.setattr("fidpath.job.read_job", fails)
    shown = f"{DEMO}:11: rope.pitch: it went wrong. do it again\n"
    assert run(capsys, "plan", DEMO) == (int(kind.code), "", shown)


def test_stopped_by_hand(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(path: Path) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("fidpath.job.read_job", stopped)
    assert run(capsys, "plan", DEMO)[0] == Exit.INTERRUPTED


def test_codes_are_documented() -> None:
    text = (ROOT / "docs" / "exit-codes.md").read_text(encoding="utf-8")
    for code in Exit:
        assert f"| {int(code)} |" in text


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "--version")
    assert code == 0
    assert out.startswith("fidpath")


FOR_HELP = {"annotated-doc", "shellingham", "typer"}
FOR_OPTIONS = {*FOR_HELP, "annotated-types", "pydantic", "pydantic-core", "typing-extensions", "typing-inspection"}
FOR_PLANS = {*FOR_OPTIONS, "numpy"}
"""What of other people's a command loads. Any more would make somebody wait who only wants a few figures."""


@pytest.mark.parametrize(
    ("args", "packages", "rooms"),
    [
        (["--help"], FOR_HELP, {"cli", "machine"}),
        (["plan", "--help"], FOR_OPTIONS, {"cli", "machine"}),
        (["plan", str(DEMO)], FOR_PLANS, {"cli", "job", "geometry", "planning", "machine", "methods"}),
        (["plan", "--json", str(DEMO)], FOR_PLANS, {"cli", "job", "geometry", "planning", "machine"}),
    ],
    ids=["help", "help of plan", "plan", "plan as JSON"],
)
def test_a_command_loads_what_it_needs_and_no_more(args: list[str], packages: set[str], rooms: set[str]) -> None:
    code = f"""import sys; before = set(sys.modules)
from fidpath.cli import main; assert main.main({args!r}) == 0
print(); print(*(set(sys.modules) - before))"""
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=os.environ | OWN_SOURCE
    )
    loaded = done.stdout.splitlines()[-1].split()
    own = {name.split(".")[1] for name in loaded if name.startswith("fidpath.")}
    known = packages_distributions()
    others = {name.lower().replace("_", "-") for module in loaded for name in known.get(module, ())} - {"fidpath"}
    assert "typer" in others
    assert others <= packages
    assert own & ROOMS <= rooms


def test_a_terminal_without_the_letters_still_gets_its_plan(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(DEMO.read_text(encoding="utf-8").replace("forestay", "étai"), encoding="utf-8")
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "PYTHONIOENCODING": "ascii"}
    done = subprocess.run(
        [sys.executable, "-m", "fidpath", "plan", "--json", str(path)],
        capture_output=True,
        env=environment,
        check=False,
    )
    assert done.returncode == 0
