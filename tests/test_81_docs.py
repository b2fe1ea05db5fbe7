"""Documentation that runs: every snippet, the made pages, the gallery's quick figures. `make docs` builds all of it."""

from __future__ import annotations

import re
import runpy
import shlex
import sys
from pathlib import Path

import matplotlib as mpl
import pytest
import typer

import fidpath
from fidpath import schema
from fidpath.cli import app, main
from fidpath.practice_rules import rules
from fidpath.reading import parse_job

ROOT = Path(__file__).parent.parent
DOCS = ROOT / "docs"
PAGES = [ROOT / "README.md", *sorted(DOCS.glob("*.md"))]
QUICK = ("new", "plan")
"""Commands run for their output; the others for their being understood."""


def blocks(page: Path, language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", page.read_text(encoding="utf-8"), re.M | re.S)


def jobs() -> list[tuple[str, str]]:
    found = [(page.name, block) for page in PAGES for block in blocks(page, "toml")]
    return [(name, text) for name, text in found if "schema = 1" in text and "\nrope = {" in text]


@pytest.mark.parametrize(("name", "text"), jobs(), ids=[f"{k}-{name}" for k, (name, _) in enumerate(jobs())])
def test_a_job_shown_can_be_planned(name: str, text: str) -> None:
    assert fidpath.plan(parse_job(text, name, whole_line=True)).bury_length > 0


def test_python_shown_runs(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir(ROOT)
    names: dict[str, object] = {}
    for block in blocks(DOCS / "python.md", "python"):
        exec(compile(block, "python.md", "exec"), names)
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("720 ")
    assert lines[1:] == ["3 ropes"]  # the key that there is none of, in the third line


def consoles() -> list[tuple[str, str, str]]:
    found = []
    for page in PAGES:
        for block in blocks(page, "console"):
            for part in re.split(r"^\$ ", block, flags=re.M)[1:]:
                command, _, output = part.partition("\n")
                found.append((page.name, command, output.strip()))
    return found


@pytest.mark.parametrize(("page", "command", "output"), consoles(), ids=[f"{k}" for k, _ in enumerate(consoles())])
def test_a_command_shown_is_understood_and_says_what_is_shown(
    page: str, command: str, output: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    monkeypatch.chdir(tmp_path)
    program, *words = shlex.split(command)
    assert program == "fidpath", page
    if words[0] not in QUICK:
        commands = typer.main.get_command(app).commands  # type: ignore[attr-defined]
        options = {text for one in commands[words[0]].params for text in (*one.opts, *one.secondary_opts)}
        assert {word for word in words if word.startswith("-")} <= options
        return
    if words[0] != "new":
        main(["new", "eye.toml"])
        slip = blocks(DOCS / "first-splice.md", "toml")[0].replace('diameter = "8 mm"', 'diameter = "8"')
        Path("slip.toml").write_text(slip)
        capsys.readouterr()
    code = main(words)
    said = capsys.readouterr()
    assert code == (3 if "slip" in command else 0)
    if output:
        assert (said.out + said.err).strip() == output


def test_pages_made_from_the_program_leave_nothing_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(DOCS)
    made = __import__("made_pages")
    keys = {
        info.alias or key for models in schema.TABLES.values() for m in models for key, info in m.model_fields.items()
    }
    page = made.job_file()
    assert {key for key in keys if f"| `{key}` |" not in page} == set()
    assert 'a length with its unit: `"8 mm"`' in page and "| 1 to 200 mm |" in page
    assert all(f"| `{name}` |" in made.practice() for name in rules())
    commands = made.commands()
    assert all(f"## fidpath {name}\n" in commands for name in typer.main.get_command(app).commands)  # type: ignore[attr-defined]
    assert "`--no-steps`" in commands or "`--steps`" in commands


def test_every_page_is_in_the_contents() -> None:
    contents = (DOCS / "index.md").read_text()
    listed = {
        line.strip() for block in re.findall(r"```\{toctree\}\n(.*?)```", contents, re.S) for line in block.split("\n")
    }
    assert {page.stem for page in DOCS.glob("*.md")} - {"index"} <= listed


@pytest.mark.parametrize("name", ["plot_1_braid", "plot_2_cover"])
def test_a_figure_of_the_gallery_is_made(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    mpl.use("Agg")
    monkeypatch.chdir(DOCS / "gallery")
    plt = sys.modules.get("matplotlib.pyplot") or __import__("matplotlib.pyplot").pyplot
    before = set(plt.get_fignums())
    runpy.run_path(f"{name}.py")
    assert len(set(plt.get_fignums()) - before) == 1
    plt.close("all")
