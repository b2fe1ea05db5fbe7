"""What a method's module registers: what code must know of the method beside its data."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from fidpath.methods.method import Method
from fidpath.methods.placeholders import Wording
from fidpath.planning import Plan

if TYPE_CHECKING:
    from fidpath.methods.diagnosis_questions import Question

Sightings = TypeVar("Sightings")


@dataclass(frozen=True)
class Hint:
    """What one sighting says: the mistake by its name, how strongly, in what words, and how far off that is."""

    mistake: str
    weight: float
    why: str
    off: str = ""


@dataclass(frozen=True)
class Diagnostics(Generic[Sightings]):
    """How a method's mistakes are told from what is seen at the bench; `Sightings` is what can be seen there.

    questions: what to look at, in the order of the work. read: answers by the questions' keys, as sightings; raises
    SightingError. given: the sightings by name, as plain data. hints: what they point to; raises SightingError where
    they contradict each other. look_next: what to look at to tell apart what is left open.
    """

    questions: Callable[[Method], tuple[Question, ...]]
    read: Callable[[Method, Mapping[str, str], Plan | None], Sightings]
    given: Callable[[Method, Sightings], dict[str, Any]]
    hints: Callable[[Method, Sightings, Plan | None], Iterable[Hint]]
    look_next: Callable[[Method, Sightings], tuple[str, ...]]


@dataclass(frozen=True)
class Registration:
    """What code must know of a method beside its data; the module of its folder names it REGISTRATION.

    placeholders: the figures that its words may hold. diagnostics: loads how its mistakes are told at the bench, if
    they can be. moves: whether the motion from step to step is known.
    """

    placeholders: Mapping[str, Wording]
    diagnostics: Callable[[], Diagnostics[Any]] | None = None
    moves: bool = False
