"""`fidpath doctor`, completion, versions: what is found, and what is said where something is missing."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from typer.testing import CliRunner

from fidpath.cli.main import app, main
from fidpath.errors import Exit
from fidpath.machine import doctor

ROOT = Path(__file__).parents[2]
NAMES = [
    "python",
    "packages",
    "drawing",
    "fonts",
    "folder",
    "cache",
    "temporary",
    "browser",
    "display",
    "window",
    "machine",
]


def test_a_machine_that_can_run_the_tests_is_well(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    done = CliRunner().invoke(app, ["doctor", "--json"])
    assert done.exit_code == 0, done.output
    found = json.loads(done.stdout)
    assert found["well"] is True
    assert [one["name"] for one in found["findings"]] == NAMES
    assert all(one["remedy"] for one in found["findings"] if one["state"] != "well")


def test_a_fault_ends_with_the_machines_exit_code_and_says_what_to_do(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(doctor, "DRAWING", "import os; os._exit(9)")
    monkeypatch.setattr(doctor, "WRITING", "")
    assert main(["doctor"]) == Exit.ENVIRONMENT
    said = capsys.readouterr()
    assert "faulty   drawing" in said.out
    assert "dependencies again" in said.out and "dependencies again" in said.err


def test_a_window_that_cannot_be_drawn_lacks_and_nothing_else_is_at_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(doctor, "SHOWING", "raise ImportError('libGL.so.1')")
    found = {one.name: one for one in doctor.findings()}
    assert (found["window"].state, found["drawing"].state) == ("lacking", "well")
    assert "libGL" in found["window"].found and "Mesa" in found["window"].remedy


def test_an_old_or_missing_package_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(doctor, "requires", lambda _name: ["numpy>=99.1", "no-such-rope>=1.0", 'x>=1; extra == "dev"'])
    found = [one.found for one in doctor.findings_of_packages()]
    assert re.fullmatch(r"numpy [\d.]+ is older than 99.1", found[0])
    assert found[1:] == ["no-such-rope isn't there"]


def test_a_folder_that_cannot_be_written_is_a_fault(tmp_path: Path) -> None:
    found = doctor.findings_of_folder("folder", tmp_path / "nowhere", "Elsewhere")
    assert (found.state, found.remedy) == ("faulty", "Elsewhere")


def test_the_version_is_the_same_everywhere(capsys: pytest.CaptureFixture[str]) -> None:
    version = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]["version"]
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"fidpath {version}\n"
    changes = (ROOT / "CHANGELOG.md").read_text().split("\n## ")[1:]
    assert next(part for part in changes if not part.startswith("Unreleased")).startswith(version)
    citation = (ROOT / "CITATION.cff").read_text()
    assert f'version: "{version}"' in citation


def test_the_citation_has_what_its_format_asks_for() -> None:
    """Required keys of the Citation File Format 1.2.0: from memory of that format."""
    keys = dict(re.findall(r"^([\w-]+):(.*)$", (ROOT / "CITATION.cff").read_text(), re.M))
    assert {"cff-version", "message", "title", "authors"} <= set(keys)
    assert keys["cff-version"].strip() == "1.2.0"
    assert keys["license"].strip() == "Apache-2.0"


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_shell_is_told_how_to_complete(shell: str) -> None:
    setting = {**os.environ, "_FIDPATH_COMPLETE": f"source_{shell}"}
    program = "import sys; from fidpath.cli.main import main; sys.exit(main([]))"
    done = subprocess.run([sys.executable, "-c", program], env=setting, capture_output=True, text=True, check=False)
    assert "_FIDPATH_COMPLETE" in done.stdout


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("fidpath ver", ["verify"]),
        ("fidpath jig eye.toml rope", ["rope-gauge"]),
    ],
)
def test_commands_and_jigs_are_completed(typed: str, offered: list[str]) -> None:
    at = str(len(typed.split()) - 1)
    setting = {**os.environ, "_FIDPATH_COMPLETE": "complete_bash", "COMP_WORDS": typed, "COMP_CWORD": at}
    program = "import sys; from fidpath.cli.main import main; sys.exit(main([]))"
    done = subprocess.run([sys.executable, "-c", program], env=setting, capture_output=True, text=True, check=False)
    assert done.stdout.split() == offered


def test_every_exit_code_is_documented() -> None:
    table = re.findall(r"^\| (\d+) \|", (ROOT / "docs" / "exit-codes.md").read_text(), re.M)
    assert sorted(int(code) for code in table) == sorted({1, *(int(code) for code in Exit)})
