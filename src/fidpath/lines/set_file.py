"""A set of lines: a TOML file, or a CSV table with units in its header, as one job for each line."""

from __future__ import annotations

import csv
import io
import re
from dataclasses import dataclass, replace
from pathlib import Path as FilePath
from typing import Annotated, Any, Literal

from pydantic import Field, ValidationError

from fidpath.errors import FidpathError, JobError
from fidpath.job import (
    End,
    Force,
    Job,
    JobName,
    KeyedError,
    KeyPath,
    Length,
    Model,
    Name,
    Table,
    about,
    key_path,
    length,
    read_as,
    read_job,
    refusal_of,
    text_of,
)
from fidpath.units import Measure, shown

MOST_LINES = 20_000
HEADER = re.compile(r"\s*(?P<name>[A-Za-z][A-Za-z _]*?)\s*(?:\[(?P<unit>[^\]]+)\]|\((?P<bracket>[^)]+)\))?\s*")
NUMBER = re.compile(r"[+-]?\d+(?:\.\d+)?")
LENGTHS = ("finished_length", "first_eye", "second_eye", "length")
COLUMNS = ("name", "job", "quantity", "finished_length", "tension", "first_eye", "second_eye")
SPOOL_COLUMNS = ("name", "rope", "length")
LIKE_FINISHED, LIKE_AN_EYE = key_path("line.finished_length"), key_path("line.ends.eye_length")
"""Keys of a job file whose limits hold for a set's and a spool's lengths too."""


class SetLineTable(Table):
    """[[lines]]: a name, and what differs from its job file."""

    name: Name
    job: str | None = None
    quantity: Annotated[int, Field(ge=1, le=1000)] = 1
    finished_length: Length | None = None
    tension: Force | None = None
    first_eye: Length | None = None
    second_eye: Length | None = None


class SpoolTable(Table):
    """[[spools]]"""

    name: Name
    rope: Name
    length: Length


class SetTable(Table):
    """A whole set."""

    schema_version: Literal[1] = Field(alias="schema")
    name: JobName
    job: str | None = None
    loft: str | None = None
    lines_file: str | None = None
    decimal_comma: bool = False
    lines: list[SetLineTable] = Field(default=[], max_length=MOST_LINES)
    spools: list[SpoolTable] = Field(default=[], max_length=1000)


@dataclass(frozen=True)
class Spool:
    """One spool in stock, mm."""

    name: str
    rope: str
    length: float


@dataclass(frozen=True)
class SetLine:
    """One line of a set: its job, or why there is none."""

    name: str
    quantity: int
    job: Job | None
    error: FidpathError | None = None


@dataclass(frozen=True)
class LineSet:
    """A set as it was written; `loft` is the practice file it names."""

    name: str
    source: str
    lines: tuple[SetLine, ...]
    spools: tuple[Spool, ...]
    loft: FilePath | None


def read_set(path: FilePath, decimal_comma: bool = False, job: FilePath | None = None) -> LineSet:
    """The set in a file; in a CSV file `job` serves lines that name none. Raises JobError where it can't be read."""
    if path.suffix.lower() == ".csv":
        rows = _csv_lines(path, decimal_comma)
        return LineSet(path.stem, str(path), _asked(rows, path.parent, job), (), None)
    table, text = read_as(path, SetTable)
    base = job or (path.parent / table.job if table.job else None)
    rows = list(table.lines)
    folder = path.parent
    if table.lines_file is not None:
        rows += _csv_lines(folder / table.lines_file, table.decimal_comma or decimal_comma)
    with about(text, str(path)):
        _once(rows)
        spools = tuple(_spool(spool, key_path("spools") / index) for index, spool in enumerate(table.spools))
    loft = folder / table.loft if table.loft else None
    return LineSet(table.name, str(path), _asked(rows, folder, base), spools, loft)


