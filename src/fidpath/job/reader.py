"""A job file -> Job. Whatever is wrong comes out as one JobError: file, line, key, what is wrong, what to do."""

from __future__ import annotations

import difflib
import re
import stat
import tomllib
from pathlib import Path as FilePath
from typing import Any

from fidpath.errors import FidpathError, JobError
from fidpath.job.job import Job
from fidpath.job.key_paths import KeyPath, Parts, key_path
from fidpath.job.locate import KeyedError, key_lines, line_of, nearest
from fidpath.units import shown

LARGEST = 1_000_000
"""Bytes; a job file is a page of text."""

MOST_MARKS = 160_000
"""Brackets, commas, full stops and signs of equality; a table of 20,000 lines of a set has 120,000."""

MOST_KEYS = 1000
"""Keys in one table; the longest of ours has a score."""

LONGEST_WORDS = 200
"""Letters of a message that come from the file itself."""

MOST_REFUSALS = 200
"""Findings looked at, to show the one that comes first."""

DEEP_KEY = re.compile(
    r"""(?:^|[\[{,])[ \t]*+(?:(?:[\w-]++|"[^"\n]*+"|'[^'\n]*+')[ \t]*+\.[ \t]*+){24}""", re.ASCII | re.MULTILINE
)
"""A key in tables within tables, far deeper than any of ours."""

CURLY = "\u201c\u201d\u201e\u2018\u2019\u00ab\u00bb"
"""Quotes that word processors set."""

KINDS_WANTED = {
    "int_type": "a whole number without quotes",
    "string_type": "text in quotes",
    "bool_type": "true or false",
    "list_type": "a list in square brackets",
    "model_type": "a table",
    "model_attributes_type": "a table",
}

LIST_SIZES = {
    "too_short": ("the list is empty", "Write at least one."),
    "too_long": ("the list is too long", "A line has one end or two, and a bench at most 40 fids."),
}


def read_job(path: FilePath) -> Job:
    """The job in a file. Raises JobError where it says what can't be."""
    return parse_job(text_of(path), str(path))


def parse_job(text: str, source: str = "job.toml") -> Job:
    """The job in a text, `source` being the name that messages give it. Raises JobError."""
    raw = toml_of(text, source)
    try:
        return _job(raw, text, source)
    except KeyedError as refused:
        raise placed(refused, text, source) from None


def placed(refused: KeyedError, text: str, source: str) -> JobError:
    """What is wrong with a key, with the file and the line it stands in."""
    return JobError(
        refused.what,
        refused.remedy.rstrip("."),
        file=source,
        line=line_of(text, refused.path) if refused.path else None,
        key=str(refused.path)[:LONGEST_WORDS] or None,
    )


def with_line(error: FidpathError) -> FidpathError:
    """The same error with the line of its key, where a later phase knew the key and not the line."""
    if error.file is None or error.key is None or error.line is not None:
        return error
    located: Parts = key_path(error.key)
    if located[:2] == ("line", "ends") and len(located) > 2 and isinstance(located[2], str):
        located = ("line", "ends", 0, *located[2:])
    try:
        error.line = line_of(text_of(FilePath(error.file)), located)
    except JobError:
        return error
    return error


def text_of(path: FilePath, missing: str = "") -> str:
    """A file's text. Raises JobError where there is no such file, or it is no text of a sensible size."""
    shown = str(path)
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise JobError("this is not a file", "Give the path of a job file", file=shown)
        if status.st_size > LARGEST:
            size = f"{status.st_size / 1e6:.1f} MB"
            raise JobError(f"{size} is too large for a job file", "A job file is a page of text", file=shown)
        with path.open("rb") as stream:
            return stream.read(LARGEST + 1).decode("utf-8-sig")
    except FileNotFoundError:
        remedy = missing or f"`fidpath new {shown}` writes one to start from"
        raise JobError("there is no such file", remedy, file=shown) from None
    except UnicodeDecodeError as problem:
        line = problem.object[: problem.start].count(b"\n") + 1
        raise JobError("the file is not UTF-8 text", "Save it as UTF-8", file=shown, line=line) from None
    except (OSError, ValueError) as problem:
        why = problem.strerror if isinstance(problem, OSError) and problem.strerror else str(problem)
        raise JobError(f"the file can't be read: {why}", "Check its path and permissions", file=shown) from None


