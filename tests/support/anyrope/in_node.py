"""The page's Python run by node: the same engine that a browser runs."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path
from typing import Any

import numpy as np
import pytest

import page_python
from anyrope.page_jobs import as_given
from fidpath.job.job import Job

PAGE = Path(__file__).parents[3] / "page"
THERE = shutil.which("node") is not None and (PAGE / "node_modules" / "@micropython").is_dir()
needs_node = pytest.mark.skipif(not THERE, reason="node or the page's packages aren't installed: make page")


def answers(folder: Path, asked: list[tuple[Job, tuple[str, ...]]]) -> list[dict[str, Any]]:
    """What the engine says of each job: its `plan`, and the `logs` of those kinds of states, settled."""
    (folder / "python.json").write_text(json.dumps(page_python.files()), encoding="utf-8")
    given = [{"job": as_given(job), "kinds": list(kinds)} for job, kinds in asked]
    (folder / "asked.json").write_text(json.dumps(given), encoding="utf-8")
    command = ["node", "anyrope-in-node.mjs", str(folder)]
    done = subprocess.run(command, cwd=PAGE, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr[-4000:]
    found: list[dict[str, Any]] = json.loads((folder / "answers.json").read_text(encoding="utf-8"))
    return found


def strands(folder: Path, number: int, kind: str, laid: bool = False) -> np.ndarray:
    """The strands of a state, settled or as laid, `(nodes, 3)` mm."""
    name = f"{number}-{kind}{'-laid' if laid else ''}.bin"
    return np.frombuffer((folder / name).read_bytes()).reshape(-1, 3)
