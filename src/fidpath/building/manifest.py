"""What earlier builds made in a folder: each piece of work with the digest of all it came of, so that only what changed
is made again.

A piece's record is written last, after its files; a piece counts as made while its digest and all its files are as they
were. Records are JSON in a hidden folder beside the files. A list of names there says, before anything is written, what
is this program's: any other file is the user's, and is never written over.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
from collections.abc import Collection, Mapping
from pathlib import Path
from typing import Any

from fidpath.errors import NotOurs, OutputError
from fidpath.machine import files as output

HOME = ".kept"
"""The folder of the records."""

NAMES = "names"
"""In it, the paths of all files that were ever written here, each a line of JSON."""

Data = Mapping[str, Any]


class Kept:
    """The pieces of work that a folder holds."""

    def __init__(self, out: Path) -> None:
        self.out, self.home = out, out / HOME
        self.current: set[str] = set()
        self.written: list[Path] = []
        self._before: dict[str, dict[str, Any] | None] = {}
        self._ours: set[str] = set()

    def outdated(self, piece: str, digest: str) -> bool:
        """Whether a piece is known to need making again without looking at its files."""
        record = self._found(piece)
        return record is None or record["digest"] != digest

    def data(self, piece: str, digest: str) -> Data | None:
        """What was kept with a piece that is as it was, else None."""
        if self.outdated(piece, digest):
            return None
        record = self._found(piece)
        assert record is not None
        if any(_hash_of(self.out / name) != wanted for name, wanted in record["files"].items()):
            return None
        self.current.add(piece)
        data: Data = record["data"]
        return data

    def keep(self, piece: str, digest: str, files: Mapping[str, bytes], data: Data) -> None:
        """Writes a piece's files, named by their paths in the folder, and then its record.

        Raises OutputError, and NotOurs where a file of the user's own has such a name.
        """
        self.claim(files)
        for name, content in files.items():
            target = self.out / name
            if target.parent != self.out:
                output.make_folder(target.parent)
            output.write_bytes(target, content)
            self.written.append(target)
        sums = {name: hashlib.sha256(content).hexdigest() for name, content in files.items()}
        output.make_folder(self.home)
        text = json.dumps({"digest": digest, "files": sums, "data": dict(data)}, separators=(",", ":"))
        output.write_text(self.home / f"{piece}.json", text)
        self.current.add(piece)

    def refuse(self, names: Collection[str]) -> None:
        """Raises NotOurs where a file of such a path is there that this program didn't write."""
        there = {name for name in names if (self.out / name).exists()} - self._ours
        if there:
            self._ours |= self._known()
        for name in sorted(there - self._ours):
            what = f"{self.out / name} is there, and is none of fidpath's files"
            raise NotOurs(what, "Move it, or choose another folder with --out")

    def claim(self, names: Collection[str]) -> None:
        """Says that files of these paths are this program's, before they are written. Raises OutputError, NotOurs."""
        self.refuse(names)
        fresh = sorted(set(names) - self._ours)
        if not fresh:
            return
        output.make_folder(self.home)
        lines = "".join(f"\n{json.dumps(name)}" for name in fresh)  # whatever half a line a killed build left
        try:
            with (self.home / NAMES).open("a", encoding="utf-8") as known:  # at once: other builds add theirs
                known.write(f"{lines}\n")
        except OSError as problem:
            what = f"can't write {self.home / NAMES}: {problem.strerror}"
            raise OutputError(what, "Free some room or choose another folder with --out") from problem
        self._ours.update(fresh)

    def _known(self) -> set[str]:
        """The paths of all files that this program has ever written here."""
        found = {
            name for path in self.home.glob("[!.]*.json") for name in (self._found(path.stem) or {"files": ()})["files"]
        }
        with contextlib.suppress(OSError, UnicodeDecodeError):
            for line in (self.home / NAMES).read_text(encoding="utf-8").splitlines():
                with contextlib.suppress(ValueError):
                    found.add(str(json.loads(line)))
        return found

    def files(self) -> list[Path]:
        """The files of all pieces of this build, kept or made."""
        records = [self._record(piece) for piece in sorted(self.current)]
        return sorted(self.out / name for record in records if record is not None for name in record["files"])

    def withdraw(self) -> None:
        """Takes back what this build has written: where a job is refused nothing of it stays."""
        for path in self.written:
            path.unlink(missing_ok=True)

    def sweep(self) -> None:
        """Removes what earlier builds wrote and this one doesn't, where it is still as it was written."""
        mine = set(self.files())
        try:
            self._sweep(mine)
        except OSError as problem:
            what = f"can't remove {problem.filename}: {problem.strerror}"
            raise OutputError(what, "Choose another folder with --out") from problem

    def _sweep(self, mine: set[Path]) -> None:
        for path in sorted(self.home.glob("[!.]*.json")):  # one that begins with a dot is still being written
            record = self._record(path.stem)
            if path.stem in self.current or record is None:
                continue
            for name, wanted in record["files"].items():
                target = self.out / name
                if target not in mine and _hash_of(target) == wanted:
                    target.unlink(missing_ok=True)
                    self._leave(target.parent)
            path.unlink(missing_ok=True)

    def _leave(self, folder: Path) -> None:
        """Removes a folder of the results that has nothing in it any more."""
        if folder != self.out and not any(folder.iterdir()):
            folder.rmdir()

    def _found(self, piece: str) -> dict[str, Any] | None:
        """The record that a piece had when it was first asked for."""
        if piece not in self._before:
            self._before[piece] = self._record(piece)
        return self._before[piece]

    def _record(self, piece: str) -> dict[str, Any] | None:
        """A piece's record; None where there is none, or none that can be read."""
        try:
            record = json.loads((self.home / f"{piece}.json").read_text(encoding="utf-8"))
        except (OSError, ValueError):
            return None
        whole = isinstance(record, dict) and {"digest", "files", "data"} <= set(record)
        inside = whole and all(_inside(name) for name in record["files"])
        return record if inside else None


def _inside(name: str) -> bool:
    """Whether a path leads to somewhere in the folder."""
    path = Path(name)
    return not path.is_absolute() and ".." not in path.parts


def _hash_of(path: Path) -> str | None:
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return None
