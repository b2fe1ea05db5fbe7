"""Documentation that runs: every snippet, the made pages, the gallery's quick figures. `make docs` builds all of it."""

from __future__ import annotations

import ast
import importlib
import inspect
import re
import runpy
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import matplotlib as mpl
import pytest
import typer

import fidpath
from fidpath.cli.main import app, main
from fidpath.job import schema
from fidpath.job.job_table import MOST_STRANDS
from fidpath.job.print_table import LEAST_SCALE, MOST_SCALE
from fidpath.job.reader import parse_job, read_job
from fidpath.job.rules import rules
from fidpath.job.template import template
from fidpath.lines.line import make_line
from fidpath.lines.loft_file import LoftTable, read_loft
from fidpath.lines.loft_file import TestSpliceTable as TriedTable
from fidpath.lines.planned_and_measured import MeasuredFile, MeasuredTable, read_measured
from fidpath.lines.set_file import SetLineTable, SetTable, SpoolTable, read_set

ROOT = Path(__file__).parents[2]
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
    assert fidpath.plan(parse_job(text, name)).bury_length > 0


def test_python_shown_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    shorter = (ROOT / "scenes" / "demo.toml").read_text(encoding="utf-8").replace('"72 d"', '"16 d"')  # to be quick
    (tmp_path / "scenes").mkdir()
    (tmp_path / "scenes" / "demo.toml").write_text(shorter, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    names: dict[str, object] = {}
    for block in blocks(DOCS / "python.md", "python"):
        exec(compile(block, "python.md", "exec"), names)
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("160 ")
    assert lines[1:] == ["3 ropes"]  # the key that there is none of, in the third line


def test_the_line_shown_completes_a_new_job_file() -> None:
    shown = blocks(DOCS / "line.md", "toml")[0]
    before = template("stay").partition("[line]")[0]
    after = "[tools]" + template("stay").partition("[tools]")[2]
    made = make_line(parse_job(before + shown + after))
    assert made.job.line.finished_length_mm == 9350.0


def test_the_practice_file_shown_is_read(tmp_path: Path) -> None:
    loft = tmp_path / "loft.toml"
    loft.write_text(blocks(DOCS / "calibration.md", "toml")[0], encoding="utf-8")
    assert [splice.name for splice in read_loft(loft).tests] == ["T1"]


def test_the_call_shown_of_the_handout_fits_it() -> None:
    tree = ast.parse(blocks(DOCS / "handout.md", "python")[0])
    imports, last = tree.body[0], tree.body[-1]
    assert isinstance(imports, ast.ImportFrom) and isinstance(last, ast.Assign) and isinstance(last.value, ast.Call)
    home = importlib.import_module(str(imports.module))
    assert all(hasattr(home, one.name) for one in imports.names)
    inspect.signature(home.handout).bind(*last.value.args)


def test_what_is_to_be_made_can_be_made() -> None:
    targets = set(re.findall(r"^([a-z]+):", (ROOT / "Makefile").read_text(encoding="utf-8"), re.M))
    for page in (*PAGES, ROOT / "DEVELOPERS.md"):
        text = page.read_text(encoding="utf-8")
        assert set(re.findall(r"^make ([a-z]+)|`make ([a-z]+)`", text, re.M)) <= {
            pair for target in targets for pair in ((target, ""), ("", target))
        }, page


def test_every_block_is_of_a_kind_that_is_tried() -> None:
    tried = {"", "python", "toml", "console", "by hand", "sum", "{toctree}", "{include}"}
    for page in (*PAGES, ROOT / "DEVELOPERS.md"):
        kinds = re.findall(r"^```(.*)$", page.read_text(encoding="utf-8"), re.M)[::2]
        assert {re.sub(r"^(sum|\{include\}) .*", r"\1", kind) for kind in kinds} <= tried, page


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


COMMANDS = {
    "scenes": ["plan"],
    "lines": ["line"],
    "loft": ["calibrate"],
    "sets": ["set"],
    "measured": ["compare", "scenes/lines/line-cap-shroud.toml"],
}
"""What reads the files of each folder of scenes."""


@pytest.mark.parametrize(
    "scene", sorted((ROOT / "scenes").rglob("*.toml")), ids=lambda path: f"{path.parent.name}-{path.stem}"
)
def test_every_scene_is_read_by_its_command(
    scene: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    measured = scene.parent.name == "measured"
    code = main([*COMMANDS[scene.parent.name], str(scene), *(["--out", str(tmp_path)] if measured else [])])
    said = capsys.readouterr()
    assert code == 0
    assert measured or said.err == ""
    assert "rigger" in said.out


def test_pages_made_from_the_program_leave_nothing_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(DOCS)
    made = __import__("made_pages")
    keys = {
        info.alias or key for models in schema.tables().values() for m in models for key, info in m.model_fields.items()
    }
    page = made.job_file()
    assert {key for key in keys if f"| `{key}` |" not in page} == set()
    assert not re.findall(r"^\| `\w+` \|  \|.*", page, re.M)
    assert "| tail to lay out before starting | 1060 mm |" in made.formulas() and "1996) 90" in made.formulas()
    assert 'a length with its unit: `"8 mm"`' in page and "| 1 to 200 mm |" in page and "e+0" not in page
    assert all(f"| `{name}` |" in made.practice() for name in rules())
    assert "| `practice.post_stretch` | stretch allowed" in made.practice()
    assert "| 3 | 2 to 5 |" in page and "| 95 % | 50 % to 99.9 % |" in page and "| 72 d | 6 to 1000 d |" in page
    commands = made.commands()
    assert all(f"## fidpath {name}\n" in commands for name in typer.main.get_command(app).commands)  # type: ignore[attr-defined]
    assert "| `--steps` / `--no-steps` | Build every step and the usual mistakes as well. |  | `--steps` |" in commands
    assert "| `[JOB]` | The job file, for the job's own figures. |" in commands
    assert "| `screen`, `print` | `screen` |" in commands and "| `SHARE` | `0.95` |" in commands


def test_limits_and_keys_written_by_hand_are_the_programs(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(DOCS)
    made = __import__("made_pages")
    checked = "".join(
        path.read_text(encoding="utf-8") for path in (ROOT / "src" / "fidpath" / "job").glob("*table*.py")
    )
    by_constants = {"rope.strands", "print.scale"}
    assert [span for key, span in made.SPANS.items() if key not in by_constants and span not in checked] == []
    assert made.SPANS["rope.strands"] == f"4 to {MOST_STRANDS}"
    assert made.SPANS["print.scale"] == f"{LEAST_SCALE:g} to {MOST_SCALE:g}"
    known = {table: set(schema.keys_of(table)) for table in schema.tables()}
    written = [key for keys in made.KEYS.values() for key in keys] + [*made.SPANS, *made.LEFT_OUT]
    assert [key for key in written if key.rpartition(".")[2] not in known[key.rpartition(".")[0]]] == []
    assert set(made.KEYS) <= set(rules())


def test_every_key_of_a_new_job_file_has_a_note() -> None:
    keys = [line for line in template("x").splitlines() if re.match(r"(# )?[a-z_]+ = ", line)]
    assert len(keys) > 40
    assert [line for line in keys if not re.search(r"\S +# \S", line)] == []


FILES = {
    "a set": (SetTable, SetLineTable, SpoolTable),
    "a loft": (LoftTable, TriedTable),
    "measurements": (MeasuredFile, MeasuredTable),
}
"""What docs/files.md lists the keys of, section by section."""


def test_every_key_of_the_other_files_is_listed_and_needed_where_it_is_said() -> None:
    sections = re.split(r"^## ", (DOCS / "files.md").read_text(encoding="utf-8"), flags=re.M)[1:]
    for section, models in zip(sections, FILES.values(), strict=True):
        fields = [pair for model in models for pair in model.model_fields.items()]
        rows = re.findall(r"^\| `(\w+)` \| [^|]+ \| [^|]+ \|([^|]*)\|", section, re.M)
        assert sorted(key for key, _ in rows) == sorted(info.alias or key for key, info in fields)
        needed = {key for key, said in rows if said.strip() == "yes"}
        assert needed == {info.alias or key for key, info in fields if info.is_required()}


def test_the_other_files_shown_are_read(tmp_path: Path) -> None:
    shown = blocks(DOCS / "files.md", "toml")
    shutil.copytree(ROOT / "scenes", tmp_path, dirs_exist_ok=True)
    a_set, loft, measured = tmp_path / "sets" / "a.toml", tmp_path / "loft" / "loft.toml", tmp_path / "measured.toml"
    for path, text in zip((a_set, loft, measured), shown, strict=True):
        path.write_text(text, encoding="utf-8")
    assert [line.error for line in read_set(a_set).lines] == [None, None]
    assert [splice.name for splice in read_loft(loft).tests] == ["T1"]
    job = read_job(tmp_path / "lines" / "line-cap-shroud.toml")
    assert read_measured(measured, job).lengths["eye_length"] == 121.0


def test_cleaning_leaves_what_it_did_not_make(tmp_path: Path) -> None:
    shutil.copy(ROOT / "Makefile", tmp_path)
    kept = [tmp_path / name for name in ("exports/samples/throat.png", "exports/my eye/plan.json", "docs/line.md")]
    gone = [tmp_path / name for name in ("exports/docs/index.html", "docs/made/practice.md", "build/x", ".venv/x")]
    for path in (*kept, *gone):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.touch()
    subprocess.run(["make", "clean"], cwd=tmp_path, check=True, capture_output=True)
    assert [path for path in kept if not path.exists()] == []
    assert [path for path in gone if path.exists()] == []


def test_every_page_is_in_the_contents() -> None:
    contents = (DOCS / "index.md").read_text()
    listed = {
        line.strip() for block in re.findall(r"```\{toctree\}\n(.*?)```", contents, re.S) for line in block.split("\n")
    }
    assert {page.stem for page in DOCS.glob("*.md")} - {"index"} <= listed


@pytest.mark.parametrize("name", ["plot_1_braid", "plot_2_eye", "plot_3_cover"])
def test_a_figure_of_the_gallery_is_made(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    mpl.use("Agg")
    monkeypatch.chdir(DOCS / "gallery")
    plt = sys.modules.get("matplotlib.pyplot") or __import__("matplotlib.pyplot").pyplot
    before = set(plt.get_fignums())
    runpy.run_path(f"{name}.py")
    assert len(set(plt.get_fignums()) - before) == 1
    plt.close("all")