def toml_of(text: str, source: str) -> dict[str, Any]:
    """The text's tables. Raises JobError where it is not TOML, or holds a number that no program need take."""
    try:
        _check_extent(text)
        raw = tomllib.loads(text)
        _check_sizes(raw)
    except KeyedError as refused:
        raise placed(refused, text, source) from None
    except tomllib.TOMLDecodeError as problem:
        said = str(problem)
        match = re.search(r" \(at line (\d+), column \d+\)$", said)
        line = int(match.group(1)) if match else text.rstrip("\n").count("\n") + 1
        what = said[: match.start()] if match else said.removesuffix(" (at end of document)")
        raise JobError(
            f"this is not TOML: {one_line(what)[:LONGEST_WORDS]}", _toml_remedy(text, line), file=source, line=line
        ) from None
    except (RecursionError, ValueError) as problem:
        why = "brackets are nested too deeply" if isinstance(problem, RecursionError) else one_line(str(problem))
        raise JobError(f"this is not TOML: {why}", "See `fidpath new` for a valid job file", file=source) from None
    return raw


def _check_extent(text: str) -> None:
    """Refuse what would take too long to read, or too much memory."""
    if sum(text.count(mark) for mark in "[]{},=.") > MOST_MARKS:
        raise KeyedError((), "this file is much too long", "Split it, or leave out what isn't needed.")
    deep = DEEP_KEY.search(text)
    if deep is not None:
        line = text.count("\n", 0, deep.start()) + 1
        raise KeyedError((), f"line {line} nests tables too deeply", "No key lies in more than four tables.")


def _check_sizes(raw: dict[str, Any]) -> None:
    """Whole numbers of more than 64 bits, and tables of thousands of keys, say nothing about rope."""
    waiting: list[tuple[Parts, Any]] = [((), raw)]
    while waiting:
        path, value = waiting.pop()
        if isinstance(value, dict):
            if len(value) > MOST_KEYS:
                raise KeyedError(path, f"{len(value)} keys are too many for one table", "Leave out what isn't needed.")
            waiting += [((*path, key), item) for key, item in value.items()]
        elif isinstance(value, list):
            waiting += [((*path, index), item) for index, item in enumerate(value)]
        elif isinstance(value, int) and value.bit_length() > 63:
            raise KeyedError(path, "this number is too large for any key", "Write a smaller one.")


def _toml_remedy(text: str, line: int) -> str:
    """What most likely went wrong on the line."""
    lines = text.splitlines()
    written = lines[line - 1] if 0 < line <= len(lines) else ""
    if any(mark in written for mark in CURLY):
        return f'Use straight quotes, ", in place of {" and ".join(mark for mark in CURLY if mark in written)}'
    if re.match(r"\s*[\w.-]+\s*=\s*[+-]?\d+,\d+\s*(?:#.*)?$", written):
        return "Write a full stop in place of the decimal comma, such as 0.75"
    if re.match(r"""\s*[\w.-]+\s*=\s*(?:[+-]?\d[^"'#]*[^\s\d.#]|[A-Za-z][^"'#]*)""", written):
        return 'Put text and measures in quotes, such as diameter = "8 mm"'
    return "Each line is key = value, with text and measures in quotes, or a [table]"


def one_line(text: str) -> str:
    """Text that is safe to print on one line."""
    return "".join(letter if letter.isprintable() else repr(letter)[1:-1] for letter in text)


def _job(raw: dict[str, Any], text: str, source: str) -> Job:
    """The tables, checked. pydantic and the braid's law are imported here: `--help` needs neither."""
    from pydantic import ValidationError

    from fidpath.job.job_table import job_of
    from fidpath.job.own_tables import with_own_tables
    from fidpath.job.schema import JobTable

    _check_schema(raw)
    raw = with_own_tables(raw, source)
    try:
        return job_of(JobTable.model_validate(raw), source)
    except ValidationError as problem:
        errors = problem.errors(include_url=False)[:MOST_REFUSALS]
        refusals = [refusal_of(dict(error), raw) for error in errors]
        raise first_of(refusals, key_lines(text)) from None


def _check_schema(raw: dict[str, Any]) -> None:
    """A file of a later schema is not judged by this one's keys."""
    from fidpath.job.schema import SCHEMA

    version = raw.get("schema", SCHEMA)
    if isinstance(version, bool) or version != SCHEMA or not isinstance(version, int):
        what = f"{shown(version)} is not a known schema of job files"
        raise KeyedError(key_path("schema"), what, f"Write schema = {SCHEMA}, or use a newer fidpath.")


def first_of(refusals: list[KeyedError], lines: dict[Parts, int]) -> KeyedError:
    """The refusal to show: an unknown key before what is missing because of it, then in the order of the file."""

    def rank(refused: KeyedError) -> tuple[bool, bool, int]:
        line = nearest(lines, refused.path)
        return not refused.what.startswith("unknown"), line is None, line or 0

    return min(refusals, key=rank)


