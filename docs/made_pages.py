"""Pages of the documentation that are made from the program: what it says of itself can't go out of date."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from types import UnionType
from typing import Any, Union, get_args, get_origin

ROOT = Path(__file__).parent.parent

WORDS = {
    "read_length": 'a length with its unit: `"8 mm"`, `"3/8 in"`, `"72 d"`',
    "read_force": 'a force with its unit: `"95 kN"`',
    "read_angle": 'an angle: `"45 deg"`',
    "read_density": 'a mass to a length: `"52 g/m"`',
    "read_temperature": 'a temperature: `"60 degC"`',
    "read_share": 'a share: `0.75` or `"1.2 %"`',
    "_name": "a name, printable, on one line",
    "_job_name": "a name that a folder can have",
}
"""What a key may hold, by the function that reads it."""


def write(folder: Path) -> None:
    """Writes all of them, each only where it changed, so that Sphinx reads only those again."""
    folder.mkdir(exist_ok=True)
    for name, text in (("job-file", job_file()), ("practice", practice()), ("commands", commands())):
        target = folder / f"{name}.md"
        if not target.exists() or target.read_text(encoding="utf-8") != text:
            target.write_text(text, encoding="utf-8")


def job_file() -> str:
    """The reference of the job file, from its schema."""
    from fidpath import schema

    lines = [
        "# The job file",
        "",
        "Made from the schema that reads it. Lengths are text with a unit, or in rope diameters (`d`); a plain number has",
        "none and is refused. A key that isn't listed here is refused as well, with the nearest one that is.",
        "",
    ]
    for table, models in schema.TABLES.items():
        for model in models:
            lines += _table(table, model, schema)
    return "\n".join(lines) + "\n"


def _table(table: str, model: Any, schema: Any) -> Iterator[str]:
    kind = f', kind = "{model.__name__.removesuffix("Table").lower()}"' if len(schema.TABLES[table]) > 1 else ""
    double = table in ("line.ends",)
    name = (f"[[{table}]]" if double else f"[{table}]") if table else "At the top"
    yield f"## {name}{kind}"
    yield ""
    yield "| key | holds | needed | from, to |"
    yield "|---|---|---|---|"
    for key, info in model.model_fields.items():
        shown = info.alias or key
        least = schema.LIMITS_MM.get(f"{table}.{shown}")
        d_least = schema.LIMITS_D.get(f"{table}.{shown}")
        span = f"{least[0]:g} to {least[1]:g} mm" if least else f"{d_least[0]:g} to {d_least[1]:g} d" if d_least else ""
        yield f"| `{shown}` | {_holds(info.annotation, info.metadata)} | {'yes' if info.is_required() else ''} | {span} |"
    yield ""


def _holds(kind: Any, metadata: Any = ()) -> str:
    """What a key holds, in words."""
    for one in metadata:
        reader = getattr(getattr(one, "func", None), "__name__", "")
        if reader in WORDS:
            return WORDS[reader]
    if get_origin(kind) in (UnionType, Union):
        return " or ".join(dict.fromkeys(_holds(one) for one in get_args(kind) if one is not type(None)))
    if hasattr(kind, "__metadata__"):
        return _holds(kind.__origin__, kind.__metadata__)
    if hasattr(kind, "__value__"):
        return _holds(kind.__value__)
    if get_origin(kind) is list:
        return f"a list, each {_holds(get_args(kind)[0])}"
    choices = [f'`"{one}"`' if isinstance(one, str) else f"`{one}`" for one in get_args(kind)]
    if choices:
        return ", ".join(choices)
    plain = {int: "a whole number", float: "a number", bool: "`true` or `false`", str: "text"}
    return plain.get(kind, "a table")


def practice() -> str:
    """Every rule of practice with its value, where it comes from, and how far that goes."""
    from fidpath.practice_rules import STATUS_WORDS, rules

    lines = [
        "# Rules of practice, and where each comes from",
        "",
        "Where a job says nothing these hold. `[practice]` in a job file overrides them; the rope maker's own figures come",
        "before all of them.",
        "",
        "| rule | value | about | source | which is |",
        "|---|---|---|---|---|",
    ]
    for name, rule in rules().items():
        cells = (f"`{name}`", f"{rule.value:g} {rule.unit}", rule.what, rule.source, STATUS_WORDS[rule.status])
        lines.append("| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |")
    return "\n".join(lines) + "\n"


def commands() -> str:
    """Every command with its arguments and options, from the command line itself."""
    import typer

    from fidpath.cli import app

    found = typer.main.get_command(app)
    lines = ["# Commands", "", "Made from the command line. Exit codes: [](../exit-codes.md).", ""]
    for name, command in sorted(found.commands.items()):  # type: ignore[attr-defined]
        lines += [f"## fidpath {name}", "", _plain(command.help or ""), "", "| | |", "|---|---|"]
        for one in command.params:
            if one.name == "help":
                continue
            written = ", ".join(f"`{text}`" for text in one.opts) if one.opts[0].startswith("-") else f"`{one.metavar}`"
            lines.append(f"| {written} | {_plain(getattr(one, 'help', '') or '')} |")
        lines.append("")
    return "\n".join(lines) + "\n"


def _plain(text: str) -> str:
    """A help text on one line, safe in a table."""
    return re.sub(r"\s+", " ", text).replace("|", "\\|").replace("<", "\\<").strip()
