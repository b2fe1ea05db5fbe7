"""Saving the job: into the chosen folder and nowhere else, and never over a file that nobody said may go."""

from __future__ import annotations

import re
from pathlib import Path

from fidpath.errors import OutputError
from fidpath.machine import files

NAME = re.compile(r"[^\W_][\w .-]{0,79}\.toml")


class AlreadyThere(OutputError):
    """A file of that name is there, and may go only when somebody says so."""


def save(folder: Path, name: str, text: str, *, replace: bool) -> Path:
    """Writes a job file into the folder; returns its path.

    Raises OutputError for a name that is no plain file name, or where it can't be written; AlreadyThere where a file is
    there and `replace` is False.
    """
    target = folder / checked_name(name)
    if target.is_symlink() or (target.exists() and not target.is_file()):
        raise OutputError(f"{target.name} is not an ordinary file and was not changed", "Give another name")
    if replace:
        files.write_text(target, text)
        return target
    try:
        files.write_new(target, text.encode("utf-8"))
    except FileExistsError:
        raise AlreadyThere(f"there is a {target.name} already", "Give another name, or say that it may go") from None
    except OSError as problem:
        raise OutputError(
            f"{target} can't be written: {problem.strerror or problem}", "Choose another folder"
        ) from problem
    return target


def checked_name(name: str) -> str:
    """A plain name of a job file in one folder. Raises OutputError for any other."""
    if not NAME.fullmatch(name) or ".." in name:
        raise OutputError(
            f"{name[:80]!r} is not a valid name for a job file",
            'Write letters, digits, spaces, hyphens and ".toml" at the end',
        )
    return name


def suggested(folder: Path, source: str) -> str:
    """A name that is free in the folder, after the file the job came from."""
    stem = re.sub(r"[^\w .-]", "-", Path(source).stem).strip("-. _") or "job"
    for number in range(2, 1000):
        name = f"{stem[:60]}-{number}.toml"
        if not (folder / name).exists():
            return name
    return f"{stem[:60]}.toml"