def refusal_of(error: dict[str, Any], raw: dict[str, Any]) -> KeyedError:
    """One of pydantic's findings in our words."""
    path, kind = _path(tuple(error["loc"])), str(error["type"])
    if kind == "extra_forbidden":
        return _unknown(path, raw)
    if kind == "missing":
        return _missing(path)
    if kind == "value_error":
        problem = error["ctx"]["error"]
        return KeyedError(path, problem.what, problem.remedy)
    if kind in ("literal_error", "union_tag_invalid", "union_tag_not_found"):
        return _choice(path, error)
    if kind in KINDS_WANTED:
        given = shown(error["input"])
        return KeyedError(path, f"{given} is not {KINDS_WANTED[kind]}", f"Write {KINDS_WANTED[kind]}.")
    if kind in LIST_SIZES:
        return KeyedError(path, *LIST_SIZES[kind])
    return KeyedError(path, one_line(str(error["msg"])).lower(), "See `fidpath new` for a valid job file.")


def _path(place: Parts) -> KeyPath:
    """A key's path in the file: pydantic puts the terminator's kind into it."""
    from fidpath.job.terminators.registry import kinds

    for at in range(1, len(place) - 1):
        if place[at - 1] == "terminator" and place[at] in kinds():
            return KeyPath((*place[:at], *place[at + 1 :]))
    return KeyPath(place)


def _unknown(path: KeyPath, raw: dict[str, Any]) -> KeyedError:
    """A key that no table has, with the nearest that there is, or the table it belongs to."""
    from fidpath.job.schema import keys_of, tables

    table = KeyPath(path[:-1]).in_schema
    kind = _value_at(raw, path[:-1]).get("kind") if path[-2:-1] == ("terminator",) else None
    known, name = keys_of(table, kind), str(path[-1])
    near = difflib.get_close_matches(name.lower(), known, n=1, cutoff=0.6)
    where = f"[{table}]" if table else "the top of a job file"
    thing = "table" if isinstance(_value_at(raw, path), dict) else "key"
    if near:
        return KeyedError(path, f"unknown {thing}", f'Did you mean "{near[0]}"?')
    homes = [home for home in tables() if home != table and name in keys_of(home)]
    if kind is not None and name in keys_of("terminator"):
        return KeyedError(path, f"unknown key for a {kind}", f"Leave it out; a {kind} has {', '.join(known)}.")
    if homes:
        home = f"[{homes[0]}]" if homes[0] else "the top of the file"
        return KeyedError(path, f"unknown {thing} here", f"It belongs in {home}.")
    return KeyedError(path, f"unknown {thing}", f"Leave it out; {where} has {', '.join(known)}.")


def _value_at(raw: Any, path: Parts) -> Any:
    """What the file holds at a path."""
    for part in path:
        raw = raw[part]
    return raw


def _missing(path: KeyPath) -> KeyedError:
    """A key or table that must be there."""
    from fidpath.job.schema import keys_of, needed_keys, tables

    name = str(path)
    if name in tables():
        keys = needed_keys(name) or keys_of(name)
        return KeyedError(path, f"the table [{name}] is missing", f"Add [{name}] with {', '.join(keys)}.")
    if name == "line.ends":
        return KeyedError(path, "the line has no end", "Add [[line.ends]] with a name.")
    return KeyedError(path, "this key is missing", f"Add {path[-1]} = {_example(path)}.")


def _example(path: KeyPath) -> str:
    """Something that a key may hold."""
    from fidpath.job.terminators.registry import keys_by_name

    name = str(path[-1])
    known = keys_by_name()
    if path[-2:-1] == ("terminator",) and name in known and not known[name][0].limits:
        return known[name][0].written
    if name in known and isinstance(known[name][0].example, int):
        return "..., as many as you count"
    examples = {
        "schema": "1",
        "name": '"mast stay"',
        "strands": "..., as many as you count",
        "weave": '"over-two" or "over-one"',
        "captive_end": '"what holds the other end"',
        "fids": '["... mm"], the diameters of the fids at hand',
    }
    return examples.get(name, '"... mm", measured')


def _choice(path: KeyPath, error: dict[str, Any]) -> KeyedError:
    """A word that is not one of those a key may hold."""
    from fidpath.job.keys import strange_word
    from fidpath.job.terminators.registry import kinds

    if error["type"] == "literal_error":
        choices = re.findall(r"'([^']*)'", str(error["ctx"]["expected"]))
        given = error["input"]
    else:
        path, choices = path / "kind", list(kinds())
        given = error["input"].get("kind") if isinstance(error["input"], dict) else None
    if given is None:
        return KeyedError(path, "this key is missing", f"Write one of {', '.join(choices)}.")
    return KeyedError(path, *strange_word(given, choices))
