"""The folder that a person works in: its files by what they are, opened lately first; new ones never over others."""

from __future__ import annotations

import contextlib
import hashlib
import json
import re
import time
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

from fidpath.errors import JobError, OutputError
from fidpath.machine import files, write_new

Kind = Literal["job", "set", "loft", "measured", "table", "other", "broken"]

NAME = re.compile(r"[^\W_][\w .()-]{0,79}\.(?:toml|csv)", re.IGNORECASE)
"""Plain names of one folder's files."""

OPENED = ".fidpath-opened.json"
"""When each file was last opened, in seconds since 1970."""

MARKS: tuple[tuple[str, Kind], ...] = (
    ("measured", "measured"),
    ("test_splices", "loft"),
    ("ropes", "loft"),
    ("lines", "set"),
    ("lines_file", "set"),
    ("rope", "job"),
)
"""Tables that tell what a file is, the first that it has."""

LARGEST = 1_000_000
"""Bytes of a file that is taken in."""


@dataclass(frozen=True)
class WorkFile:
    """One file of the folder: what it is, what it says it is called, its rope, and when it was last used."""

    file: str
    kind: Kind
    title: str
    about: str
    used: float


class Workshop:
    """One folder. Raises OutputError where it can't be made or written into."""

    def __init__(self, folder: Path) -> None:
        files.make_folder(folder)
        self.folder = folder.resolve()

    def listed(self) -> list[WorkFile]:
        """Every file that fidpath can use, those used lately first."""
        opened = self._opened()
        found = [_work_file(path, opened.get(path.name, 0.0)) for path in self._paths()]
        return sorted(found, key=lambda one: (-one.used, one.file))

    def _paths(self) -> list[Path]:
        return [path for path in self.folder.iterdir() if NAME.fullmatch(path.name) and self._plain(path)]

    def _plain(self, path: Path) -> bool:
        """Whether it is a file of this folder itself, of a size to be read."""
        return path.is_file() and not path.is_symlink() and path.stat().st_size <= LARGEST

    def path(self, name: str) -> Path:
        """A file of the folder by its name. Raises JobError where there is none."""
        path = self.folder / name
        if not NAME.fullmatch(name) or ".." in name or not self._plain(path):
            raise JobError("there is no such file in the folder", "Choose one from the list")
        return path

    def text(self, name: str) -> str:
        """What a file says. Raises JobError."""
        try:
            return self.path(name).read_bytes().decode("utf-8-sig")
        except UnicodeDecodeError:
            raise JobError(f"{name} is not UTF-8 text", "Save it as UTF-8") from None
        except OSError as problem:
            raise JobError(f"{name} can't be read: {problem.strerror}", "Check its permissions") from None

    def add(self, name: str, text: str) -> str:
        """Writes a new file, under the next free name where there is one of this name; returns its name there.

        Raises OutputError.
        """
        plain = checked(name)
        stem, _, suffix = plain.rpartition(".")
        for number in range(1, 1000):
            free = plain if number == 1 else f"{stem[:70]}-{number}.{suffix}"
            try:
                write_new(self.folder / free, text.encode("utf-8"))
            except FileExistsError:
                continue
            except OSError as problem:
                raise OutputError(f"can't write {free}: {problem.strerror}", "Free some space") from problem
            return free
        raise OutputError(f"there are too many files called {plain}", "Give another name")

    def change(self, name: str, text: str, was: str) -> None:
        """Writes a file that a person has edited, where it is still what they were shown (`digest`).

        Raises JobError, OutputError.
        """
        if digest(self.text(name)) != was:
            what = f"{name} has been changed elsewhere since it was opened here"
            raise OutputError(what, "Nothing was written. Copy your text, open the file again and put it in")
        files.write_text(self.path(name), text)

    def note_opened(self, name: str) -> None:
        """Remembers that a file was opened now; where that can't be written, it isn't remembered."""
        known = {**self._opened(), name: time.time()}
        kept = dict(sorted(known.items(), key=lambda each: -each[1])[:200])
        with contextlib.suppress(OutputError):
            files.write_text(self.folder / OPENED, json.dumps(kept))

    def _opened(self) -> dict[str, float]:
        with contextlib.suppress(OSError, ValueError):
            found = json.loads((self.folder / OPENED).read_text(encoding="utf-8"))
            if isinstance(found, dict):
                return {name: float(when) for name, when in found.items() if isinstance(when, int | float)}
        return {}


def digest(text: str) -> str:
    """By what a text is known again."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def checked(name: str) -> str:
    """A plain name of a file, in letters that a folder can have. Raises OutputError for any other."""
    plain = re.sub(r"[^\w .()-]+", "-", name.replace("\\", "/").rpartition("/")[2]).lstrip(" .-_")
    if not NAME.fullmatch(plain) or ".." in plain or files.RESERVED.fullmatch(plain):
        raise OutputError(f"{name[:80]!r} is no name for a file of fidpath", "Choose a .toml or a .csv file")
    return plain


def _work_file(path: Path, opened: float) -> WorkFile:
    used = max(path.stat().st_mtime, opened)
    if path.suffix.lower() == ".csv":
        return WorkFile(path.name, "table", path.stem, "table of lines or spools", used)
    try:
        tables = tomllib.loads(path.read_bytes().decode("utf-8-sig"))
    except (OSError, ValueError, RecursionError):
        return WorkFile(path.name, "broken", path.stem, "can't be read as it stands", used)
    kind: Kind = next((kind for mark, kind in MARKS if mark in tables), "other")
    return WorkFile(path.name, kind, _words(tables.get("name")) or path.stem, _about(tables), used)


def _about(tables: dict[str, Any]) -> str:
    """A job's rope, by its name or its diameter."""
    rope = tables.get("rope")
    return _words(rope.get("name")) or _words(rope.get("diameter")) if isinstance(rope, dict) else ""


def _words(value: object) -> str:
    """A text of the file's, short enough for a list."""
    return value[:120] if isinstance(value, str) else ""
