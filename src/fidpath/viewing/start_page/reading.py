"""Whether an edited file can be read: the reader's own words where it can't."""

from __future__ import annotations

from pathlib import Path

from fidpath.errors import FidpathError
from fidpath.job import parse_job, text_of, toml_of
from fidpath.lines import make_line, read_loft, read_set, read_spools
from fidpath.planning import make_plan
from fidpath.viewing.serving import words_of


def problem_in(path: Path) -> str:
    """What is wrong with a file, in one sentence; nothing where it can be used as it stands."""
    try:
        _read(path)
    except FidpathError as problem:
        return words_of(problem)
    return ""


def _read(path: Path) -> None:
    """Reads a file as what it is. Raises FidpathError."""
    if path.suffix.lower() == ".csv":
        rows = path.read_text(encoding="utf-8-sig").splitlines()
        (read_spools if "length" in "".join(rows[:1]) and "finished" not in "".join(rows[:1]) else read_set)(path)
        return
    text = text_of(path)
    tables = toml_of(text, path.name)
    if "lines" in tables or "lines_file" in tables:
        read_set(path)
    elif "test_splices" in tables or "ropes" in tables:
        read_loft(path)
    elif "measured" not in tables:
        job = parse_job(text, str(path))
        make_plan(job)
        if job.line.finished_length_mm is not None:
            make_line(job)
