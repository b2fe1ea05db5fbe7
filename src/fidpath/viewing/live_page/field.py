"""One parameter of a job that can be changed on a page: where it stands in the file, and how it may be written."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

from pydantic.fields import FieldInfo

from fidpath.job import Job, Key, KeyPath, choices_of

Kind = Literal["text", "number", "numbers", "share", "list", "sizes", "choice", "switch"]

LENGTHS = "mm or in"
DIAMETERS = "d, mm or in"


def nothing(_job: Job) -> str:
    """No words: nothing holds where the field is empty."""
    return ""


def always(words: str) -> Callable[[Job], str]:
    """The same words for every job."""
    return lambda _job: words


@dataclass(frozen=True)
class Field:
    """One parameter: where it stands in the file, what it is called, how it may be written.

    `default` says what holds where the file leaves it out; `of` names the terminators that have it, all where empty,
    and `kind_key` the field that says which one there is; `limits` are in mm; `note` says what is to be measured.
    """

    path: KeyPath
    label: str
    group: str
    units: str = ""
    kind: Kind = "text"
    choices: tuple[tuple[str, str], ...] = ()
    default: Callable[[Job], str] = nothing
    of: tuple[str, ...] = ()
    bounds: str = ""
    limits: tuple[float, float] | None = None
    kind_key: str = "terminator.kind"
    note: str = ""

    @cached_property
    def key(self) -> str:
        """The key as messages name it."""
        return str(self.path)


def typed(field: Field, key: Key, info: FieldInfo, none: tuple[tuple[str, str], ...] = ()) -> Field:
    """The field as its key's type has it: one of some words (or `none`), a number, or a length."""
    if words := choices_of(info):
        return replace(field, kind="choice", choices=(*none, *((word, word) for word in words)))
    if info.annotation is int and key.limits is not None:
        return replace(field, kind="number", bounds="{:g} to {:g}".format(*key.limits))
    return replace(field, units=LENGTHS)
