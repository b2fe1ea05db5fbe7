"""`fidpath show` in a process of its own, for the tests of the window and of the live page."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import IO

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "scenes" / "demo.toml"
PLAIN = ROOT / "scenes" / "plain-eye.toml"

RUN = """
import sys
from fidpath.cli import main as cli
sys.exit(cli.main(sys.argv[1:]))
"""


def environment(**more: str) -> dict[str, str]:
    """This process's environment with the sources on the path."""
    return {**os.environ, "PYTHONPATH": str(ROOT / "src"), **more}


def started(
    *arguments: str | Path, out: IO[str] | None = None, err: IO[str], command: str = "show", **more: str
) -> subprocess.Popen[bytes]:
    """`fidpath show`, or another command, with these arguments, under way."""
    words = [sys.executable, "-c", RUN, command, *map(str, arguments)]
    return subprocess.Popen(words, env=environment(**more), stdout=out, stderr=err)


def finished(*arguments: str | Path, **more: str) -> subprocess.CompletedProcess[str]:
    """`fidpath show` with these arguments, done."""
    command = [sys.executable, "-c", RUN, "show", *map(str, arguments)]
    return subprocess.run(command, env=environment(**more), capture_output=True, text=True, check=False, timeout=120)
