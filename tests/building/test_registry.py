"""Outputs as registered records: one made up here is built, known again, made anew, and swept like any other."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from importlib import import_module
from pathlib import Path

import pytest
from typer.testing import CliRunner

import made_up
from fidpath.building.pipeline import build
from fidpath.cli.main import app
from fidpath.errors import CannotBeMade, NotOurs
from fidpath.machine.digest import SETTLING
from fidpath.methods.method import Method
from fidpath.methods.registry import method_of
from fidpath.outputs.registered import all_outputs
from fidpath.outputs.registered.finished_splice import CHECK
from fidpath.outputs.registry import OUTPUTS, Output, register
from jobs import a_job

ROOT = Path(__file__).parents[2]

WITHOUT_A_SAY = {
    "pint", "pydantic", "pyvista", "rich", "starlette", "tomlkit", "typer", "uvicorn",
}  # fmt: skip
"""Dependencies that decide no byte of what a build writes: they read jobs, or show and serve what is there."""


@pytest.fixture
def alone(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """No outputs are registered but the two made up ones."""
    for output in all_outputs():
        monkeypatch.delitem(OUTPUTS, output.name)
    register(made_up.WORDS)
    register(made_up.BOOK)
    yield
    for output in (made_up.WORDS, made_up.BOOK):
        OUTPUTS.pop(output.name, None)


def recaptioned(name: str) -> Method:
    """The method with another caption at its second step."""
    known = method_of(name)
    steps = [replace(step, caption="An odd caption") if k == 1 else step for k, step in enumerate(known.steps)]
    return replace(known, steps=tuple(steps))


def test_a_made_up_output_is_built_known_again_made_anew_and_swept(
    alone: None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = a_job(strands=8, bury=14.0)
    written = build(job, tmp_path)
    captions = [step.caption for step in method_of("locked-captive").steps[:3]]
    assert [path.relative_to(tmp_path).as_posix() for path in written] == [
        "book.txt", "words/0.txt", "words/1.txt", "words/2.txt",
    ]  # fmt: skip
    assert (tmp_path / "words" / "2.txt").read_text() == captions[2]
    assert captions[1] in (tmp_path / "book.txt").read_text()

    before = made_up.stamps(tmp_path)
    assert build(job, tmp_path) == written
    assert made_up.stamps(tmp_path) == before

    monkeypatch.setattr("fidpath.building.request.method_of", recaptioned)
    build(job, tmp_path)
    now = made_up.stamps(tmp_path)
    changed = {name for name, when in now.items() if before.get(name) != when and not name.startswith(".")}
    assert changed == {"words/1.txt", "book.txt"}
    lines = (tmp_path / "book.txt").read_text().splitlines()
    assert [line.split()[0] for line in lines] == ["1", "2", "3"] and lines[1].endswith("An odd caption")
    build(job, tmp_path)
    assert made_up.stamps(tmp_path) == now

    (tmp_path / "words" / "notes.txt").write_text("mine")
    OUTPUTS.pop("book")
    assert len(build(job, tmp_path)) == 3
    assert not (tmp_path / "book.txt").exists()
    OUTPUTS.pop("words")
    assert build(job, tmp_path) == []
    assert [path.name for path in tmp_path.rglob("*.txt")] == ["notes.txt"]


def test_a_file_of_the_users_own_refuses_a_made_up_output_too(alone: None, tmp_path: Path) -> None:
    (tmp_path / "words").mkdir()
    (tmp_path / "words" / "1.txt").write_text("mine")
    with pytest.raises(NotOurs, match=r"1\.txt exists"):
        build(a_job(strands=8, bury=14.0), tmp_path)
    assert [path.name for path in tmp_path.rglob("*")] == ["words", "1.txt"]


def test_an_option_not_asked_for_stays_while_it_fits(
    alone: None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("words", "book"):
        OUTPUTS[name] = replace(OUTPUTS[name], option="steps")
    job = a_job(strands=8, bury=14.0)
    written = build(job, tmp_path)
    assert build(job, tmp_path, steps=False) == written
    (tmp_path / "book.txt").unlink()
    assert build(job, tmp_path, steps=False) == written
    monkeypatch.setattr("fidpath.building.request.method_of", recaptioned)
    assert build(job, tmp_path, steps=False) == []


def test_nothing_is_begun_of_the_finished_splice_before_it_passed_its_check(
    alone: None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    marks = tmp_path / "marks"
    marks.mkdir()
    monkeypatch.setenv("FIDPATH_TEST_MARKS", str(marks))
    monkeypatch.setitem(OUTPUTS, "finished-check", replace(CHECK, make=made_up.make_refusal))
    monkeypatch.setitem(OUTPUTS, "marks", made_up.MARKS)
    with pytest.raises(CannotBeMade, match="misses its bounds"):
        build(a_job(strands=8, bury=14.0), tmp_path / "out")
    assert [path.name for path in marks.iterdir()] == ["other"]
    assert list((tmp_path / "out").rglob("*.txt")) == []


def test_a_draft_stands_until_what_replaces_it_is_there_and_is_not_made_again(
    alone: None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    job, book = a_job(strands=8, bury=14.0), tmp_path / "book.txt"
    monkeypatch.setitem(OUTPUTS, "draft", made_up.DRAFT)
    OUTPUTS["book"] = replace(made_up.BOOK, make=made_up.make_nothing)
    with pytest.raises(ZeroDivisionError):
        build(job, tmp_path)
    assert book.read_text() == "a draft"
    drafted = made_up.stamps(tmp_path)

    OUTPUTS["book"] = made_up.BOOK
    assert sorted(path.name for path in build(job, tmp_path)) == ["0.txt", "1.txt", "2.txt", "book.txt"]
    assert "2" in book.read_text()
    now = made_up.stamps(tmp_path)
    assert {name for name, when in now.items() if drafted.get(name) != when} == {
        "book.txt", ".fidpath-cache/book.json"
    }  # fmt: skip
    build(job, tmp_path)
    assert made_up.stamps(tmp_path) == now
    book.unlink()
    build(job, tmp_path)
    assert "2" in book.read_text()


def test_a_name_is_registered_once() -> None:
    with pytest.raises(ValueError, match="page"):
        register(Output("page", "", (), made_up.make_book))


def test_what_an_output_needs_is_there_and_needs_nothing_itself() -> None:
    known = {output.name: output for output in all_outputs()}
    for output in known.values():
        assert [name for name in output.needs if known[name].needs] == []


def test_outputs_are_functions_of_modules_and_say_what_they_are() -> None:
    for output in all_outputs():
        assert getattr(import_module(output.make.__module__), output.make.__name__) is output.make
        assert output.title and not output.title.endswith(".")


def test_every_dependency_is_some_outputs_or_has_no_say_in_bytes() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    needed = {re.split(r"[<>=]", line)[0] for line in project["dependencies"]}
    deciding = {name for output in all_outputs() for name in output.libraries} | set(SETTLING)
    assert needed - deciding - WITHOUT_A_SAY == set()
    assert deciding <= needed


def test_the_help_of_build_lists_every_file() -> None:
    said = CliRunner().invoke(app, ["build", "--help"]).output
    for output in all_outputs():
        if output.files:
            assert output.title in " ".join(said.split()), output.name


@pytest.mark.parametrize("output", [output for output in all_outputs() if output.files], ids=lambda output: output.name)
def test_the_readme_names_every_file_or_its_folder(output: Output) -> None:
    text = (ROOT / "README.md").read_text().split("## What you get")[1].split("## Cautions")[0]
    for pattern in output.files:
        folder = f"`{pattern.partition('/')[0]}/`" if "/" in pattern else ""
        name = pattern.partition("{")[0] or pattern.rpartition("}")[2]
        assert folder in text if folder else name in text, pattern
