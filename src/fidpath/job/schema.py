"""The shape of a job file: its tables, their keys and what each may hold. Nothing here knows about lines or files."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field, PlainValidator, StrictBool, TypeAdapter

from fidpath.job.job import AdjusterKind, Weave, WorkingHand
from fidpath.job.keys import (
    Angle,
    Density,
    Duration,
    Force,
    JobName,
    Length,
    Name,
    Share,
    Table,
    Temperature,
    strange_word,
)
from fidpath.job.splice_kinds import USUAL_SPLICE, end_kinds
from fidpath.job.terminators.registry import kinds, validated
from fidpath.units import Measure, UnitError, read_length

SCHEMA = 1


def read_splice(given: object) -> str:
    """How an end of the line is made: one of the splices that there are methods of, or a fitting."""
    known = end_kinds()
    if not isinstance(given, str) or given not in known:
        raise UnitError(*strange_word(given, known))
    return given


SpliceWord = Annotated[str, BeforeValidator(read_splice)]


def read_pitch(given: object) -> Measure | Literal["unknown"]:
    """A length, or the word for a pitch that nobody has measured yet."""
    return UNKNOWN if given == UNKNOWN else read_length(given)


UNKNOWN: Literal["unknown"] = "unknown"
"""What a job says of a pitch that nobody has measured yet."""

Pitch = Annotated[Measure | Literal["unknown"], PlainValidator(read_pitch)]


class RopeTable(Table):
    """[rope]"""

    name: Name = "rope"
    diameter: Length
    diameter_min: Length | None = None
    diameter_max: Length | None = None
    strands: int
    weave: Weave
    pitch: Pitch | None = None
    crossings: int | None = None
    over: Length | None = None
    squeeze: Share | None = None
    strength: Force | None = None
    stretch: Share | None = None
    linear_density: Density | None = None
    temperature_limit: Temperature | None = None
    stretch_tension: Force | None = None
    bedding_in: Share | None = None
    loaded_diameter: Length | None = None
    loaded_strain: Share | None = None
    friction: list[float] | None = Field(default=None, min_length=1, max_length=2)


TerminatorTable = Annotated[Table, PlainValidator(validated)]
"""The table of a terminator, whichever kind it names."""


class EndTable(Table):
    """[[line.ends]]"""

    name: Name = "end"
    splice: SpliceWord = USUAL_SPLICE
    eye_length: Length | None = None
    terminator: TerminatorTable | None = None
    fitting_length: Length | None = None


class AdjusterTable(Table):
    """[line.adjuster]"""

    kind: AdjusterKind
    shorten: Length
    lengthen: Length


class LineTable(Table):
    """[line]"""

    name: Name | None = None
    captive_end: Name | None = None
    finished_length: Length | None = None
    tension: Force | None = None
    confidence: Share | None = None
    adjuster: AdjusterTable | None = None
    thread_on_first: list[Name] = Field(default=[])
    ends: list[EndTable] = Field(min_length=1, max_length=2)


def read_fid(given: object) -> str:
    """A fid's diameter, or a name that the user has for it: text either way."""
    if not isinstance(given, str):
        read_length(given)
    return str(given)


Fid = Annotated[str, PlainValidator(read_fid)]


class ToolsTable(Table):
    """[tools]"""

    fids: list[Fid] = Field(min_length=1, max_length=40)
    fid_sizes: dict[str, Length] | None = Field(default=None, max_length=200)
    tape_division: Length | None = None


class LockStitchTable(Table):
    """[practice.lock_stitch]"""

    stitches: int
    spacing: Length | None = None
    twine: Name | None = None


def read_lock_stitch(given: object) -> bool | LockStitchTable:
    """Whether the bury is stitched, or the pattern in which it is. Raises pydantic's ValidationError."""
    if isinstance(given, dict):
        return LockStitchTable.model_validate(given)
    return TypeAdapter(StrictBool).validate_python(given)


LockStitch = Annotated[bool | LockStitchTable, PlainValidator(read_lock_stitch)]


class PracticeTable(Table):
    """[practice]"""

    bury: Length | None = None
    taper_share: Share | None = None
    taper_drops: int | None = None
    hole_gap: Length | None = None
    throat_angle: Angle | None = None
    post_stretch: Share | None = None
    reference_tension: Force | None = None
    neck: Length | None = None
    set_load: Force | None = None
    set_time: Duration | None = None
    lock_stitch: LockStitch = False
    hand: WorkingHand = "right"
    maker: Name | None = None
    makers: Name | None = None
    bury_source: Name | None = None
    taper_source: Name | None = None
    hole_gap_source: Name | None = None
    lock_stitch_source: Name | None = None


class PrintTable(Table):
    """[print]"""

    nozzle: Length | None = None
    clearance: Length | None = None
    bed: list[Length] | None = None
    text_height: Length | None = None
    plate: Length | None = None
    slot_shrink: Length | None = None
    kerf: Length | None = None
    scale: float | None = None
    fuse: Length | None = None


class JobTable(Table):
    """A whole job file."""

    schema_version: Literal[1] = Field(alias="schema")
    name: JobName
    rope: RopeTable
    terminator: TerminatorTable
    line: LineTable
    tools: ToolsTable
    practice: PracticeTable = Field(default={}, validate_default=True)
    print: PrintTable = Field(default={}, validate_default=True)


def tables() -> dict[str, tuple[type[Table], ...]]:
    """The models behind each table of the file; several where a terminator's kind decides."""
    terminators = tuple(kind.table for kind in kinds().values())
    return {
        "": (JobTable,),
        "rope": (RopeTable,),
        "terminator": terminators,
        "line": (LineTable,),
        "line.ends": (EndTable,),
        "line.ends.terminator": terminators,
        "line.adjuster": (AdjusterTable,),
        "tools": (ToolsTable,),
        "practice": (PracticeTable,),
        "practice.lock_stitch": (LockStitchTable,),
        "print": (PrintTable,),
    }


def keys_of(table: str, kind: str | None = None) -> tuple[str, ...]:
    """Keys a table may have; for a terminator those of one kind, or of all kinds where none is given."""
    known = kinds()
    models = tables().get(table, ())
    if kind in known and len(models) > 1:
        models = (known[kind].table,)
    fields = [(name, info.alias) for model in models for name, info in model.model_fields.items()]
    return tuple(dict.fromkeys(alias or name for name, alias in fields))


def needed_keys(table: str) -> tuple[str, ...]:
    """Keys a table must have, whatever its kind."""
    models = tables().get(table, ())
    sets = [[info.alias or name for name, info in model.model_fields.items() if info.is_required()] for model in models]
    return tuple(
        key for key in dict.fromkeys(key for keys in sets for key in keys) if all(key in keys for keys in sets)
    )
