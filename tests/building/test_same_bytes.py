"""The same job gives the same bytes of every kind of output, whatever the folder, the time zone and the hash seed."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).parents[1] / "support"
SOURCE = str(HERE.parents[1] / "src")

PLACES = (("UTC", "0", "C.UTF-8"), ("Pacific/Kiritimati", "4242", "tr_TR.UTF-8"))
"""Time zone, hash seed and locale of each process."""


def test_every_kind_of_output_is_the_same_to_the_byte(tmp_path: Path) -> None:
    running = []
    for number, (zone, seed, locale) in enumerate(PLACES):
        folder = tmp_path / f"{number} Φάκελος" / ("x" * 60 * number)
        folder.mkdir(parents=True)
        path = os.pathsep.join((str(HERE), SOURCE))
        env = {**os.environ, "PYTHONPATH": path, "TZ": zone, "PYTHONHASHSEED": seed, "LC_ALL": locale}
        command = [sys.executable, str(HERE / "same.py")]
        running.append(subprocess.Popen(command, cwd=folder, env=env, stdout=subprocess.PIPE, text=True))
    found = [json.loads(one.communicate(timeout=240)[0]) for one in running]
    assert found[0].keys() == found[1].keys()
    different = [name for name, digest in found[0].items() if found[1][name] != digest]
    assert different == []
    kinds = {Path(name).suffix for name in found[0]}
    assert kinds == {".json", ".txt", ".stl", ".3mf", ".svg", ".dxf", ".pdf", ".html", ".glb", ".png"}
    assert len(set(found[0].values())) > 30
