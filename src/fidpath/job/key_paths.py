"""The path of a key in a TOML file: one notion for reading, for limits, for line numbers and for messages."""

from __future__ import annotations

import re

BARE = re.compile(r"[\w-]+", re.ASCII)
"""What a TOML file may write as a key without quotes."""

Parts = tuple[str | int, ...]
"""Names of tables and keys, and the places of items in lists, counted from 0."""


class KeyPath(tuple[str | int, ...]):
    """Where a key stands. Its text counts items from 1, as people do: `line.ends[2].name`."""

    __slots__ = ()

    def __truediv__(self, part: str | int) -> KeyPath:
        """The path of what lies below: `key_path("line.ends") / 0 / "splice"`."""
        return KeyPath((*self, part))

    def below(self, parts: Parts) -> KeyPath:
        """The path of what lies deeper by several parts."""
        return KeyPath((*self, *parts))

    def __str__(self) -> str:
        text = ""
        for part in self:
            if isinstance(part, int):
                text += f"[{part + 1}]"
            else:
                name = part if BARE.fullmatch(part) else repr(part)
                text += f".{name}" if text else name
        return text

    @property
    def in_schema(self) -> str:
        """The key's name whatever the item: `line.ends.name`. Limits and notes go by it."""
        return str(KeyPath(part for part in self if isinstance(part, str)))


def key_path(text: str) -> KeyPath:
    """The path that a text such as `line.ends[2].name` stands for."""
    parts = re.findall(r"([^.\[\]]+)(?:\[(\d+)\])?", text)
    return KeyPath(part for name, item in parts for part in ((name, int(item) - 1) if item else (name,)))
