"""Hashes by which work is known again: of this program's own source, and of what a piece of work is done from.

What hashes is imported here where it is used: most commands hash nothing.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

SETTLING = ("numba", "numpy", "scipy")
"""Packages that decide how strands settle, and so the bytes of everything that shows them."""

SUFFIXES = (".py", ".toml", ".js", ".css", ".html", ".typ")
"""What the program's own source is written in."""


@lru_cache(maxsize=32)
def source_digest(libraries: tuple[str, ...] = ()) -> str:
    """A hash of this program's own source and rules, and of the versions of those libraries and of those that settle:
    others make other results.
    """
    names = sorted({*SETTLING, *libraries})
    return digest_of(_own_source(), {name: _version(name) for name in names})


@lru_cache(maxsize=1)
def _own_source() -> str:
    import hashlib

    found = hashlib.sha256()
    home = Path(__file__).parent.parent
    for path in sorted(path for path in home.rglob("*") if path.suffix in SUFFIXES):
        found.update(path.relative_to(home).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return found.hexdigest()


@lru_cache(maxsize=64)
def _version(name: str) -> str:
    from importlib import metadata

    try:
        return metadata.version(name)
    except metadata.PackageNotFoundError:
        return "none"


def digest_of(*values: Any) -> str:
    """A hash of plain values, arrays and dataclasses of them, the same in every run. Raises TypeError for others."""
    import hashlib

    text = json.dumps([_plain(value) for value in values], separators=(",", ":"), sort_keys=True)
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def _plain(value: Any) -> Any:
    """A value as what JSON has, told apart by its type where that matters."""
    if value is None or isinstance(value, bool | int | float | str):
        return value
    if is_dataclass(value) and not isinstance(value, type):
        own = {field.name: _plain(getattr(value, field.name)) for field in fields(value)}
        return {type(value).__name__: own}
    if isinstance(value, Mapping):
        return [[_plain(key), _plain(item)] for key, item in value.items()]
    if isinstance(value, list | tuple):
        return [_plain(item) for item in value]
    if hasattr(value, "dtype"):  # numpy's: loaded here it would be too early, with as many threads as it likes
        return {str(value.dtype): value.tolist()}
    raise TypeError(f"no digest of a {type(value).__name__}")
