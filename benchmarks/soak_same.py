"""Whole builds of one small job, with all its steps, in two folders, time zones, locales and with two hash seeds: every
file must come out the same to the byte.

Run: python benchmarks/soak_same.py
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "tests" / "support"))

import faults

PLACES = (("UTC", "0", "C.UTF-8"), ("Pacific/Kiritimati", "4242", "tr_TR.UTF-8"))
"""Time zone, hash seed and locale of each build."""


def main() -> int:
    """Prints how many files were compared, and those that differ; 1 if there is one."""
    found = []
    with tempfile.TemporaryDirectory(prefix="fidpath-same-") as place:
        for number, (zone, seed, locale) in enumerate(PLACES):
            folder = Path(place) / f"{number} Φάκελος" / ("x" * 60 * number)
            folder.mkdir(parents=True)
            (folder / "a.toml").write_text(faults.tiny())
            env = {**os.environ, "TZ": zone, "PYTHONHASHSEED": seed, "LC_ALL": locale, "HOME": str(folder)}
            command = [sys.executable, "-m", "fidpath", "build", "a.toml", "--out", "out"]
            subprocess.run(command, cwd=folder, env=env, check=True)
            found.append(faults.files_in(folder / "out"))
    different = sorted(name for name in found[0].keys() | found[1].keys() if found[0].get(name) != found[1].get(name))
    print(f"{len(found[0])} files compared, {len(different)} differ", *different, sep="\n")
    return 1 if different or len(found[0]) < 100 else 0


if __name__ == "__main__":
    raise SystemExit(main())
