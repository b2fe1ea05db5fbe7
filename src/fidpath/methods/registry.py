"""The methods that come with the program, each discovered by its folder."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from functools import lru_cache
from importlib import import_module
from types import MappingProxyType

from fidpath.errors import JobError
from fidpath.job import METHODS, Splice, splices
from fidpath.methods.method import Head, Method
from fidpath.methods.method_head import read_head
from fidpath.methods.placeholders import Wording
from fidpath.methods.registration import Registration


def method_names() -> tuple[str, ...]:
    """Every method, named as the splice that a job's end asks for."""
    return tuple(splices())


def method_of(splice: str) -> Method:
    """The method that makes the splice of this name. Raises JobError where there is none."""
    return _read(_known(splice))


def head_of(splice: str) -> Head:
    """The head of that method, read alone: the steps take much longer. Raises JobError where there is none."""
    known = _known(splice)
    return read_head(known.file, registration_of(known.kind).placeholders)


def _known(splice: str) -> Splice:
    """The splice of this name. Raises JobError where there is none."""
    known = splices()
    if splice not in known:
        near = difflib.get_close_matches(splice, known, n=1)
        hint = f'Did you mean "{near[0]}"' if near else f"There are {', '.join(known)}"
        raise JobError(f'no method is called "{splice}"', hint)
    return known[splice]


def registration_of(splice: str) -> Registration:
    """What the module of a method's folder registers. Raises KeyError where there is no such method."""
    registered: Registration = import_module(f"{METHODS}.{splices()[splice].folder}").REGISTRATION
    return registered


def placeholders() -> Mapping[str, Wording]:
    """Every name that may stand in braces in the words of some method, and what it stands for."""
    return _placeholders(tuple(splices()))


@lru_cache(maxsize=8)
def _placeholders(known: tuple[str, ...]) -> Mapping[str, Wording]:
    every = (registration_of(splice).placeholders for splice in known)
    return MappingProxyType({name: wording for those in every for name, wording in those.items()})


@lru_cache(maxsize=32)
def _read(splice: Splice) -> Method:
    from fidpath.methods.method_file import read_method

    return read_method(splice.file, registration_of(splice.kind).placeholders)
