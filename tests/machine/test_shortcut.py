"""Entries for `fidpath start` among a user's programs: what stands in them, and what they never write over."""

import configparser
import plistlib
import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from fidpath.errors import NotOurs
from fidpath.machine import shortcut
from live import wait

HOME, ODD = Path("/anna"), Path('/tools/a "b" $c %d/bin/python')


def entries(system: str, python: Path = Path("/tools/bin/python"), home: Path = HOME) -> dict[str, str]:
    found = shortcut.entries_for(system, home, python, {})
    return {path.relative_to(home).as_posix(): content.decode("utf-8") for path, content in found.items()}


def test_a_linux_entry_has_the_keys_that_the_specification_asks_for() -> None:
    """Desktop Entry Specification 1.5 (freedesktop.org, from memory): Type, Name and Exec in [Desktop Entry]."""
    found = entries("linux")
    assert list(found) == [".local/share/applications/fidpath.desktop"]
    parsed = configparser.ConfigParser(interpolation=None, strict=True)
    parsed.optionxform = str  # type: ignore[assignment, method-assign]
    parsed.read_string(next(iter(found.values())))
    entry = parsed["Desktop Entry"]
    assert (entry["Type"], entry["Terminal"]) == ("Application", "false")
    assert shlex.split(entry["Exec"]) == ["/tools/bin/python", "-m", "fidpath", "start"]


def test_a_path_with_marks_in_it_survives_the_two_rounds_of_quoting() -> None:
    text = next(iter(entries("linux", ODD).values()))
    line = next(line for line in text.splitlines() if line.startswith("Exec="))
    once = line.removeprefix("Exec=env ").replace("\\\\", "\\").replace("%%", "%")
    quoted = re.match(r'"((?:[^"\\]|\\.)*)" ', once)
    assert quoted is not None
    assert re.sub(r'\\(["`$\\])', r"\1", quoted[1]) == str(ODD)


@pytest.mark.parametrize("python", [Path("/tools/bin/python"), ODD])
def test_a_linux_entry_passes_the_validator_of_freedesktop_org(python: Path, tmp_path: Path) -> None:
    """Against desktop-file-validate (desktop-file-utils)."""
    validator = shutil.which("desktop-file-validate")
    if validator is None:
        pytest.skip("desktop-file-validate isn't installed (package desktop-file-utils)")
    entry = tmp_path / "fidpath.desktop"
    entry.write_text(next(iter(entries("linux", python).values())), encoding="utf-8")
    done = subprocess.run([validator, entry], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout + done.stderr) == (0, "")


@pytest.mark.parametrize("folder", ["bin", 'a "b"', "$c `d`", "50 %", "back\\slash", "it's"])
def test_a_click_on_a_linux_entry_runs_the_command(tmp_path: Path, folder: str) -> None:
    """Against GLib, whose `gio launch` does what a desktop does: the entry's own quoting is undone there."""
    gio = shutil.which("gio")
    if gio is None or subprocess.run([gio, "help", "launch"], capture_output=True, check=False).returncode:
        pytest.skip("this machine has no gio that launches (package libglib2.0-bin)")
    python, said = tmp_path / folder / "python", tmp_path / "said"
    python.parent.mkdir()
    python.write_text(f"#!/bin/sh\necho \"$@\" > '{said}'\n")
    python.chmod(0o755)
    entry = tmp_path / "fidpath.desktop"
    entry.write_text(next(iter(entries("linux", python).values())), encoding="utf-8")
    subprocess.run([gio, "launch", entry], check=True, timeout=30)
    wait(lambda: said.exists() and said.read_text(), 10)
    assert said.read_text() == "-m fidpath start\n"


def test_a_mac_bundle_names_the_script_that_it_holds() -> None:
    found = entries("darwin", Path("/tools/it's/python"))
    home = "Applications/fidpath.app/Contents"
    facts = plistlib.loads(found[f"{home}/Info.plist"].encode())
    script = found[f"{home}/MacOS/{facts['CFBundleExecutable']}"]
    assert facts["CFBundlePackageType"] == "APPL"
    needed = {
        "CFBundleExecutable",
        "CFBundleIdentifier",
        "CFBundleInfoDictionaryVersion",
        "CFBundleName",
        "CFBundleVersion",
    }
    assert needed <= facts.keys()  # Apple's Information Property List keys, from memory
    assert script.startswith("#!/bin/sh\n")
    assert shlex.split(script.splitlines()[-1]) == ["exec", "/tools/it's/python", "-m", "fidpath", "start"]


def test_a_windows_entry_lies_in_the_start_menu_and_runs_the_same() -> None:
    found = entries("win32")
    ((place, text),) = found.items()
    assert place == "AppData/Roaming/Microsoft/Windows/Start Menu/Programs/fidpath.cmd"
    assert text.endswith('"/tools/bin/python" -m fidpath start\r\n')
    assert "\n" not in text.replace("\r\n", "")


@pytest.mark.parametrize("system", ["linux", "darwin", "win32"])
def test_every_file_says_whose_it_is(system: str) -> None:
    assert all(shortcut.OURS in content for content in entries(system).values())


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.delenv("XDG_DATA_HOME", raising=False)
    (tmp_path / "Desktop").mkdir()
    return tmp_path


def test_its_own_entry_is_renewed_and_can_be_run(home: Path) -> None:
    first = shortcut.write_shortcuts()
    assert first == shortcut.write_shortcuts()
    assert [path.name for path in first] == ["fidpath.desktop"] * 2
    assert all(path.stat().st_mode & 0o111 for path in first)


def test_a_users_own_file_is_never_written_over_nor_anything_else_then(home: Path) -> None:
    own = home / "Desktop" / "fidpath.desktop"
    own.write_text("mine")
    with pytest.raises(NotOurs, match="wasn't written by fidpath"):
        shortcut.write_shortcuts()
    assert own.read_text() == "mine"
    assert not (home / ".local").exists()
