"""An earlier release of fidpath beside this one: its own source, from this repository's history, run by this Python."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).parent.parent
COMMIT = "7f3ec6f"
"""Release 0.1.0. What it needs besides this version's own dependencies is in the extras `bench` and `dev`."""


@contextmanager
def release() -> Iterator[Path | None]:
    """The release in a folder of its own while it is looked at; None, with the reason on stderr, where it can't be."""
    with TemporaryDirectory(prefix="fidpath-earlier-") as folder:
        home = Path(folder) / "release"
        trouble = _cloned(home) or _lacking(home)
        if trouble:
            print(f"release {COMMIT} isn't measured: {trouble}", file=sys.stderr)
        yield None if trouble else home


def _cloned(home: Path) -> str:
    """Makes a clone at the release; what went wrong, if something did."""
    for command in (
        ["clone", "--no-checkout", str(ROOT), str(home)],
        ["-C", str(home), "checkout", "--detach", COMMIT],
    ):
        try:
            done = subprocess.run(["git", *command], capture_output=True, text=True, check=False)
        except OSError as problem:
            return str(problem)
        if done.returncode:
            return done.stderr.strip().rpartition("\n")[2] or "git failed"
    return ""


def _lacking(home: Path) -> str:
    """Which of its dependencies aren't installed, in words; empty where all are."""
    named = tomllib.loads((home / "pyproject.toml").read_text(encoding="utf-8"))["project"]["dependencies"]
    lacking = [name for name in (re.split(r"[<>=]", line)[0] for line in named) if not _installed(name)]
    return f"{', '.join(lacking)} not installed" if lacking else ""


def _installed(name: str) -> bool:
    try:
        version(name)
    except PackageNotFoundError:
        return False
    return True


def source(home: Path) -> dict[str, str]:
    """What is set in the environment to run the release in place of this version."""
    others = os.environ.get("PYTHONPATH", "").split(os.pathsep)
    return {"PYTHONPATH": os.pathsep.join([str(home / "src"), *filter(None, others)])}
