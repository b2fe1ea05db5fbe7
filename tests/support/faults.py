"""A build that is disturbed: started in a process of its own, stopped, starved, and what it left looked through."""

from __future__ import annotations

import contextlib
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from fidpath.building.manifest import HOME

ROOT = Path(__file__).parents[2]
SOURCE = str(ROOT / "src")
PART = re.compile(r"\..+\.[0-9a-f]{16}\.part\.?\w*")
NOTES = "my own notes.txt"
"""A file of the user's in the folder of the results."""

PAGE = "splice.html"

Files = Mapping[str, bytes]


def tiny(bury: str = "14 d") -> str:
    """A job file that settles quickly."""
    text = (ROOT / "scenes" / "demo.toml").read_text(encoding="utf-8")
    return text.replace('bury = "72 d"', f'bury = "{bury}"').replace("strands = 12", "strands = 8")


def started(job: Path, out: Path, *more: str, env: Mapping[str, str] | None = None) -> subprocess.Popen[str]:
    """`fidpath build` of the finished splice, or with "--steps" of everything, under way in a session of its own."""
    command = [sys.executable, "-m", "fidpath", "build", "--no-steps", str(job), "--out", str(out), *more]
    pipe = subprocess.PIPE
    return subprocess.Popen(command, stdout=pipe, stderr=pipe, text=True, start_new_session=True,
                            env=None if env is None else dict(env), cwd=job.parent, errors="replace")  # fmt: skip


def ended(running: subprocess.Popen[str], within: float = 240.0) -> tuple[int, str]:
    """Its exit code and what it said on stderr."""
    _, said = running.communicate(timeout=within)
    return running.returncode, said


def files_in(out: Path) -> dict[str, bytes]:
    """Every file of the results by its path, without the records."""
    found = (path for path in out.rglob("*") if path.is_file() and HOME not in path.parts)
    return {path.relative_to(out).as_posix(): path.read_bytes() for path in found}


def reference(job: Path, out: Path, *more: str) -> dict[str, bytes]:
    """What an undisturbed build writes."""
    code, said = ended(started(job, out, *more))
    assert code == 0, said
    return files_in(out)


def spoilt(out: Path, *references: Files) -> list[str]:
    """What is wrong with a folder: files half-written under a final name, records that don't parse, notes lost."""
    wrong = []
    for name, content in files_in(out).items() if out.exists() else ():
        if name == NOTES:
            wrong += [] if content == b"keep me" else ["the user's file was changed"]
        elif not PART.fullmatch(Path(name).name) and content not in [whole.get(name) for whole in references]:
            wrong.append(f"{name} is not whole, or nobody's")
    for record in (out / HOME).glob("*.json"):
        try:
            json.loads(record.read_text(encoding="utf-8"))
        except ValueError:
            wrong.append(f"the record {record.name} is not whole")
    if out.exists() and (out / NOTES).exists() is False and out.with_suffix(".noted").exists():
        wrong.append("the user's file is gone")
    return wrong


def with_notes(out: Path) -> Path:
    """The folder, made with a file of the user's in it."""
    out.mkdir(parents=True, exist_ok=True)
    (out / NOTES).write_bytes(b"keep me")
    out.with_suffix(".noted").touch()
    return out


def emptied(out: Path) -> None:
    """Takes away all results and their records, and leaves the user's file."""
    for path in out.iterdir():
        if path.is_dir():
            shutil.rmtree(path)
        elif path.name != NOTES:
            path.unlink()


def killed(running: subprocess.Popen[str], after: float) -> bool:
    """SIGKILL for the parent alone after so many seconds; whether it was still running. Workers end by themselves."""
    with contextlib.suppress(subprocess.TimeoutExpired):
        running.wait(after)
        running.communicate()
        return False
    running.send_signal(signal.SIGKILL)
    running.wait()
    for pipe in (running.stdout, running.stderr):
        if pipe is not None:
            pipe.close()
    return True


def orphans(session: int) -> list[int]:
    """Processes of a session that are still there."""
    found = []
    for entry in Path("/proc").glob("[0-9]*/stat"):
        with contextlib.suppress(OSError, ValueError, IndexError):
            fields = entry.read_text().rpartition(")")[2].split()
            if int(fields[3]) == session and fields[0] != "Z":
                found.append(int(entry.parent.name))
    return found


def gone(session: int, within: float = 30.0) -> bool:
    """Whether all processes of a session end by themselves."""
    until = time.monotonic() + within
    while time.monotonic() < until:
        if not orphans(session):
            return True
        time.sleep(0.1)
    return False


def one_sentence(said: str) -> bool:
    """Whether stderr holds one clear line and no traceback."""
    lines = said.strip().splitlines()
    return len(lines) == 1 and "Traceback" not in said and lines[0].isprintable() and ". " in lines[0]


@contextlib.contextmanager
def small_disk(place: Path, size: str) -> Iterator[Path | None]:
    """A file system with little room, mounted at a place; None where this can't be had."""
    place.mkdir(parents=True, exist_ok=True)
    mounted = os.geteuid() == 0 and not _run("mount", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(place))
    try:
        yield place if mounted else None
    finally:
        if mounted:
            _run("umount", "-l", str(place))


def read_only(place: Path) -> bool:
    """Makes a mounted file system read-only."""
    return not _run("mount", "-o", "remount,ro", str(place))


def _run(*command: str) -> int:
    try:
        return subprocess.run(command, capture_output=True, check=False).returncode
    except OSError:
        return 1


def bare(**more: str) -> dict[str, str]:
    """An environment with nothing in it but where this source is: no home, no display, no temporary folder, plain C."""
    blas = {name: value for name, value in os.environ.items() if name.startswith("OPENBLAS_")}  # the last digit's
    return {"PATH": "/usr/bin:/bin", "LANG": "C", "LC_ALL": "C", "PYTHONPATH": SOURCE, **blas, **more}


def clock_that_jumps(folder: Path) -> dict[str, str]:
    """An environment in which every look at the clock finds it years earlier or later, in every process."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "sitecustomize.py").write_text(
        "import itertools, time\n"
        "whole, turn = time.time, itertools.count()\n"
        "time.time = lambda: whole() + (-1) ** next(turn) * 1e8 * (next(turn) % 7)\n"
        "time.time_ns = lambda: int(time.time() * 1e9)\n"
    )
    return bare(PYTHONPATH=f"{folder}{os.pathsep}{SOURCE}")


def listed(names: Sequence[str]) -> str:
    """Names for a message."""
    return ", ".join(sorted(names)[:8])
