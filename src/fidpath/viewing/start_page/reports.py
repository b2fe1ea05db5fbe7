"""Whole lines, sets, calibration and comparison of files in the folder: the sheets that the command line prints."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from fidpath.errors import FidpathError, JobError

CONFIDENCE = 0.95
"""Of the intervals of a calibration."""


@dataclass(frozen=True)
class Report:
    """A sheet for reading, and the same for other programs, by the ends of their files' names."""

    text: str
    files: Mapping[str, str]
    name: str


@dataclass(frozen=True)
class Given:
    """The files a report is made of, by the parts they play; those not chosen aren't there."""

    paths: Mapping[str, Path]

    def needed(self, part: str, words: str) -> Path:
        """A file that must be there. Raises JobError."""
        path = self.paths.get(part)
        if path is None:
            raise JobError(f"no file is chosen for {words}", "Choose one from the list")
        return path

    def optional(self, part: str) -> Path | None:
        """A file that may be there."""
        return self.paths.get(part)


def made(kind: str, given: Given) -> Report:
    """One report. Raises JobError, CannotBeMade, and KeyError for a kind there is none of."""
    make = REPORTS[kind]
    try:
        return make(given)
    except FidpathError as problem:
        problem.file = problem.file and Path(problem.file).name
        raise


def _line(given: Given) -> Report:
    from fidpath.job import read_job
    from fidpath.lines import by_loft, line_sheet, make_line

    job, estimate = by_loft(read_job(given.needed("job", "the line's job")), given.optional("loft"))
    planned = make_line(job, estimate)
    return Report(line_sheet.bench_sheet(planned), {"json": line_sheet.as_json(planned)}, f"{job.name}-line")


def _set(given: Given) -> Report:
    from fidpath.lines import make_set, read_loft, read_set, read_spools, set_sheet

    spools, job = given.optional("spools"), given.optional("job")
    wanted = read_set(given.needed("set", "the set"), job=job)
    practice = given.optional("loft") or wanted.loft
    loft = None if practice is None else read_loft(practice)
    done = make_set(wanted, loft, () if spools is None else read_spools(spools))
    more = {"csv": set_sheet.as_csv(done), "json": set_sheet.as_json(done)}
    return Report(set_sheet.cut_list(done), more, f"{done.name}-cut-list")


def _calibration(given: Given) -> Report:
    from fidpath.job import read_job
    from fidpath.lines import by_loft, calibrate, loft_sheet, read_loft

    practice = given.needed("loft", "the practice file")
    loft, job = read_loft(practice), given.optional("job")
    found = calibrate(loft)
    wanted = None if job is None else by_loft(read_job(job), practice)[0]
    text = loft_sheet.table(loft, found, CONFIDENCE, wanted)
    return Report(text, {"json": loft_sheet.as_json(loft, found, CONFIDENCE, wanted)}, f"{loft.name}-calibration")


def _comparison(given: Given) -> Report:
    from fidpath.job import read_job
    from fidpath.lines import by_loft, compare, planned_and_measured_sheet, read_measured

    job, estimate = by_loft(read_job(given.needed("job", "the job")), given.optional("loft"))
    found = read_measured(given.needed("measured", "what was measured"), job)
    rows = compare(job, found, estimate)
    text = planned_and_measured_sheet.table(job, found, rows)
    more = {"json": planned_and_measured_sheet.as_json(job, found, rows)}
    return Report(text, more, f"{job.name}-as-built")


REPORTS: Mapping[str, Callable[[Given], Report]] = {
    "line": _line,
    "set": _set,
    "calibration": _calibration,
    "comparison": _comparison,
}
