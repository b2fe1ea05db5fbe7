"""What earlier builds wrote into a folder: each result with the digest of all it was made from, so that only what
changed is made again.

A result's record is written last, after its files; a result is up to date while its digest and all its files are as
they were. Records are JSON in a hidden folder beside the files. A list of names there says, before anything is written,
what is this program's: any other file is the user's, and is never written over.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path
from typing import Any

from fidpath.errors import FidpathError, NotOurs, OutputError
from fidpath.machine import files
from fidpath.outputs import Product, Result

HOME = ".fidpath-cache"
"""The folder of the records."""

OLD_HOME = ".kept"
"""Its name in folders that version 0.1 wrote."""

NAMES = "names"
"""In it, the paths of all files that were ever written here, each a line of JSON."""

Record = Mapping[str, Any]
"""What is written of a result: its digest, its files with their hashes, its data."""


class Manifest:
    """The results that a folder holds."""

    def __init__(self, out: Path) -> None:
        self.out, self.home = out, out / HOME
        self._current: dict[str, Collection[str]] = {}
        self._written: list[Path] = []
        self._before: dict[str, Record | None] = {}
        self._ours: set[str] = set()

    def outdated(self, name: str, digest: str) -> bool:
        """Whether a result is known to need making again without looking at its files."""
        return self._matching(name, digest) is None

    def find(self, name: str, digest: str, *, replaced: bool = False) -> Result | None:
        """A result that is there as it was made, else None. replaced: its files may have become others since."""
        record = self._matching(name, digest)
        if record is None or not (replaced or self._intact(record)):
            return None
        return self._result(record)

    def earlier(self, name: str) -> Result | None:
        """What a result was before this build, from whatever it was made, where its files are as they were written."""
        record = self._first_read(name)
        return self._result(record) if record is not None and self._intact(record) else None

    def up_to_date(self, name: str, digest: str, *, replaced: bool = False) -> Result | None:
        """A result as `find` has it; if it is there it belongs to this build."""
        found = self.find(name, digest, replaced=replaced)
        if found is not None:
            self._current[name] = found.files
        return found

    def write(self, name: str, digest: str, product: Product) -> Result:
        """Writes a result's files and then its record.

        Raises OutputError, and NotOurs where a file of the user's own has such a name.
        """
        self.claim(product.files)
        for path, content in product.files.items():
            target = self.out / path
            if target.parent != self.out:
                files.make_folder(target.parent)
            files.write_bytes(target, content)
            self._written.append(target)
        sums = {path: hashlib.sha256(content).hexdigest() for path, content in product.files.items()}
        record = {"digest": digest, "files": sums, "data": dict(product.data)}
        self._make_home()
        files.write_text(self.home / f"{name}.json", json.dumps(record, separators=(",", ":")))
        self._current[name] = sums
        return self._result(record)

    def _intact(self, record: Record) -> bool:
        """Whether all files of a result are as they were written."""
        return all(_hash_of(self.out / path) == wanted for path, wanted in record["files"].items())

    def _result(self, record: Record) -> Result:
        text = json.dumps([record["files"], record["data"]], separators=(",", ":"))
        return Result(self.out, record["files"], record["data"], hashlib.sha256(text.encode()).hexdigest())

    def refuse(self, names: Collection[str]) -> None:
        """Raises NotOurs where a file of such a path is there that this program didn't write."""
        there = {name for name in names if (self.out / name).exists()} - self._ours
        if there:
            self._ours |= self.known()
        for name in sorted(there - self._ours):
            what = f"{self.out / name} exists and wasn't written by fidpath"
            raise NotOurs(what, "Move it, or choose another folder with --out")

    def claim(self, names: Collection[str]) -> None:
        """Says that files of these paths are this program's, before they are written. Raises OutputError, NotOurs."""
        self.refuse(names)
        fresh = sorted(set(names) - self._ours)
        if not fresh:
            return
        self._make_home()
        lines = "".join(f"\n{json.dumps(name)}" for name in fresh)  # whatever half a line a killed build left
        try:
            with (self.home / NAMES).open("a", encoding="utf-8") as known:  # at once: other builds add theirs
                known.write(f"{lines}\n")
        except OSError as problem:
            what = f"can't write {self.home / NAMES}: {problem.strerror}"
            raise OutputError(what, "Free some space, or choose another folder with --out") from problem
        self._ours.update(fresh)

    def _make_home(self) -> None:
        """Makes the folder of the records; that of an earlier version gets the new name."""
        if not self.home.exists():
            with contextlib.suppress(OSError):  # there is none, or another build has just done it
                (self.out / OLD_HOME).rename(self.home)
        files.make_folder(self.home)

    def known(self) -> set[str]:
        """The paths of all files that this program has ever written here."""
        return _names_in(self.home) | _names_in(self.out / OLD_HOME)

    def files(self) -> list[Path]:
        """The files of all results of this build, those that were there and those it made."""
        return sorted({self.out / path for paths in self._current.values() for path in paths})

    @contextlib.contextmanager
    def withdrawn_on(self, *refusals: type[FidpathError]) -> Iterator[None]:
        """Takes back what this build has written where it ends in one of these: of a job refused nothing stays."""
        try:
            yield
        except refusals:
            for path in self._written:
                path.unlink(missing_ok=True)
            raise

    def sweep(self) -> None:
        """Removes what earlier builds wrote and this one doesn't, where it is still as it was written.

        Raises OutputError.
        """
        mine = set(self.files())
        try:
            for path in _record_files(self.home):
                if path.stem not in self._current:
                    self._sweep(path, mine)
        except OSError as problem:
            what = f"can't remove {problem.filename}: {problem.strerror}"
            raise OutputError(what, "Choose another folder with --out") from problem

    def _sweep(self, path: Path, mine: set[Path]) -> None:
        """Removes one record, and its files but those that are this build's."""
        record = _record(path)
        if record is None:
            return
        for name, wanted in record["files"].items():
            target = self.out / name
            if target not in mine and _hash_of(target) == wanted:
                target.unlink(missing_ok=True)
                if target.parent != self.out and not any(target.parent.iterdir()):
                    target.parent.rmdir()
        path.unlink(missing_ok=True)

    def _matching(self, name: str, digest: str) -> Record | None:
        """The record of a result with this digest, whatever has become of its files."""
        record = self._first_read(name)
        return record if record is not None and record["digest"] == digest else None

    def _first_read(self, name: str) -> Record | None:
        """The record that a result had when it was first asked for."""
        if name not in self._before:
            self._before[name] = _record(self.home / f"{name}.json")
        return self._before[name]


def _record_files(home: Path) -> list[Path]:
    """The records in a folder; one whose name begins with a dot is still being written."""
    return sorted(home.glob("[!.]*.json"))


def _record(path: Path) -> Record | None:
    """A record; None where there is none, or none that can be read."""
    try:
        record: Record = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return None
    whole = isinstance(record, dict) and {"digest", "files", "data"} <= set(record)
    return record if whole and all(_inside(name) for name in record["files"]) else None


def _names_in(home: Path) -> set[str]:
    """The paths that the records and the list of names in a folder hold."""
    found = {name for path in _record_files(home) for name in (_record(path) or {"files": ()})["files"]}
    with contextlib.suppress(OSError, UnicodeDecodeError):
        for line in (home / NAMES).read_text(encoding="utf-8").splitlines():
            with contextlib.suppress(ValueError):
                found.add(str(json.loads(line)))
    return found


def _inside(name: str) -> bool:
    """Whether a path leads to somewhere in the folder."""
    path = Path(name)
    return not path.is_absolute() and ".." not in path.parts


def _hash_of(path: Path) -> str | None:
    try:
        with path.open("rb", buffering=0) as stream:
            return hashlib.file_digest(stream, "sha256").hexdigest()
    except OSError:
        return None