def read_spools(path: FilePath, decimal_comma: bool = False) -> tuple[Spool, ...]:
    """The spools in a CSV file: name, rope and length. Raises JobError."""
    spools = []
    for line, row in _rows(path, SPOOL_COLUMNS, decimal_comma):
        missing = [column for column in SPOOL_COLUMNS if not row.get(column)]
        if missing:
            raise JobError(f"this spool has no {missing[0]}", "Fill it in", file=str(path), line=line)
        try:
            spool = _spool(_validated(SpoolTable, dict(row)), KeyPath())
        except KeyedError as refused:
            raise JobError(refused.what, refused.remedy.rstrip("."), file=str(path), line=line) from None
        spools.append(spool)
    return tuple(spools)


def _once(rows: list[SetLineTable]) -> None:
    """Refuse a set with no line, or with two of one name."""
    if not rows:
        raise KeyedError(key_path("lines"), "the set has no line", "Add [[lines]], or lines_file with a CSV table.")
    seen: set[str] = set()
    for index, row in enumerate(rows):
        if row.name in seen:
            raise KeyedError(
                key_path("lines") / index / "name", f'"{row.name}" occurs twice', "Give each line its own name."
            )
        seen.add(row.name)


def _spool(table: SpoolTable, path: KeyPath) -> Spool:
    return Spool(table.name, table.rope, length(path / "length", table.length, LIKE_FINISHED))


def _asked(rows: list[SetLineTable], folder: FilePath, base: FilePath | None) -> tuple[SetLine, ...]:
    """Every line with its job; one whose job can't be read is kept with its error, and the rest go on."""
    read: dict[FilePath, Job | FidpathError] = {}
    lines = []
    for row in rows:
        path = folder / row.job if row.job else base
        job: Job | FidpathError
        if path is None:
            job = JobError("this line names no job file", "Give it a job, or give the set one for all its lines")
        else:
            if path not in read:
                read[path] = _read(path)
            job = read[path]
        lines.append(_line(row, job))
    return tuple(lines)


def _read(path: FilePath) -> Job | FidpathError:
    """A job file, or what is wrong with it, for all the lines that name it."""
    try:
        return read_job(path)
    except FidpathError as error:
        return error


def _line(row: SetLineTable, job: Job | FidpathError) -> SetLine:
    """One line: its job file's job, and what the row puts in its place."""
    if isinstance(job, FidpathError):
        return SetLine(row.name, row.quantity, None, job)
    try:
        return SetLine(row.name, row.quantity, _changed(row, job))
    except KeyedError as refused:
        error = JobError(refused.what, refused.remedy.rstrip("."), key=str(refused.path))
        return SetLine(row.name, row.quantity, None, error)


def _changed(row: SetLineTable, job: Job) -> Job:
    """The job with the row's name, lengths and tension. Raises KeyedError where a figure can't be."""
    d, line = job.rope.diameter_mm, job.line
    eyes = (("first_eye", row.first_eye), ("second_eye", row.second_eye))
    ends = list(line.ends)
    for index, (key, eye) in enumerate(eyes):
        if eye is None:
            continue
        if index >= len(ends):
            raise KeyedError(
                key_path(key), "the job has one end", "Leave the column empty, or give the job a second end."
            )
        ends[index] = _with_eye(ends[index], key, eye, d)
    finished = line.finished_length_mm
    if row.finished_length is not None:
        finished = length(key_path("finished_length"), row.finished_length, LIKE_FINISHED)
    tension = line.tension_n if row.tension is None else row.tension.value
    if tension is not None and not 0.1 <= tension <= 1e7:
        raise KeyedError(key_path("tension"), f"{tension:g} N can't be", "It can be 0.1 N to 10 MN.")
    changed = replace(line, name=row.name, ends=tuple(ends), finished_length_mm=finished, tension_n=tension)
    return replace(job, name=row.name, line=changed)


def _with_eye(end: End, key: str, eye: Measure, d: float) -> End:
    return replace(end, eye_length_mm=length(key_path(key), Measure(eye.mm(d), "mm"), LIKE_AN_EYE))


