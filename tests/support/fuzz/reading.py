"""What is done with a spoilt file: read as what it is, and where it still reads, planned and printed."""

from __future__ import annotations

import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from types import FrameType

from fidpath.errors import FidpathError, JobError
from fidpath.job.job import Job
from fidpath.job.locate import key_lines
from fidpath.job.reader import read_job, text_of, toml_of, with_line
from fidpath.lines import line_sheet, set_sheet
from fidpath.lines.line import make_line
from fidpath.lines.loft import estimate_for
from fidpath.lines.loft_file import read_loft, with_rules
from fidpath.lines.planned_and_measured import compare, read_measured
from fidpath.lines.set_file import read_set, read_spools
from fidpath.lines.sets import make_set
from fidpath.methods import method_file
from fidpath.planning import sheet
from fidpath.planning.planner import make_plan

ROOT = Path(__file__).parents[3]
SCENES = ROOT / "scenes"
LONGEST = 2.0
"""Seconds of processor time that a file may take, read and planned; other work on the machine doesn't count."""


class Hung(BaseException):
    """A file took longer than it may."""


@dataclass(frozen=True)
class Seed:
    """A sound file, and how it is read; spoilt ones stand in its folder, beside what it names."""

    name: str
    path: Path
    read: Callable[[Path], object]

    @property
    def text(self) -> str:
        """What the sound file says."""
        return self.path.read_text(encoding="utf-8")


def _job(path: Path) -> object:
    """A job, planned as the command line does."""
    job = read_job(path)
    plan = make_plan(job)
    return sheet.bench_table(plan, True) + sheet.as_json(sheet.as_data(plan, True))


def _line(path: Path) -> object:
    """A whole line, both its ends planned."""
    plan = make_line(read_job(path))
    return line_sheet.as_data(plan)


def _set(path: Path) -> object:
    wanted = read_set(path)
    made = make_set(wanted, read_loft(wanted.loft) if wanted.loft else None)
    return set_sheet.cut_list(made) + set_sheet.as_json(made) + set_sheet.as_csv(made)


def _decimal_commas(path: Path) -> object:
    return read_set(path, decimal_comma=True, job=SCENES / "demo.toml")


def _loft(path: Path) -> object:
    loft = read_loft(path)
    return with_rules(demo(), loft), [estimate_for(loft, rope) for rope in loft.ropes[:3]]


def _measured(path: Path) -> object:
    job = read_job(SCENES / "lines" / "line-cap-shroud.toml")
    return compare(job, read_measured(path, job))


@lru_cache(maxsize=1)
def demo() -> Job:
    """The main job."""
    return read_job(SCENES / "demo.toml")


def seeds() -> list[Seed]:
    """Every scene and every method, each with its reader; jobs and lines are read both ways."""
    jobs = sorted(SCENES.glob("*.toml"))
    lines = sorted((SCENES / "lines").glob("*.toml"))
    methods = sorted((ROOT / "src" / "fidpath" / "methods").glob("*.toml"))
    found = [Seed(f"job {path.stem}", path, _job) for path in (*jobs, *lines)]
    found += [Seed(f"line {path.stem}", path, _line) for path in lines * 2]
    found += [Seed(f"set {path.stem}", path, _set) for path in sorted((SCENES / "sets").glob("*.toml")) * 2]
    found += [Seed("table fleet", SCENES / "sets" / "fleet.csv", read) for read in (_set, _decimal_commas)]
    found += [Seed("spools", SCENES / "sets" / "stock.csv", lambda path: read_spools(path, decimal_comma=True))]
    found += [Seed("loft", SCENES / "loft" / "loft.toml", _loft)] * 2
    found += [Seed("measured", SCENES / "measured" / "cap-shroud.toml", _measured)] * 2
    return found + [Seed(f"method {path.stem}", path, method_file.read_method) for path in methods]


@contextmanager
def within(seconds: float) -> Iterator[None]:
    """Ends what takes more processor time by Hung."""

    def stop(_signal: int, _frame: FrameType | None) -> None:
        raise Hung(f"more than {seconds:g} s")

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def complaint(seed: Seed, path: Path, longest: float = LONGEST) -> tuple[str, str]:
    """What came of the file at `path`: `(outcome, fault)`; the fault is empty where all is as it should be."""
    try:
        with within(longest):
            seed.read(path)
    except FidpathError as error:
        error.file = error.file or str(path)
        return "refused", _said_badly(with_line(error), path)
    except Hung as hung:
        return "hung", str(hung)
    except (Exception, RecursionError) as problem:
        return "broke", f"{type(problem).__name__}: {str(problem)[:200]}"
    return "read", ""


def _said_badly(error: FidpathError, path: Path) -> str:
    """What a refusal lacks: words, one line, a remedy, the file, or the line of its key."""
    said = str(error)
    if not error.what or not error.remedy:
        return f"no words or no remedy: {said!r}"
    if len(said) > 1500 or "\n" in said:
        return f"more than one line: {said[:200]!r}"
    if error.file != str(path) and Path(error.file or "").name not in path.read_bytes().decode("utf-8", "replace"):
        return f"another file: {said!r}"
    if error.key and error.line is None and error.file == str(path) and _in_text(error.key, path):
        return f"no line: {said!r}"
    return ""


def _in_text(key: str, path: Path) -> bool:
    """Whether the file has the table, or the key, that a refusal is about."""
    try:
        text = text_of(path)
        toml_of(text, str(path))
    except JobError:
        return False
    top = key.replace("[", ".").split(".", maxsplit=1)[0]
    top = key.replace("[", ".").split(".", maxsplit=1)[0]
    return any(place[0] == top for place in key_lines(text))
