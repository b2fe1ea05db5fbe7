"""One build of a finished splice for all tests of builds, made once in a run."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest

from fidpath.building.pipeline import build
from fidpath.job.reader import parse_job
from once import once

SCENES = Path(__file__).parents[2] / "scenes"
SHORT = (SCENES / "demo.toml").read_text(encoding="utf-8").replace('bury = "72 d"', 'bury = "16 d"')


def _built() -> dict[str, bytes]:
    """Every file that a build of the short job leaves, its records and a note of the user's among them."""
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder)
        (out / "my own notes.txt").write_text("keep me")
        written = build(parse_job(SHORT), out, steps=False)
        found = {path.relative_to(out).as_posix(): path.read_bytes() for path in out.rglob("*") if path.is_file()}
        shown = {name for name in found if not name.startswith(".")}
        assert {path.relative_to(out).as_posix() for path in written} == shown - {"my own notes.txt"}
        return found


@pytest.fixture(scope="module")
def short() -> str:
    """The job's text."""
    return SHORT


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder in which the short job was built beside the user's "my own notes.txt"."""
    out = tmp_path_factory.mktemp("built")
    for name, content in once("short-build", _built).items():
        (out / name).parent.mkdir(parents=True, exist_ok=True)
        (out / name).write_bytes(content)
    return out
