"""The splices that a line's end can ask for, as the methods of splicing declare them.

A method is a folder of the package `fidpath.methods`, and the head of its data file says what a job must know of it.
This room reads that head as data, as it reads the rules of practice. So it imports no code of a later room, there is no
second list to keep up, and a folder that is added is a splice that a job file may name.
"""

from __future__ import annotations

import pkgutil
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path
from types import MappingProxyType

METHODS = "fidpath.methods"
METHOD_FILE = "method.toml"
USUAL_SPLICE = "locked-captive"
"""How an end is made where its table says nothing."""

FITTING = "fitting"
"""An end that is no splice: a fitting made up on the rope."""


@dataclass(frozen=True)
class Splice:
    """One splice. `words` say how it is made; `folder` is its package in `fidpath.methods`, `file` its data.

    locked: whether each leg goes through the other. needs_bare_end: whether the rope's other end must still be bare.
    """

    kind: str
    title: str
    words: str
    locked: bool
    needs_bare_end: bool
    folder: str
    file: Path


def splices() -> Mapping[str, Splice]:
    """Every splice by its name in a job file, in the order of their folders' names."""
    return _splices(tuple(_home()))


def end_kinds() -> tuple[str, ...]:
    """Every word that `splice` can be at an end."""
    return (*splices(), FITTING)


def splice_words(kind: str) -> str:
    """How an end of this kind is made, in a few words. Raises KeyError for a kind there is none of."""
    return "made-up fitting" if kind == FITTING else splices()[kind].words


def _home() -> list[str]:
    """The folders in which methods lie; finding them imports none of them."""
    spec = find_spec(METHODS)
    return list(spec.submodule_search_locations or ()) if spec is not None else []


@lru_cache(maxsize=8)
def _splices(homes: tuple[str, ...]) -> Mapping[str, Splice]:
    found = [
        _splice(Path(home) / module.name / METHOD_FILE)
        for home in homes
        for module in pkgutil.iter_modules([home])
        if (Path(home) / module.name / METHOD_FILE).is_file()
    ]
    return MappingProxyType({splice.kind: splice for splice in found})


def _splice(file: Path) -> Splice:
    """What the head of a method's file says, all that stands before its steps."""
    head = tomllib.loads(file.read_text(encoding="utf-8").partition("\n[[")[0])
    said = head["splice"]
    facts = (said["words"], said["locked"], said["needs_bare_end"])
    return Splice(head["name"], head["title"], *facts, file.parent.name, file)