def _csv_lines(path: FilePath, decimal_comma: bool) -> list[SetLineTable]:
    """The lines in a CSV file. Raises JobError with the line of the file."""
    lines = []
    for line, row in _rows(path, COLUMNS, decimal_comma):
        try:
            lines.append(_csv_line(row))
        except KeyedError as refused:
            raise JobError(refused.what, refused.remedy.rstrip("."), file=str(path), line=line) from None
    try:
        _once(lines)
    except KeyedError as refused:
        raise JobError(refused.what, "Write one row per line, each with its own name", file=str(path)) from None
    return lines


def _csv_line(row: dict[str, str]) -> SetLineTable:
    """One row as a line of the set."""
    if not row.get("name"):
        raise KeyedError(key_path("name"), "this line has no name", "Give every line its own name.")
    quantity = row.get("quantity") or "1"
    if not re.fullmatch(r"[1-9]\d{0,2}", quantity, re.ASCII):
        what = f"a quantity of {shown(quantity)} can't be"
        raise KeyedError(key_path("quantity"), what, "Write a whole number from 1 to 999.")
    given: dict[str, Any] = {key: cell for key, cell in row.items() if cell}
    return _validated(SetLineTable, {**given, "quantity": int(quantity)})


def _validated(model: type[Model], cells: dict[str, Any]) -> Model:
    """Cells as one of our tables. Raises KeyedError with the first thing wrong."""
    try:
        return model.model_validate(cells)
    except ValidationError as problem:
        raise refusal_of(dict(problem.errors(include_url=False)[0]), cells) from None


def _rows(path: FilePath, known: tuple[str, ...], decimal_comma: bool) -> list[tuple[int, dict[str, str]]]:
    """Every row of a CSV file by its column's name, each number with its column's unit, and its line in the file."""
    source = str(path)
    reader = csv.reader(
        io.StringIO(text_of(path, "Check its path")), delimiter=";" if decimal_comma else ",", strict=True
    )
    try:
        rows = [(reader.line_num, row) for row in reader if any(cell.strip() for cell in row)]
    except csv.Error as problem:
        what = f"this is not a CSV table: {problem}"
        raise JobError(
            what, "Put quotes round cells that contain the separator", file=source, line=reader.line_num
        ) from None
    if not rows:
        raise JobError("the table is empty", f"Begin with a header: {', '.join(known)}", file=source)
    if len(rows) > MOST_LINES + 1:
        raise JobError(f"{len(rows) - 1} rows are too many", f"Split the table: {MOST_LINES} are read", file=source)
    first, header = rows[0]
    if not decimal_comma and len(header) == 1 and ";" in header[0]:
        raise JobError(
            "the cells are separated by semicolons",
            "Use --decimal-comma, or separate the cells with commas",
            file=source,
            line=first,
        )
    columns = [_column(cell, known, source, first) for cell in header]
    return [(line, _cells(row, columns, decimal_comma, source, line)) for line, row in rows[1:]]


def _column(cell: str, known: tuple[str, ...], source: str, line: int) -> tuple[str, str]:
    """A column's name and unit from its header: `finished length [m]`."""
    match = HEADER.fullmatch(cell.lstrip("\ufeff"))
    name = "_".join(match["name"].lower().split()) if match else cell
    if match is None or name not in known:
        remedy = f"Columns here are {', '.join(known)}, with units as in finished_length [m]"
        raise JobError(f"no column is called {shown(name)}", remedy, file=source, line=line)
    return name, match["unit"] or match["bracket"] or ""


def _cells(
    row: list[str], columns: list[tuple[str, str]], decimal_comma: bool, source: str, line: int
) -> dict[str, str]:
    """One row's cells by column, bare numbers with their column's unit."""
    if len(row) > len(columns):
        remedy = (
            "Separate cells with ;"
            if decimal_comma
            else "Separate cells with commas; for decimal commas use --decimal-comma"
        )
        raise JobError(f"this row has {len(row)} cells for {len(columns)} columns", remedy, file=source, line=line)
    values = {}
    for cell, (name, unit) in zip(row, columns, strict=False):
        text = cell.strip()
        measured = name in LENGTHS or name == "tension"
        if measured and decimal_comma:
            text = text.replace(",", ".") if text.count(",") == 1 and "." not in text else text
        values[name] = f"{text} {unit}" if measured and unit and NUMBER.fullmatch(text) else text
    return values
