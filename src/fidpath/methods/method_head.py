"""What stands before the steps in a method's file: its names and its card. It can be read without the steps."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path as FilePath
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field, model_validator

from fidpath.job import KeyedError, KeyPath, Name, Table, about, read_as
from fidpath.methods.method import Also, Head, When
from fidpath.methods.placeholders import Wording, unknown_in
from fidpath.units import UnitError

LONGEST = 300
MOST_CARD_LINES = 20
OF_SCHEMA_1 = (
    "Write schema = 2, [[mistakes]] for [[wrong_ways]], remedy for way_back, made_at = a state for at_step = a number."
)

OTHER_TABLES = re.compile(r"^\[\[(?!card\]\]).*?(?=^\[\[card\]\]|\Z)", re.MULTILINE | re.DOTALL)
"""What a method's file holds besides its head: everything from the first table of another list to the next card's."""


def _kind(text: str) -> str:
    """A name that can stand in a file's name."""
    if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", text) or len(text) > 40:
        raise UnitError(f'"{text}" is no name for a state or a method', 'Write small letters and hyphens: "tail-in".')
    return text


def _words(text: str) -> str:
    """One printable line."""
    if not text.strip() or not text.isprintable() or len(text) > LONGEST:
        raise UnitError("this is not a sentence on one line", f"Write 1 to {LONGEST} printable letters and marks.")
    return text.strip()


def sized(low: int, high: int, what: str) -> AfterValidator:
    """Refuse a list of another length."""

    def check(items: list[Any]) -> list[Any]:
        if not low <= len(items) <= high:
            raise UnitError(f"there are {len(items)} {what} here", f"Write {low} to {high}.")
        return items

    return AfterValidator(check)


Kind = Annotated[str, AfterValidator(_kind)]
Sentence = Annotated[str, AfterValidator(_words)]


class SpliceTable(Table):
    """[splice]: what a job must know of the method; `fidpath.job.splice_kinds` reads it."""

    words: Name
    locked: bool
    needs_bare_end: bool


class CardLineTable(Table):
    """[[card]]"""

    say: Sentence
    when: When = ""


class HeadTable(Table):
    """A method without its steps and mistakes."""

    schema_version: Literal[2] = Field(alias="schema")
    name: Kind
    title: Name
    summary: Sentence
    splice: SpliceTable | None = None
    card: Annotated[list[CardLineTable], sized(0, MOST_CARD_LINES, "lines")] = Field(default=[])

    @model_validator(mode="before")
    @classmethod
    def _of_this_schema(cls, raw: Any) -> Any:
        """Say what has changed since the first schema rather than refuse its keys one by one."""
        if isinstance(raw, dict) and raw.get("schema") == 1:
            raise UnitError("this file is a method of schema 1", OF_SCHEMA_1)
        return raw


def read_head(path: FilePath, placeholders: Mapping[str, Wording]) -> Head:
    """The head of a method's file, whose words may hold these placeholders.

    Raises JobError, with file, line and what to do, where the head says what can't be; the rest isn't looked at.
    """
    table, text = read_as(path, HeadTable, _head)
    with about(text, str(path)):
        check_words(table, placeholders)
    return Head(table.name, table.title, card_of(table))


def _head(text: str) -> str:
    """A method's text with nothing but blank lines where its steps and mistakes stand."""
    return OTHER_TABLES.sub(lambda other: "\n" * other.group().count("\n"), text)


def card_of(table: HeadTable) -> tuple[Also, ...]:
    """The lines of the card."""
    return tuple(Also(line.when, line.say) for line in table.card)


def check_words(table: Table, placeholders: Mapping[str, Wording]) -> None:
    """Every placeholder is one that this method may use. Raises KeyedError."""
    for path, text in _texts(table, KeyPath()):
        unknown = unknown_in(text, placeholders)
        if unknown:
            raise KeyedError(path, *unknown)


def _texts(value: object, path: KeyPath) -> Iterator[tuple[KeyPath, str]]:
    """Every text of a table and of the tables in it, with its path."""
    if isinstance(value, str):
        yield path, value
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from _texts(item, path / index)
    elif isinstance(value, Table):
        for name, info in type(value).model_fields.items():
            yield from _texts(getattr(value, name), path / (info.alias or name))
