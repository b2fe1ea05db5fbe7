"""An entry for `fidpath start` among a user's programs, to be clicked: for Linux, macOS and Windows.

Files that fidpath didn't write are never changed: each of its own says so in its text.
"""

from __future__ import annotations

import os
import plistlib
import sys
from collections.abc import Mapping
from pathlib import Path

from fidpath.errors import NotOurs, OutputError
from fidpath.machine.files import make_folder, write_bytes

OURS = "written by fidpath doctor --shortcut"
"""Stands in every file, so that a later one may take its place."""

NAME = "fidpath"
WORDS = "Plan and model rope splices"


def write_shortcuts() -> list[Path]:
    """Writes this system's entry for the Python that runs now; returns its files.

    Raises NotOurs where a file of the user's own has such a name, OutputError where it can't be written.
    """
    entries = entries_for(sys.platform, Path.home(), Path(sys.executable), os.environ)
    for path in entries:
        _check_ours(path)
    for path, content in entries.items():
        make_folder(path.parent)
        write_bytes(path, content)
        if sys.platform != "win32":
            path.chmod(0o755 if path.suffix != ".plist" else 0o644)
    return list(entries)


def entries_for(system: str, home: Path, python: Path, environment: Mapping[str, str]) -> dict[Path, bytes]:
    """The files of an entry on a system, as `sys.platform` names it, by where they go."""
    if system == "win32":
        return _windows(home, python, environment)
    if system == "darwin":
        return _macos(home, python)
    return _linux(home, python, environment)


def _linux(home: Path, python: Path, environment: Mapping[str, str]) -> dict[Path, bytes]:
    """A desktop entry (freedesktop.org, Desktop Entry Specification) among the applications, and on the desktop.

    All its keys are those of version 1.0, which is the one that every validator knows.
    """
    text = f"""\
[Desktop Entry]
# {OURS}
Type=Application
Version=1.0
Name={NAME}
Comment={WORDS}
Exec={_exec_quoted(str(python))} -m fidpath start
Terminal=false
Categories=Engineering;Science;
"""
    shared = environment.get("XDG_DATA_HOME") or str(home / ".local" / "share")
    places = [Path(shared) / "applications"]
    desktop = home / "Desktop"
    places += [desktop] if desktop.is_dir() else []
    return {place / "fidpath.desktop": text.encode("utf-8") for place in places}


def _exec_quoted(path: str) -> str:
    """A path as the key Exec wants it: in quotes, its own marks escaped twice, a per cent sign doubled.

    GLib looks for the program before it halves per cent signs: one in the path hides it, and `env` then stands first.
    """
    before = "env " if "%" in path else ""
    for mark in ("\\", '"', "`", "$"):
        path = path.replace(mark, f"\\{mark}")
    return before + f'"{path}"'.replace("\\", "\\\\").replace("%", "%%")


def _macos(home: Path, python: Path) -> dict[Path, bytes]:
    """A bundle in the user's own Applications: what it is, and a script that runs."""
    bundle = home / "Applications" / "fidpath.app" / "Contents"
    facts = {
        "CFBundleExecutable": "fidpath",
        "CFBundleIdentifier": "fidpath.start",
        "CFBundleInfoDictionaryVersion": "6.0",
        "CFBundleName": NAME,
        "CFBundlePackageType": "APPL",
        "CFBundleShortVersionString": "1.0",
        "CFBundleVersion": "1.0",
        "CFBundleGetInfoString": OURS,
    }
    quoted = str(python).replace("'", "'\\''")
    script = f"#!/bin/sh\n# {OURS}\nexec '{quoted}' -m fidpath start\n"
    return {bundle / "Info.plist": plistlib.dumps(facts), bundle / "MacOS" / "fidpath": script.encode("utf-8")}


def _windows(home: Path, python: Path, environment: Mapping[str, str]) -> dict[Path, bytes]:
    """A command file in the start menu, and on the desktop; its window may stay small, and ends with the page."""
    quoted = str(python).replace("%", "%%")
    text = f'@echo off\r\nrem {OURS}\r\nchcp 65001 >nul\r\nstart "fidpath" /min "{quoted}" -m fidpath start\r\n'
    roaming = environment.get("APPDATA") or str(home / "AppData" / "Roaming")
    places = [Path(roaming) / "Microsoft" / "Windows" / "Start Menu" / "Programs"]
    places += [home / "Desktop"] if (home / "Desktop").is_dir() else []
    return {place / "fidpath.cmd": text.encode("utf-8") for place in places}


def _check_ours(path: Path) -> None:
    """Refuses to change a file that fidpath didn't write. Raises NotOurs, OutputError."""
    try:
        theirs = path.is_symlink() or (path.exists() and OURS.encode() not in path.read_bytes())
    except OSError as problem:
        raise OutputError(f"{path} can't be read: {problem.strerror}", "Move it and try again") from problem
    if theirs:
        raise NotOurs(f"{path} exists and wasn't written by fidpath", "Move it and try again")
