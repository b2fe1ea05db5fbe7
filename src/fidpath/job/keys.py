"""What the tables of files are built from: a table that refuses unknown keys, and the values that a key may hold."""

from __future__ import annotations

import difflib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Literal, get_args, get_origin

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict
from pydantic.fields import FieldInfo

from fidpath.machine import RESERVED
from fidpath.units import (
    Measure,
    UnitError,
    read_angle,
    read_density,
    read_duration,
    read_force,
    read_length,
    read_share,
    read_temperature,
    shown,
)

LONGEST_NAME = 120


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


Name = Annotated[str, AfterValidator(_name)]
JobName = Annotated[str, AfterValidator(_job_name)]
Length = Annotated[Measure, BeforeValidator(read_length)]
Duration = Annotated[Measure, BeforeValidator(read_duration)]
Force = Annotated[Measure, BeforeValidator(read_force)]
Angle = Annotated[Measure, BeforeValidator(read_angle)]
Density = Annotated[Measure, BeforeValidator(read_density)]
Temperature = Annotated[Measure, BeforeValidator(read_temperature)]
Share = Annotated[Measure, BeforeValidator(read_share)]


def strange_word(given: object, words: Sequence[str]) -> tuple[str, str]:
    """What is wrong with a word that a key can't hold, and what to write."""
    near = difflib.get_close_matches(str(given), words, n=1)
    hint = f'Did you mean "{near[0]}"?' if near else f"Write one of {', '.join(words)}."
    return f"{shown(given)} is not one of the choices", hint


class Table(BaseModel):
    """A table that refuses keys it doesn't know."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, arbitrary_types_allowed=True, defer_build=True)


@dataclass(frozen=True)
class Key:
    """What is said of a key of a terminator's table, beside its type: stands among the type's annotations.

    note: follows the key in a new job file and in the reference. example: as the file has it, without quotes.
    label: names its field in a form. limits: least and greatest, mm for a length. left_out: what holds without it.
    """

    note: str
    example: str | int
    label: str = ""
    limits: tuple[float, float] | None = None
    left_out: str = ""

    @property
    def written(self) -> str:
        """The example as the file has it."""
        return str(self.example) if isinstance(self.example, int) else f'"{self.example}"'


def key_of(table: type[Table], name: str) -> Key:
    """What is said of a key. Raises LookupError where its type has no `Key` among its annotations."""
    keys = [one for one in table.model_fields[name].metadata if isinstance(one, Key)]
    if not keys:
        raise LookupError(f"{table.__name__}.{name} has no Key among its annotations")
    return keys[0]


def choices_of(info: FieldInfo) -> tuple[str, ...]:
    """The words a key may hold where it holds one of some; none otherwise."""
    kind = info.annotation
    return get_args(kind) if get_origin(kind) is Literal else ()
