"""A loft's practice file: its rules, its ropes, and its record of test splices, in mm."""

from __future__ import annotations

import datetime
import json
from dataclasses import dataclass, replace
from pathlib import Path as FilePath
from typing import Any, Literal

from pydantic import Field

from fidpath.errors import JobError
from fidpath.job import (
    Force,
    Job,
    KeyedError,
    KeyPath,
    Length,
    Name,
    Practice,
    PracticeTable,
    Rope,
    RopeTable,
    Table,
    about,
    key_path,
    practice_of,
    read_as,
    rope_of,
    text_of,
)
from fidpath.units import Measure

RULES = {
    "bury": "bury_diameters",
    "taper_share": "taper_share",
    "taper_drops": "taper_drops",
    "hole_gap": "hole_gap_diameters",
    "throat_angle": "throat_angle",
    "post_stretch": "post_stretch_share",
    "reference_tension": "reference_tension_n",
    "neck": "neck_diameters",
    "lock_stitch": "lock_stitch",
}
"""Keys of a practice file and the fields of a job's practice they stand for."""


class TestSpliceTable(Table):
    """[[test_splices]]"""

    name: Name
    rope: Name
    before: Length
    after: Length
    bury: Length
    tension: Force | None = None
    date: datetime.date | None = None


class LoftTable(Table):
    """A whole practice file."""

    schema_version: Literal[1] = Field(alias="schema")
    name: Name
    practice: PracticeTable = PracticeTable()
    ropes: list[RopeTable] = Field(default=[], max_length=200)
    test_splices: list[TestSpliceTable] = Field(default=[], max_length=5000)
    records: list[str] = Field(default=[], max_length=5000)


@dataclass(frozen=True)
class TestSplice:
    """One splice made to be measured, mm: plain length between two marks before, and with the tail in it after."""

    __test__ = False

    name: str
    rope: str
    before: float
    after: float
    bury: float
    tension: float | None = None
    date: str = ""

    @property
    def take_up(self) -> float:
        """What the cover lost in length."""
        return self.before - self.after


@dataclass(frozen=True)
class Loft:
    """A practice file: ropes by name, the practice each is worked by, test splices in the order written."""

    name: str
    source: str
    ropes: tuple[Rope, ...]
    practices: tuple[Practice, ...]
    rules: PracticeTable
    tests: tuple[TestSplice, ...]


def read_loft(path: FilePath) -> Loft:
    """The practice file at a path, with the records it names. Raises JobError where it says what can't be."""
    table, text = read_as(path, LoftTable)
    with about(text, str(path)):
        ropes = tuple(_rope(rope, index) for index, rope in enumerate(table.ropes))
        _once([rope.name for rope in ropes], "ropes")
        known = {rope.name: rope for rope in ropes}
        tests = tuple(_test(test, index, known) for index, test in enumerate(table.test_splices))
    recorded = tuple(_record(path.parent / name, known) for name in table.records)
    with about(text, str(path)):
        _once([test.name for test in (*tests, *recorded)], "test_splices")
        practices = tuple(practice_of(table.practice, rope) for rope in ropes)
    return Loft(table.name, str(path), ropes, practices, table.practice, (*tests, *recorded))


def with_rules(job: Job, loft: Loft) -> Job:
    """The job worked by the loft's rules wherever it gives none of its own. Raises JobError where they can't be."""
    try:
        theirs = practice_of(loft.rules, job.rope)
    except KeyedError as refused:
        raise JobError(refused.what, refused.remedy, file=loft.source) from None
    given = [key for key in RULES if key in loft.rules.model_fields_set and not job.gives(f"practice.{key}")]
    changes: dict[str, Any] = {RULES[key]: getattr(theirs, RULES[key]) for key in given}
    return replace(job, practice=replace(job.practice, **changes))


def _rope(table: RopeTable, index: int) -> Rope:
    """One of the loft's ropes."""
    try:
        return rope_of(table)
    except KeyedError as refused:
        raise KeyedError((key_path("ropes") / index).below(refused.path[1:]), refused.what, refused.remedy) from None


def _once(names: list[str], table: str) -> None:
    """Refuse a name written twice: a figure must say which splice it rests on."""
    twice = [index for index, name in enumerate(names) if name in names[:index]]
    if twice:
        raise KeyedError(
            key_path(table) / twice[0] / "name", f'"{names[twice[0]]}" occurs twice', "Give each its own name."
        )


def _test(table: TestSpliceTable, index: int, ropes: dict[str, Rope]) -> TestSplice:
    """One test splice, of a rope the loft describes."""
    path = key_path("test_splices") / index
    if table.rope not in ropes:
        raise KeyedError(path / "rope", f'no rope named "{table.rope}" here', "Add [[ropes]] with that name.")
    d = ropes[table.rope].diameter_mm
    lengths = {key: _positive(path / key, getattr(table, key), d) for key in ("before", "after", "bury")}
    tension = table.tension.value if table.tension else None
    return TestSplice(table.name, table.rope, **lengths, tension=tension, date=str(table.date or ""))


def _positive(path: KeyPath, measure: Measure, d: float) -> float:
    """A length in mm, greater than nothing."""
    if measure.value <= 0:
        raise KeyedError(path, "a length must be greater than zero", "Write a positive length.")
    return measure.mm(d)


def _record(path: FilePath, ropes: dict[str, Rope]) -> TestSplice:
    """The test splice in a record that `fidpath compare` wrote. Raises JobError where there is none."""
    source = str(path)
    try:
        test = TestSplice(**json.loads(text_of(path, "Check its path"))["test_splice"])
    except (ValueError, KeyError, TypeError):
        remedy = "Name a record of `fidpath compare` with the measurements before, after and bury"
        raise JobError("no test splice can be read from this record", remedy, file=source) from None
    if test.rope not in ropes:
        raise JobError(f'no rope named "{test.rope}" in the loft', "Add [[ropes]] with that name", file=source)
    return test
