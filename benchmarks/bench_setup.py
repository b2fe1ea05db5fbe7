"""Setting up from a fresh clone: what `make demo` installs now, and what it installed in release 0.1.0, in turn.

Both fetch from the package index that pip is set to, and pip keeps what it has fetched for the next time.
Run: python benchmarks/bench_setup.py
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from figures import figure

ROOT = Path(__file__).parent.parent
EARLIER = "7f3ec6f"


def clone(commit: str, home: Path) -> Path:
    """This repository at a commit."""
    subprocess.run(["git", "clone", "--quiet", "--no-checkout", str(ROOT), str(home)], check=True)
    subprocess.run(["git", "-C", str(home), "checkout", "--quiet", "--detach", commit], check=True)
    return home


def set_up(home: Path, *targets: str) -> tuple[float, float, float]:
    """Seconds of the clock and of the processor, and MiB on the disk, of what targets of `make` install."""
    before, began = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    command = ["make", "--silent", f"PYTHON={sys.executable}", *targets]
    subprocess.run(command, cwd=home, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    after, took = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter() - began
    used = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return took, used, on_disk(home / ".venv")


def on_disk(folder: Path) -> float:
    """What a folder's files take up, MiB."""
    paths = (Path(place) / name for place, _, names in os.walk(folder) for name in names)
    return sum(path.lstat().st_blocks * 512 for path in paths) / 2**20


def main() -> None:
    """Prints the figures beside their bounds."""
    with tempfile.TemporaryDirectory(prefix="fidpath-setup-") as folder:
        then_took, then_used, then_mb = set_up(clone(EARLIER, Path(folder) / "earlier"), "setup")
        now = clone("HEAD", Path(folder) / "now")
        took, used, mb = set_up(now, "setup")
        figure(
            "processor seconds of setting up, of 0.1.0's",
            used / then_used,
            "",
            0.55,
            beside=f"{used:.1f} of {then_used:.1f} s",
        )
        figure("time of setting up, of 0.1.0's", took / then_took, "", 0.55, beside=f"{took:.0f} of {then_took:.0f} s")
        figure("installed for users", mb, "MiB", 1200, beside=f"0.1.0: {then_mb:.0f} MiB")
        more_took, more_used, with_tests = set_up(now, ".venv/.dev", ".venv/.topology")
        figure(
            "installed for `make test`",
            with_tests,
            "MiB",
            beside=f"{more_used:.1f} s of the processor, {more_took:.0f} s more",
        )


if __name__ == "__main__":
    main()
