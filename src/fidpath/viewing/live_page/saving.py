"""Saving the job: into the chosen folder and nowhere else, and never over a file that nobody said may go."""

from __future__ import annotations

import contextlib
import re
import tomllib
from pathlib import Path

from fidpath.errors import OutputError
from fidpath.machine import files

NAME = re.compile(r"[^\W_][\w .-]{0,79}\.toml")


class AlreadyThere(OutputError):
    """A file of that name is there, and may go only when somebody says so."""


def save(folder: Path, name: str, text: str, *, replace: bool) -> Path:
    """Writes a job file into the folder; returns its path.

    Raises OutputError for a name that is no plain file name, where another file has a job of the same name, or where it
    can't be written; AlreadyThere where a file is
    there and `replace` is False.
    """
    target = folder / checked_name(name)
    _refuse_shared_name(target, text)
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


def _refuse_shared_name(target: Path, text: str) -> None:
    """Refuses a job whose name another file of the folder has: the results of both would go into one folder.

    Raises OutputError.
    """
    own = _job_name(text)
    for path in sorted(target.parent.glob("*.toml")) if own else ():
        with contextlib.suppress(OSError, ValueError):
            if path.name != target.name and path.is_file() and _job_name(path.read_text(encoding="utf-8")) == own:
                what = f"{path.name} is a job of the name {own} too, and the results of both would go into one folder"
                raise OutputError(what, "Change the job's name, or save into that file")


def _job_name(text: str) -> str:
    """What a job file is called in its text; nothing for other files."""
    try:
        tables = tomllib.loads(text)
    except (ValueError, RecursionError):
        return ""
    name = tables.get("name")
    return name if isinstance(name, str) and "rope" in tables else ""


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
