"""The object file that LLVM writes for WebAssembly -> a module that can be instantiated, without a linker.

An object file of one translation unit without data is a module already, except that nothing is exported and that
custom sections tell a linker what to do. They are left out, and the functions wanted are exported.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

CUSTOM, EXPORTS, FIRST_AFTER_EXPORTS = 0, 7, 8
SYMBOL_TABLE = 8
"""Number of the subsection of the section "linking" that names functions."""

FUNCTION, DATA, SECTION = 0, 1, 3
"""Kinds of symbols that are written otherwise than the rest; a function's index comes first, then its name."""

UNDEFINED, NAMED = 0x10, 0x40
"""Flags of a symbol: it is imported; it has a name of its own all the same."""


def number(value: int) -> bytes:
    """An unsigned number in seven-bit groups, the lowest first."""
    groups = bytearray()
    while True:
        group, value = value & 0x7F, value >> 7
        groups.append(group | (0x80 if value else 0))
        if not value:
            return bytes(groups)


class Reader:
    """Reads numbers and names from bytes, one after another."""

    def __init__(self, data: bytes) -> None:
        self.data, self.at = data, 0

    def __bool__(self) -> bool:
        return self.at < len(self.data)

    def byte(self) -> int:
        """The next byte."""
        self.at += 1
        return self.data[self.at - 1]

    def number(self) -> int:
        """A number in seven-bit groups."""
        value = shift = 0
        while True:
            group = self.byte()
            value |= (group & 0x7F) << shift
            shift += 7
            if group < 0x80:
                return value

    def bytes(self) -> bytes:
        """As many bytes as the number before them says."""
        size = self.number()
        self.at += size
        return self.data[self.at - size : self.at]

    def name(self) -> str:
        """The same as text."""
        return self.bytes().decode("utf-8")


def sections(module: bytes) -> Iterator[tuple[int, bytes]]:
    """The sections of a module: number and content."""
    reader = Reader(module)
    reader.at = 8
    while reader:
        yield reader.byte(), reader.bytes()


def functions(module: bytes) -> dict[str, int]:
    """Functions defined in an object file: name and index."""
    found: dict[str, int] = {}
    for kind, content in sections(module):
        reader = Reader(content)
        if kind != CUSTOM or reader.name() != "linking":
            continue
        reader.number()
        while reader:
            part, inside = reader.byte(), Reader(reader.bytes())
            if part == SYMBOL_TABLE:
                found.update(_symbols(inside))
    return found


def _symbols(reader: Reader) -> Iterator[tuple[str, int]]:
    for _ in range(reader.number()):
        kind, flags = reader.byte(), reader.number()
        if kind == DATA:
            reader.name()
            if not flags & UNDEFINED:
                [reader.number() for _ in range(3)]
            continue
        index = reader.number()
        if kind == SECTION or (flags & UNDEFINED and not flags & NAMED):
            continue
        name = reader.name()
        if kind == FUNCTION and not flags & UNDEFINED:
            yield name, index


def with_exports(module: bytes, names: Mapping[str, str]) -> bytes:
    """A module of an object file that exports its functions `names`: name in the object file -> exported name.

    Raises KeyError where there is no such function.
    """
    known = functions(module)
    entries = [_named(name) + bytes([0]) + number(known[symbol]) for symbol, name in names.items()]
    exports = number(len(entries)) + b"".join(entries)
    made, written = [module[:8]], False
    for kind, content in sections(module):
        if kind == CUSTOM:
            continue
        if kind >= FIRST_AFTER_EXPORTS and not written:
            made.append(_section(EXPORTS, exports))
            written = True
        made.append(_section(kind, content))
    return b"".join(made)


def _named(name: str) -> bytes:
    text = name.encode("utf-8")
    return number(len(text)) + text


def _section(kind: int, content: bytes) -> bytes:
    return bytes([kind]) + number(len(content)) + content


def imports(module: bytes) -> list[str]:
    """Names of what a module needs from outside."""
    reader = Reader(next((content for kind, content in sections(module) if kind == 2), b"\0"))
    return [_import(reader) for _ in range(reader.number())]


def _import(reader: Reader) -> str:
    reader.name()
    name, kind = reader.name(), reader.byte()
    if kind == 0:
        reader.number()
    elif kind in {1, 2}:
        if kind == 1:
            reader.byte()
        limited = reader.byte() & 1
        [reader.number() for _ in range(1 + limited)]
    else:
        reader.byte(), reader.byte()
    return name
