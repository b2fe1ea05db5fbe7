"""The shape of a job file: its tables, their keys and what each may hold. Nothing here knows about lines or files."""

from __future__ import annotations

import difflib
from collections.abc import Sequence
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field

from fidpath.job.job import AdjusterKind, Weave
from fidpath.job.splices import USUAL_SPLICE, end_kinds
from fidpath.machine.files import RESERVED
from fidpath.units import (
    Measure,
    UnitError,
    read_angle,
    read_density,
    read_force,
    read_length,
    read_share,
    read_temperature,
    shown,
)

SCHEMA = 1
LONGEST_NAME = 120

LIMITS_MM: dict[str, tuple[float, float]] = {
    "rope.diameter": (1.0, 200.0),
    "rope.diameter_min": (0.5, 250.0),
    "rope.diameter_max": (0.5, 250.0),
    "terminator.bearing_diameter": (1.0, 5000.0),
    "terminator.width": (1.0, 2000.0),
    "terminator.groove_radius": (0.5, 1000.0),
    "terminator.hole": (0.5, 5000.0),
    "terminator.length": (1.0, 10000.0),
    "terminator.nose_radius": (0.1, 2000.0),
    "terminator.lashing_hole": (0.5, 1000.0),
    "line.ends.eye_length": (5.0, 100000.0),
    "line.ends.fitting_length": (1.0, 100000.0),
    "line.finished_length": (50.0, 1e7),
    "line.adjuster.shorten": (0.5, 10000.0),
    "line.adjuster.lengthen": (0.5, 10000.0),
    "tools.fids": (0.5, 300.0),
    "tools.tape_division": (0.1, 25.4),
    "print.nozzle": (0.1, 1.2),
    "print.clearance": (0.02, 0.1),
    "print.bed": (80.0, 2000.0),
    "print.text_height": (3.5, 10.0),
    "print.plate": (2.0, 20.0),
    "print.slot_shrink": (0.005, 1.0),
    "print.kerf": (0.01, 0.55),
    "print.fuse": (0.1, 2.0),
}
"""Least and greatest length of each key, mm: outside them a figure is taken for a slip of the pen."""

LIMITS_D: dict[str, tuple[float, float]] = {
    "rope.pitch": (3.0, 20.0),
    "practice.bury": (6.0, 1000.0),
    "practice.hole_gap": (0.1, 10.0),
    "practice.neck": (0.1, 10.0),
}
"""The same for keys that are reckoned in rope diameters."""


def _name(text: str) -> str:
    """A name that prints on one line."""
    if not text.strip() or not text.isprintable() or len(text) > LONGEST_NAME:
        raise UnitError(
            "a name is printable text on one line", f"Write 1 to {LONGEST_NAME} letters, digits, spaces and marks."
        )
    return text.strip()


def _job_name(text: str) -> str:
    """A name that a folder can have everywhere."""
    name = _name(text)
    if name[0] in ".~-" or name[-1] == "." or any(mark in name for mark in '/\\<>:"|?*') or RESERVED.fullmatch(name):
        raise UnitError(
            f"\"{name}\" can't name a folder, and results go into a folder of the job's name",
            "Leave out / \\ < > : \" | ? *, don't take a device's name or begin with a full stop, a tilde or a hyphen.",
        )
    return name


def strange_word(given: object, words: Sequence[str]) -> tuple[str, str]:
    """What is wrong with a word that a key can't hold, and what to write."""
    near = difflib.get_close_matches(str(given), words, n=1)
    hint = f'Did you mean "{near[0]}"?' if near else f"Write one of {', '.join(words)}."
    return f"{shown(given)} is not one of its words", hint


def read_splice(given: object) -> str:
    """How an end of the line is made: one of the splices that there are methods of, or a fitting."""
    kinds = end_kinds()
    if not isinstance(given, str) or given not in kinds:
        raise UnitError(*strange_word(given, kinds))
    return given


Name = Annotated[str, AfterValidator(_name)]
SpliceWord = Annotated[str, BeforeValidator(read_splice)]
JobName = Annotated[str, AfterValidator(_job_name)]
Length = Annotated[Measure, BeforeValidator(read_length)]
Force = Annotated[Measure, BeforeValidator(read_force)]
Angle = Annotated[Measure, BeforeValidator(read_angle)]
Density = Annotated[Measure, BeforeValidator(read_density)]
Temperature = Annotated[Measure, BeforeValidator(read_temperature)]
Share = Annotated[Measure, BeforeValidator(read_share)]


