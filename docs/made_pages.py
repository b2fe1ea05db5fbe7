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

ABOUT = {
    "schema": "the version of this file's form",
    "rope": "the table `[rope]`",
    "terminator": "the table `[terminator]`",
    "line": "the table `[line]`",
    "tools": "the table `[tools]`",
    "practice": "the table `[practice]`",
    "print": "the table `[print]`",
    "*.name": "what it is called on the sheets",
    "*.kind": "which of the kinds it is",
    "*.width": "from side to side, across the rope",
    "*.hole": "the bore through the middle",
    "rope.name": "what ties a job to the loft's test splices",
    "rope.diameter": "nominal, of the rope in hand",
    "rope.diameter_max": "its limits, if the data sheet gives them",
    "rope.strands": "8, 12 or 16",
    "rope.weave": "how many strands each passes over before it goes under",
    "rope.strength": "from the rope maker's data sheet; no length comes of it",
    "rope.stretch": "from the rope maker's data sheet, at `stretch_tension`",
    "rope.stretch_tension": "the tension of that stretch",
    "rope.bedding_in": "lasting lengthening after the first loads",
    "rope.linear_density": "from the rope maker's data sheet",
    "rope.temperature_limit": "from the rope maker's data sheet",
    "line.finished_length": "between the bearing points, for `fidpath line`",
    "line.tension": "at which the line measures so",
    "line.confidence": "of the interval in which the finished length lies",
    "line.adjuster": "the table `[line.adjuster]`",
    "line.ends": "one or two tables `[[line.ends]]`",
    "line.adjuster.kind": "what makes an error of length good",
    "line.adjuster.shorten": "how far it shortens from the finished length",
    "line.adjuster.lengthen": "how far it lengthens from the finished length",
    "line.ends.splice": "how the end is made",
    "line.ends.terminator": "what sits in this eye; left out, as at the first end",
    "line.ends.fitting_length": "of a made-up fitting, from its bearing to the plain rope",
    "terminator.kind": "which of the kinds it is",
    "terminator.nose_radius": "of the teardrop's narrow end",
    "terminator.lashing_holes": "how many the deadeye has",
    "terminator.lashing_hole": "their diameter",
    "practice.taper_drops": "pairs of strands cut out, one after the other",
    "practice.throat_angle": "between the legs, where no length of eye is given",
    "practice.bury": "tail buried in the standing part; the rope maker's figure comes first",
    "practice.lock_stitch": "whether the bury is stitched",
    "tools.tape_division": 'the finest division of the tape: `"1 mm"`, `"1/16 in"`',
    "print.nozzle": "the printer's",
    "print.text_height": "of the letters on gauges",
}
"""What the notes of `fidpath new` leave to be said."""


def write(folder: Path) -> None:
    """Writes all of them, each only where it changed, so that Sphinx reads only those again."""
    folder.mkdir(exist_ok=True)
    pages = (("job-file", job_file()), ("practice", practice()), ("formulas", formulas()), ("commands", commands()))
    for name, text in pages:
        target = folder / f"{name}.md"
        if not target.exists() or target.read_text(encoding="utf-8") != text:
            target.write_text(text, encoding="utf-8")


def job_file() -> str:
    """The reference of the job file, from its schema."""
    from fidpath import schema

    lines = [
        "# The job file",
        "",
        "Made from the schema that reads it. Lengths are text with a unit, or in rope diameters (`d`); a plain number",
        "has none and is refused. A key that isn't listed here is refused as well, with the nearest one that is.",
        "",
    ]
    said = notes()
    for table, models in schema.TABLES.items():
        for model in models:
            lines += _table(table, model, schema, said)
    return "\n".join(lines) + "\n"


def notes() -> dict[str, str]:
    """What `fidpath new` writes beside each key: "table.key" -> its note. `[[line.ends]]` is "line.ends"."""
    from fidpath.template import TEXT

    found, table = dict[str, str](), ""
    for line in TEXT.splitlines():
        heading = re.match(r"\[+([a-z.]+)\]+", line)
        key = re.match(r"(?:# )?([a-z_]+) = [^#]*#\s*(.+)", line)
        if heading:
            table = heading[1]
        elif key:
            found[f"{table}.{key[1]}" if table else key[1]] = key[2]
    return found | ABOUT


def _table(table: str, model: Any, schema: Any, said: dict[str, str]) -> Iterator[str]:
    kind = f', kind = "{model.__name__.removesuffix("Table").lower()}"' if len(schema.TABLES[table]) > 1 else ""
    double = table in ("line.ends",)
    name = (f"[[{table}]]" if double else f"[{table}]") if table else "At the top"
    yield f"## {name}{kind}"
    yield ""
    yield "| key | is | holds | needed | from, to |"
    yield "|---|---|---|---|---|"
    for key, info in model.model_fields.items():
        shown = info.alias or key
        place = f"{table.removeprefix('line.ends.') if table.endswith('.terminator') else table}.{shown}".lstrip(".")
        least, d_least = schema.LIMITS_MM.get(place), schema.LIMITS_D.get(place)
        span = f"{least[0]:g} to {least[1]:g} mm" if least else f"{d_least[0]:g} to {d_least[1]:g} d" if d_least else ""
        about = _plain(said.get(place) or said[f"*.{shown}"])
        needed = "yes" if info.is_required() else ""
        yield f"| `{shown}` | {about} | {_holds(info.annotation, info.metadata)} | {needed} | {span} |"
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
        "Where a job says nothing these hold. `[practice]` in a job file overrides them; the rope maker's own figures",
        "come before all of them.",
        "",
        "| rule | value | about | source | which is |",
        "|---|---|---|---|---|",
    ]
    for name, rule in rules().items():
        cells = (f"`{name}`", f"{rule.value:g} {rule.unit}", rule.what, rule.source, STATUS_WORDS[rule.status])
        lines.append("| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |")
    return "\n".join(lines) + "\n"


def formulas() -> str:
    """Every figure of the plan: its formula, its source, what it is measured from; the values are the demo job's."""
    from fidpath.figures import figures
    from fidpath.lengths import lengths
    from fidpath.marks import marks
    from fidpath.planning import make_plan
    from fidpath.reading import read_job
    from fidpath.sheet import shown

    plan = make_plan(read_job(ROOT / "scenes" / "demo.toml"))
    lines = [
        "# Every figure, its formula and its source",
        "",
        "As the bench sheet prints them; values of `scenes/demo.toml`. d is the rope's diameter, D the bearing's, P",
        "the pitch, N the strands, a the braid's angle. How they hang together: [](../model.md).",
        "",
    ]
    for title, entries in (("Marks", marks(plan)), ("Lengths", lengths(plan)), ("Angles and ratios", figures(plan))):
        lines += [f"## {title}", "", "| figure | here | formula | source | measured from |", "|---|---|---|---|---|"]
        for one in entries:
            cells = (one.label, shown(one, plan), one.formula, one.source, one.measured_from)
            lines.append("| " + " | ".join(cell.replace("|", "\\|").replace("*", "\\*") for cell in cells) + " |")
        lines.append("")
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
