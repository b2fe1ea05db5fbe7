"""A job's tables -> the text of a job file, which `read` takes as the same job again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

HEAD = '# Written by fidpath\'s live page. Measures carry their unit; "7 d" is seven rope diameters.\n'


def job_text(tables: Mapping[str, Any]) -> str:
    """A job file's text: keys before tables, each table under its header. Comments of the original are not in it."""
    return HEAD + "\n".join(_table(tables, ""))


def _table(table: Mapping[str, Any], name: str) -> list[str]:
    """One table's keys, then the tables in it, each with a blank line before it."""
    lines = [f"{key} = {_value(value)}" for key, value in table.items() if not _holds_tables(value)]
    for key, value in table.items():
        inner = f"{name}.{key}" if name else key
        if isinstance(value, Mapping):
            lines += ["", f"[{inner}]", *_table(value, inner)]
        elif _holds_tables(value):
            for item in value:
                lines += ["", f"[[{inner}]]", *_table(item, inner)]
    return [*lines, ""] if not name else lines


def _holds_tables(value: Any) -> bool:
    """Whether a value is a table or a list of them, which TOML writes under a header of its own."""
    return isinstance(value, Mapping) or (_is_list(value) and bool(value) and isinstance(value[0], Mapping))


def _is_list(value: Any) -> bool:
    return isinstance(value, Sequence) and not isinstance(value, str)


def _value(value: Any) -> str:
    """A key's value. Raises TypeError for what a job file never holds."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, str):
        return f'"{"".join(_letter(letter) for letter in value)}"'
    if _is_list(value):
        return f"[{', '.join(_value(item) for item in value)}]"
    raise TypeError(f"a job file holds no {type(value).__name__}")


def _letter(letter: str) -> str:
    """A letter as TOML's quoted text has it."""
    if letter in '"\\':
        return "\\" + letter
    if letter.isprintable():
        return letter
    return f"\\u{ord(letter):04x}" if ord(letter) < 0x10000 else f"\\U{ord(letter):08x}"
