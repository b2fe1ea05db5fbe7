"""The command `mistake`: what is said of the bench, asked for where nothing was said, and the answer."""

from __future__ import annotations

import io
import json
import sys
from pathlib import Path

import pytest

from fidpath.cli import main as cli
from fidpath.cli import mistake_command
from fidpath.errors import Exit
from fidpath.methods.locked_captive.sightings import INSPECTION
from fidpath.methods.registry import method_of

DEMO = Path(__file__).parents[2] / "scenes" / "demo.toml"
QUESTIONS = INSPECTION.questions(method_of("locked-captive"))
BY_KEY = {question.key: question for question in QUESTIONS}


@pytest.fixture(autouse=True)
def registered(monkeypatch: pytest.MonkeyPatch) -> None:
    """The command stands in the command line, once."""
    others = [known for known in cli.app.registered_commands if known.callback is not mistake_command.mistake]
    monkeypatch.setattr(cli.app, "registered_commands", others)
    mistake_command.register(cli.app)


def run(capsys: pytest.CaptureFixture[str], *args: str | Path) -> tuple[int, str, str]:
    code = cli.main(["mistake", *(str(arg) for arg in args)])
    out, err = capsys.readouterr()
    return code, out, err


class Terminal(io.StringIO):
    """Someone at a terminal who types these lines."""

    def isatty(self) -> bool:
        return True


def test_the_answer_at_the_bench(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, DEMO, "--turns", "2", "--hand", "left")
    assert (code, err) == (0, "")
    assert out.startswith("1. THE BIGHT WENT IN AT THE OTHER FACE OF H2 (made at step 9)\n")
    assert "exports/workboat stay/wrong/bight-other-face.png" in out
    assert "Don't load a splice" in out and "qualified rigger" in out
    assert max(len(line) for line in out.splitlines()) <= 120


def test_the_answer_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, DEMO, "--split-h1", "5/7", "--loose", "3 picks", "--json")
    data = json.loads(out)
    assert code == 0
    assert data["sightings"] == {"split_h1": [5, 7], "slack_picks": 3.0}
    assert [one["name"] for one in data["likely"]] == ["split-5-7", "eye-loose"]
    assert data["likely"][0]["picture"] == "exports/workboat stay/wrong/split-5-7.png"
    assert data["cautions"]


def test_without_a_job_no_picture_and_no_figures(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "--daylight")
    assert code == 0
    assert "THE HOLES ARE TOO FAR APART" in out and "[hole gap]" in out and "name its file" in out
    assert ".png" not in out


def test_where_nobody_can_be_asked_the_options_are_named(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO("2\n"))
    code, out, err = run(capsys, DEMO)
    assert (code, out) == (Exit.USAGE, "")
    assert all(f"--{question.key}" in err for question in QUESTIONS)


def test_a_refusal_is_one_line_with_its_option(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "--gap", "12 mm")
    assert (code, out) == (Exit.USAGE, "")
    assert err.startswith("--gap: ") and err.count("\n") == 1


def test_a_job_that_isnt_there(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    code, _, err = run(capsys, tmp_path / "none.toml", "--turns", "1")
    assert code == Exit.JOB and "there is no such file" in err


def test_at_a_terminal_each_question_is_asked_until_it_can_be_read(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    typed = {"turns": ["many", "2"], "hand": ["right"]}
    lines = [line for question in QUESTIONS for line in typed.get(question.key, [""])]
    monkeypatch.setattr(sys, "stdin", Terminal("\n" + "\n".join(lines) + "\n"))
    code, out, err = run(capsys, DEMO)
    assert code == 0
    assert out.startswith("1. THE TAIL'S END WENT IN AT THE OTHER FACE OF H2")
    assert "'many' is not a whole number" in err
    assert BY_KEY["turns"].ask in err and BY_KEY["turns"].ask not in out


def test_what_cant_follow_isnt_asked(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    asked = [question for question in QUESTIONS if question.key not in ("hand", "tight")]
    lines = ["2 picks" if question.key == "loose" else "" for question in asked]
    monkeypatch.setattr(sys, "stdin", Terminal("\n" + "\n".join(lines) + "\n"))
    code, out, err = run(capsys, DEMO)
    assert code == 0 and "THE EYE IS TOO LOOSE" in out
    assert BY_KEY["hand"].ask not in err and BY_KEY["tight"].ask not in err


def test_answering_nothing_is_said_so(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", Terminal("\n" * 40))
    code, out, err = run(capsys)
    assert (code, out) == (Exit.USAGE, "")
    assert "no question was answered" in err


def test_a_picture_is_picked_by_its_number_or_name(capsys: pytest.CaptureFixture[str]) -> None:
    numbers = method_of("locked-captive").mistakes_in_order
    assert [way.step_number for way in numbers] == sorted(way.step_number for way in numbers)
    number = [way.name for way in numbers].index("bight-other-face") + 1
    code, by_number, err = run(capsys, DEMO, "--like", str(number))
    assert (code, err) == (0, "") and by_number.startswith("1. THE BIGHT WENT IN AT THE OTHER FACE OF H2")
    assert run(capsys, DEMO, "--like", "bight-other-face")[1] == by_number
    code, _, err = run(capsys, DEMO, "--like", "99")
    assert code == Exit.USAGE and f"The pictures are 1 to {len(numbers)}" in err
    assert run(capsys, DEMO, "--like", "1", "--daylight")[0] == Exit.USAGE


def test_the_pictures_are_listed_with_their_numbers_and_their_sheet(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    code, out, _ = run(capsys, DEMO, "--pictures")
    assert code == 0 and "  1  " in out and "`fidpath build` draws their pictures" in out
    sheet = tmp_path / "exports" / "workboat stay" / "mistakes.png"
    sheet.parent.mkdir(parents=True)
    sheet.write_bytes(b"")
    assert "Their pictures: exports/workboat stay/mistakes.png" in run(capsys, DEMO, "--pictures")[1]


def test_at_a_terminal_a_picture_is_asked_for_first(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", Terminal("3\n"))
    code, out, err = run(capsys, DEMO)
    assert code == 0 and "looks like picture 3" in out
    assert "Which looks like yours?" in err and QUESTIONS[0].ask not in err