class Table(BaseModel):
    """A table that refuses keys it doesn't know."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, arbitrary_types_allowed=True)


class RopeTable(Table):
    """[rope]"""

    name: Name = "rope"
    diameter: Length
    diameter_min: Length | None = None
    diameter_max: Length | None = None
    strands: int
    weave: Weave
    pitch: Length
    squeeze: Share | None = None
    strength: Force | None = None
    stretch: Share | None = None
    linear_density: Density | None = None
    temperature_limit: Temperature | None = None
    stretch_tension: Force | None = None
    bedding_in: Share | None = None


class RingTable(Table):
    """[terminator] kind = "ring": a grooved ring or a round thimble."""

    kind: Literal["ring"]
    name: Name = "ring"
    bearing_diameter: Length
    width: Length
    groove_radius: Length
    hole: Length | None = None


class TeardropTable(Table):
    """[terminator] kind = "teardrop": a thimble whose flanks run to a nose."""

    kind: Literal["teardrop"]
    name: Name = "teardrop thimble"
    bearing_diameter: Length
    width: Length
    groove_radius: Length
    length: Length
    nose_radius: Length | None = None
    hole: Length | None = None


class DeadeyeTable(Table):
    """[terminator] kind = "deadeye": a round block with a groove and lashing holes."""

    kind: Literal["deadeye"]
    name: Name = "deadeye"
    bearing_diameter: Length
    width: Length
    groove_radius: Length
    lashing_holes: int
    lashing_hole: Length


class PinTable(Table):
    """[terminator] kind = "pin": a plain pin or post."""

    kind: Literal["pin"]
    name: Name = "pin"
    bearing_diameter: Length
    width: Length


TerminatorTable = RingTable | TeardropTable | DeadeyeTable | PinTable


class EndTable(Table):
    """[[line.ends]]"""

    name: Name = "end"
    splice: SpliceWord = USUAL_SPLICE
    eye_length: Length | None = None
    terminator: TerminatorTable | None = Field(default=None, discriminator="kind")
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
    thread_on_first: list[Name] = []
    ends: list[EndTable] = Field(min_length=1, max_length=2)


class ToolsTable(Table):
    """[tools]"""

    fids: list[Length] = Field(min_length=1, max_length=40)
    tape_division: Length | None = None


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
    lock_stitch: bool = False


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
    terminator: TerminatorTable = Field(discriminator="kind")
    line: LineTable
    tools: ToolsTable
    practice: PracticeTable = PracticeTable()
    print: PrintTable = PrintTable()


TABLES: dict[str, tuple[type[Table], ...]] = {
    "": (JobTable,),
    "rope": (RopeTable,),
    "terminator": (RingTable, TeardropTable, DeadeyeTable, PinTable),
    "line": (LineTable,),
    "line.ends": (EndTable,),
    "line.ends.terminator": (RingTable, TeardropTable, DeadeyeTable, PinTable),
    "line.adjuster": (AdjusterTable,),
    "tools": (ToolsTable,),
    "practice": (PracticeTable,),
    "print": (PrintTable,),
}
"""The models behind each table of the file."""


def keys_of(table: str, kind: str | None = None) -> tuple[str, ...]:
    """Keys a table may have; for [terminator] those of one kind, or of all kinds where none is given."""
    models = TABLES.get(table, ())
    chosen = [model for model in models if kind is None or len(models) == 1 or _kind(model) == kind] or models
    fields = [(name, info.alias) for model in chosen for name, info in model.model_fields.items()]
    return tuple(dict.fromkeys(alias or name for name, alias in fields))


def needed_keys(table: str) -> tuple[str, ...]:
    """Keys a table must have, whatever its kind."""
    models = TABLES.get(table, ())
    sets = [[info.alias or name for name, info in model.model_fields.items() if info.is_required()] for model in models]
    return tuple(
        key for key in dict.fromkeys(key for keys in sets for key in keys) if all(key in keys for keys in sets)
    )


def kinds() -> tuple[str, ...]:
    """Kinds of terminator, as written in the file."""
    return tuple(_kind(model) for model in TABLES["terminator"])


def _kind(model: type[Table]) -> str:
    """The kind a terminator's model stands for."""
    return model.__name__.removesuffix("Table").lower()
