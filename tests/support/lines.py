"""Lines and lofts made in text for the tests."""

from __future__ import annotations

from pathlib import Path

from fidpath.job.job import Job
from fidpath.job.reader import parse_job

ROOT = Path(__file__).parents[2]
SHROUD = ROOT / "scenes" / "lines" / "line-cap-shroud.toml"
BACKSTAY = ROOT / "scenes" / "lines" / "line-backstay.toml"
LOFT = ROOT / "scenes" / "loft" / "loft.toml"
SETS = ROOT / "scenes" / "sets"


def changed(path: Path, *pairs: tuple[str, str]) -> str:
    """A scene's text with some of it replaced, each once."""
    text = path.read_text(encoding="utf-8")
    for old, new in pairs:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def shroud(*pairs: tuple[str, str]) -> Job:
    """The cap shroud, changed."""
    return parse_job(changed(SHROUD, *pairs), "line.toml")


def backstay(*pairs: tuple[str, str]) -> Job:
    """The backstay, changed."""
    return parse_job(changed(BACKSTAY, *pairs), "line.toml")
