"""Files other than jobs (a loft's record, a set of lines, measurements), read with the same care and messages."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path as FilePath
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from fidpath.job.key_paths import KeyPath
from fidpath.job.keys import Table
from fidpath.job.locate import KeyedError, key_lines
from fidpath.job.reader import MOST_REFUSALS, first_of, placed, refusal_of, text_of, toml_of

Model = TypeVar("Model", bound=Table)


def read_as(path: FilePath, model: type[Model], part: Callable[[str], str] = str) -> tuple[Model, str]:
    """A TOML file as one of our tables, and its text. Raises JobError where it can't be read or says what can't be.

    part: what of its text is read, as many lines long.
    """
    text, source = part(text_of(path, "Check its path")), str(path)
    raw = toml_of(text, source)
    with about(text, source):
        try:
            return model.model_validate(raw), text
        except ValidationError as problem:
            wrong = problem.errors(include_url=False)[:MOST_REFUSALS]
            refusals = [_refusal(dict(error), raw, model) for error in wrong]
            raise first_of(refusals, key_lines(text)) from None


@contextmanager
def about(text: str, source: str) -> Iterator[None]:
    """Whatever is wrong with a key of this text gets the file and the line."""
    try:
        yield
    except KeyedError as refused:
        raise placed(refused, text, source) from None


def _refusal(error: dict[str, Any], raw: dict[str, Any], model: type[Table]) -> KeyedError:
    """One of pydantic's findings in our words."""
    path = KeyPath(error["loc"])
    if error["type"] == "extra_forbidden":
        near = difflib.get_close_matches(str(path[-1]).lower(), _words(model), n=1)
        if near == [path[-1]]:
            return KeyedError(path, "unknown key here", "Leave it out: it is a key of another table.")
        hint = f'Did you mean "{near[0]}"?' if near else f"Leave it out; known here: {', '.join(_words(model))}."
        return KeyedError(path, "unknown key", hint)
    if error["type"] == "missing":
        return KeyedError(path, "this key is missing", f"Add {path}.")
    if error["type"].startswith("date"):
        return KeyedError(path, "this is not a date", "Write it without quotes, year first: 2026-03-14.")
    return refusal_of(error, raw)


def _words(model: type[BaseModel]) -> list[str]:
    """Every key of a table and of the tables in it."""
    words: dict[str, None] = {}
    for name, info in model.model_fields.items():
        words[info.alias or name] = None
        below = [arg for arg in (info.annotation, *getattr(info.annotation, "__args__", ())) if isinstance(arg, type)]
        for kind in below:
            if issubclass(kind, BaseModel):
                words |= dict.fromkeys(_words(kind))
    return list(words)
