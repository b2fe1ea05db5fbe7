"""Writing files so that nothing half-written ever stands under a final name."""

from __future__ import annotations

import contextlib
import os
import re
from collections.abc import Iterator
from pathlib import Path

from fidpath.errors import OutputError

_STRANGE = re.compile(r"[^\w.\-]+")
PART = re.compile(r"\..+\.(?P<writer>[0-9a-f]{8})(?:[0-9a-f]{8})?\.part\.?\w*")
"""A file being written: its target's name, the number of the process that writes it, and chance."""

RESERVED = re.compile(r"(?:con|prn|aux|nul|com\d|lpt\d)(?:\..*)?", re.IGNORECASE | re.DOTALL)
"""Names that are devices, not files, on some systems, whatever follows a full stop."""


def folder_name(name: str) -> str:
    """A job's name as one folder's name: no separators, no leading dot, never empty, at most 80 characters."""
    plain = _STRANGE.sub("-", name.strip()).strip("-.")
    return f"job-{plain}"[:80] if RESERVED.fullmatch(plain) else plain[:80] or "job"


def in_xml(text: str) -> str:
    """A text without the characters that XML can't hold, not even as numbers."""
    return "".join(
        c for c in text if c in "\t\n" or (c >= " " and not "\ud800" <= c <= "\udfff" and c not in "\ufffe\uffff")
    )


def results_folder(name: str, asked: Path | None) -> Path:
    """Where the results of a job or set of this name go: the folder asked for, else one of its own in exports/."""
    return Path("exports") / name if asked is None else asked


def make_folder(folder: Path) -> None:
    """Makes a folder for output. Raises OutputError where that can't be."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        raise OutputError(
            f"can't make the folder {folder}: {problem.strerror}", "Choose another with --out"
        ) from problem
    if not os.access(folder, os.W_OK):
        raise OutputError(f"can't write into {folder}", "Choose another with --out")


@contextlib.contextmanager
def beside(target: Path) -> Iterator[Path]:
    """A path beside `target`, with its suffix, to write to; renamed onto it at the end, removed on any failure."""
    import secrets

    part = target.with_name(f".{target.stem}.{os.getpid():08x}{secrets.token_hex(4)}.part{target.suffix}")
    try:
        yield part
        with part.open("rb+") as done:
            os.fsync(done.fileno())
        part.replace(target)
    except OSError as problem:
        raise OutputError(
            f"can't write {target}: {problem.strerror or problem}",
            "Free some space, or choose another folder with --out",
        ) from problem
    finally:
        part.unlink(missing_ok=True)


def write_bytes(target: Path, content: bytes) -> None:
    """Writes a whole file, or nothing. Raises OutputError."""
    with beside(target) as part:
        part.write_bytes(content)


def write_text(target: Path, content: str) -> None:
    """Writes a whole text file in UTF-8, or nothing. Raises OutputError."""
    write_bytes(target, content.encode("utf-8"))


def write_new(target: Path, content: bytes) -> None:
    """Writes a file that isn't there yet, whole or not at all. Raises FileExistsError and other OSErrors."""
    with target.open("xb") as stream:
        try:
            stream.write(content)
            stream.flush()
        except OSError:
            target.unlink(missing_ok=True)
            raise


@contextlib.contextmanager
def locked(path: Path) -> Iterator[None]:
    """Keeps other processes waiting that ask for the same lock, until it is let go or this process ends.

    path: a file made for it. Where there can be none, every process works for itself.
    """
    with contextlib.ExitStack() as held:
        with contextlib.suppress(OSError, ImportError):
            import fcntl

            fcntl.flock(held.enter_context(path.open("w")), fcntl.LOCK_EX)
        yield


def sweep_parts(folder: Path) -> None:
    """Removes what a killed run left beside its targets in this folder; touches nothing else.

    What a process that still runs is writing stays: two runs may write into one folder.
    """
    for part in folder.glob(".*.part*"):
        found = PART.fullmatch(part.name)
        if found is not None and not _runs(int(found["writer"], 16)):
            part.unlink(missing_ok=True)


def _runs(process: int) -> bool:
    """Whether there is a process of this number; where that can't be asked, there is none."""
    if os.name != "posix":
        return False
    try:
        os.kill(process, 0)
    except PermissionError:
        return True
    except (ProcessLookupError, OverflowError):
        return False
    return True


def user_folder() -> Path:
    """Where fidpath keeps what is this user's own on this machine, made where it isn't there. Raises OutputError."""
    home = os.environ.get("LOCALAPPDATA") if os.name == "nt" else os.environ.get("XDG_STATE_HOME")
    folder = Path(home) / "fidpath" if home else Path.home() / ".local" / "state" / "fidpath"
    make_folder(folder)
    return folder


def private_text(target: Path, content: str) -> None:
    """Writes a text file that this user alone may read. Raises OSError."""
    target.unlink(missing_ok=True)
    with os.fdopen(os.open(target, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="utf-8") as stream:
        stream.write(content)
