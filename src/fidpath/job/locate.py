"""Where each key of a TOML text stands, line by line; tomllib keeps no line numbers.

The text must already have been accepted by tomllib: this only finds places, it doesn't judge.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from fidpath.job.key_paths import KeyPath, Parts


class KeyedError(Exception):
    """What is wrong with the key at a path, and what to do; the reader adds the file and the line."""

    def __init__(self, path: Parts, what: str, remedy: str) -> None:
        super().__init__(what)
        self.path = KeyPath(path)
        self.what = what
        self.remedy = remedy


TOKEN = re.compile(
    r'''(?P<space>[ \t\r]+)|(?P<comment>\#[^\n]*)|(?P<newline>\n)
    |(?P<text>"""(?:\\.|[^\\])*?"{3,5}|\'\'\'.*?'{3,5}|"(?:\\.|[^"\\\n])*"|'[^'\n]*')
    |(?P<mark>\[\[|\]\]|[\[\]{},=.])|(?P<bare>[^\s\[\]{},=."'\#]+)''',
    re.VERBOSE | re.DOTALL,
)


@dataclass
class _Scan:
    """What the scanner knows between two tokens."""

    lines: dict[Parts, int] = field(default_factory=dict)
    header: Parts = ()
    counts: dict[Parts, int] = field(default_factory=dict)
    open: list[tuple[str, Parts, int]] = field(default_factory=list)
    key: list[str] = field(default_factory=list)
    value: bool = False
    at: Parts = ()


def line_of(text: str, path: Parts) -> int | None:
    """Line of a key, counted from 1; of the nearest table above it where the key itself is not in the text."""
    return nearest(key_lines(text), path)


def nearest(lines: dict[Parts, int], path: Parts) -> int | None:
    """The line of the longest part of a path that has one."""
    known = (path[:length] for length in range(len(path), 0, -1))
    return next((lines[part] for part in known if part in lines), None)


def key_lines(text: str) -> dict[Parts, int]:
    """Line of every key and table, counted from 1, by its path; items of an array have their index in it."""
    scan = _Scan()
    tokens = _tokens(text)
    place = 0
    while place < len(tokens):
        kind, word, line = tokens[place]
        if not scan.open and not scan.value and not scan.key and word in ("[", "[["):
            place = _header(scan, tokens, place)
        elif kind == "newline":
            _end_of_line(scan)
        else:
            _token(scan, kind, word, line)
        place += 1
    return scan.lines


def _tokens(text: str) -> list[tuple[str, str, int]]:
    """Every token but space and comments: its kind, its text, its line."""
    found: list[tuple[str, str, int]] = []
    line, place = 1, 0
    while match := TOKEN.match(text, place):
        kind, word = str(match.lastgroup), match.group()
        if kind not in ("space", "comment"):
            found.append((kind, word, line))
        line += word.count("\n")
        place = match.end()
    return found


def _header(scan: _Scan, tokens: list[tuple[str, str, int]], place: int) -> int:
    """Take in `[table]` or `[[table]]`; returns the place of its last token."""
    opening, line = tokens[place][1], tokens[place][2]
    last = next(i for i in range(place, len(tokens)) if tokens[i][1] in ("]", "]]"))
    names = [_name(kind, word) for kind, word, _ in tokens[place + 1 : last] if word != "."]
    table = _indexed(scan, names)
    if opening == "[[":
        scan.lines.setdefault(table, line)
        index = scan.counts.get(table, -1) + 1
        scan.counts[table] = index
        table = (*table, index)
    scan.header = table
    for length in range(1, len(table) + 1):
        scan.lines.setdefault(table[:length], line)
    return last


def _indexed(scan: _Scan, names: list[str]) -> Parts:
    """A header's path, with the index of the latest item in each array of tables above it."""
    path: Parts = ()
    for depth, name in enumerate(names):
        path = (*path, name)
        if path in scan.counts and depth < len(names) - 1:
            path = (*path, scan.counts[path])
    return path


def _name(kind: str, word: str) -> str:
    """A key as tomllib reads it; quoted keys lose their quotes."""
    return word[1:-1] if kind == "text" else word


def _end_of_line(scan: _Scan) -> None:
    """A line end closes a value that is not inside brackets."""
    if not scan.open:
        scan.value, scan.key = False, []


def _token(scan: _Scan, kind: str, word: str, line: int) -> None:
    """One token of a key, a value, an array or an inline table."""
    if not scan.value:
        _token_of_key(scan, kind, word, line)
        return
    for mark in word if kind == "mark" else ():
        if mark in "[{":
            _open(scan, mark, line)
        elif mark in "]}":
            _close(scan)
        elif mark == "," and scan.open:
            _next_item(scan)


def _token_of_key(scan: _Scan, kind: str, word: str, line: int) -> None:
    """A part of a dotted key, the sign before its value, or an inline table's end."""
    if word == "=":
        base = scan.open[-1][1] if scan.open else scan.header
        scan.at = (*base, *scan.key)
        for length in range(len(base) + 1, len(scan.at) + 1):
            scan.lines.setdefault(scan.at[:length], line)
        scan.value, scan.key = True, []
    elif word == "}":
        _close(scan)
    elif kind in ("bare", "text"):
        scan.key.append(_name(kind, word))


def _open(scan: _Scan, mark: str, line: int) -> None:
    """Go into an array or an inline table."""
    if scan.open and scan.open[-1][0] == "[":
        _, path, index = scan.open[-1]
        scan.at = (*path, index)
        scan.lines.setdefault(scan.at, line)
    scan.open.append((mark, scan.at, 0))
    scan.value = mark == "["


def _close(scan: _Scan) -> None:
    """Leave an array or an inline table; what follows belongs to a value still."""
    scan.open.pop()
    scan.value = True


def _next_item(scan: _Scan) -> None:
    """After a comma: the array's next item, or the inline table's next key."""
    mark, path, index = scan.open[-1]
    scan.open[-1] = (mark, path, index + 1)
    scan.value, scan.key = mark == "[", []
