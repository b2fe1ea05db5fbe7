"""Pages of the documentation that are made from the program: what it says of itself can't go out of date."""

from __future__ import annotations

import re
from collections.abc import Iterator
from enum import Enum
from pathlib import Path
from types import UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

from fidpath.job import limits
from fidpath.job.keys import Key
from fidpath.job.splice_kinds import end_kinds

ROOT = Path(__file__).parent.parent

WORDS = {
    "read_length": 'a length with its unit: `"8 mm"`, `"3/8 in"`',
    "read_force": 'a force with its unit: `"95 kN"`',
    "read_angle": 'an angle: `"45 deg"`',
    "read_density": 'a mass per length: `"52 g/m"`',
    "read_temperature": 'a temperature: `"60 degC"`',
    "read_share": 'a share: `0.5` or `"50 %"`',
    "_name": "printable text on one line",
    "_job_name": "a name that a folder can have",
    "read_pitch": 'a length with its unit, or in rope diameters: `"7 d"`; or `"unknown"`',
    "read_lock_stitch": '`true`, `false` or a table: `{ stitches = 9, spacing = "1 d" }`',
    "read_splice": ", ".join(f'`"{kind}"`' for kind in end_kinds()),
}
"""What a key may hold, by the function that reads it."""

IN_DIAMETERS = 'a length with its unit, or in rope diameters: `"7 d"`'
"""What a key may hold whose length can be written so."""

KEYS = {
    "bury": ("practice.bury",),
    "hole_gap": ("practice.hole_gap",),
    "taper_share": ("practice.taper_share",),
    "tail_end_strands": ("practice.taper_drops",),
    "throat_angle": ("practice.throat_angle",),
    "post_stretch_share": ("practice.post_stretch",),
    "neck": ("practice.neck",),
    "reference_tension": ("practice.reference_tension",),
    "squeeze": ("rope.squeeze",),
    "lock_stitch_spacing": ("practice.lock_stitch.spacing",),
    "diameter_tolerance": ("rope.diameter_min", "rope.diameter_max"),
}
"""Keys of the job file that stand in a rule's place."""

SPANS = {
    "rope.strands": "4 to 48",
    "rope.squeeze": "0.5 to 1",
    "rope.crossings": "4 to 1000",
    "practice.lock_stitch.stitches": "1 to 200",
    "rope.strength": "1 N to 100 MN",
    "rope.stretch": "0 to 60 %",
    "rope.stretch_tension": "1 N to 100 MN",
    "rope.bedding_in": "0 to 60 %",
    "rope.loaded_strain": "0 to 20 %",
    "rope.friction": "0 to 0.5",
    "rope.linear_density": "0.05 to 100000 g/m",
    "rope.temperature_limit": "-60 to 300 degC",
    "line.tension": "0.1 N to 10 MN",
    "line.confidence": "50 % to 99.9 %",
    "practice.taper_share": "0, or 0.02 to 1",
    "practice.set_load": "1 N to 100 MN",
    "practice.set_time": "1 s to 30 days",
    "practice.throat_angle": "5 to 119 deg",
    "practice.post_stretch": "0 to 30 %",
    "practice.reference_tension": "0.1 N to 10 MN",
    "print.scale": "2 to 5",
}
"""Least and greatest of what is no length."""

LEFT_OUT = {
    "practice": "[these rules](practice.md)",
    "print": "as below",
    "rope.pitch": "from `crossings` and `over`",
    "rope.crossings": "required with `over`",
    "rope.over": "required with `crossings`",
    "rope.strength": "not shown",
    "rope.stretch": "not counted in a line; the sheet says so",
    "rope.stretch_tension": "`fidpath line` requires it with `stretch`",
    "rope.bedding_in": "not counted in a line; the sheet says so",
    "rope.loaded_diameter": "`verify --loaded` gives a range",
    "rope.loaded_strain": "lengthening by the shape of the braid, and 0.25 % by the fibres",
    "rope.friction": "`[0.05, 0.16]`",
    "tools.fid_sizes": "fids are written by their diameters",
    "practice.set_load": "the card says: the rope maker's load",
    "practice.set_time": "not shown",
    "practice.maker": "required with `makers`",
    "practice.makers": "required with `maker`",
    "rope.linear_density": "not shown",
    "rope.temperature_limit": "not shown",
    "line.name": "the job's name",
    "line.captive_end": "required with one end; with two ends, the second end",
    "line.finished_length": "required by `fidpath line`",
    "line.tension": "`practice.reference_tension`",
    "line.adjuster": "none",
    "line.ends.eye_length": "from `practice.throat_angle`",
    "line.ends.terminator": "as at the first end",
    "line.ends.fitting_length": 'required with `splice = "fitting"`',
    "tools.tape_division": "1 mm; 1/16 in if the rope is in inches",
    "practice.bury_source": "the job file, or the rule's own",
    "practice.taper_source": "the job file, or the rule's own",
    "practice.hole_gap_source": "the job file, or the rule's own",
    "practice.lock_stitch_source": "the rule's own",
    "practice.lock_stitch.twine": "whipping twine",
    "practice.taper_drops": "down to the rule `tail_end_strands`",
    "print.slot_shrink": "none",
}
"""What holds where a key is left out, and neither the schema nor a rule says it."""

ABOUT = {
    "rope": "the table `[rope]`",
    "terminator": "the table `[terminator]`",
    "line": "the table `[line]`",
    "tools": "the table `[tools]`",
    "practice": "the table `[practice]`",
    "print": "the table `[print]`",
    "*.name": "name on the sheets",
    "*.kind": "kind of terminator",
    "rope.name": "name of the rope; it connects the job with the loft's test splices",
    "rope.diameter": "nominal diameter of the rope",
    "rope.diameter_min": "smallest diameter, if the data sheet gives it",
    "rope.diameter_max": "greatest diameter, if the data sheet gives it",
    "rope.strands": "number of strands, a multiple of 4. There are scenes for 8, 12 and 16. More strands need a longer pitch "
    "than usual; `fidpath verify` says whether they have room",
    "rope.pitch": 'length of rope in which one strand makes one full turn, or `"unknown"` for a guess. Give `crossings` '
    "and `over` instead if you have counted",
    "rope.crossings": "crossings counted along one line on top of the rope, under the reference tension",
    "rope.over": "length of rope that these crossings take",
    "rope.weave": "how many strands each strand passes over before it goes under",
    "rope.strength": "from the rope maker's data sheet; no length depends on it",
    "rope.stretch": "from the rope maker's data sheet, at `stretch_tension`",
    "rope.stretch_tension": "tension at which that stretch was measured",
    "rope.bedding_in": "permanent lengthening after the first loads",
    "rope.loaded_diameter": "diameter of plain rope under the load you are interested in, for `fidpath verify --loaded`",
    "rope.loaded_strain": "lengthening of plain rope under that load, from no load",
    "rope.friction": "friction of strand on strand, one figure or the least and the greatest",
    "rope.linear_density": "from the rope maker's data sheet",
    "rope.temperature_limit": "from the rope maker's data sheet",
    "line.finished_length": "length between the bearing points, for `fidpath line`",
    "line.tension": "tension at which the line has this length",
    "line.confidence": "confidence of the interval given for the finished length",
    "line.adjuster": "the table `[line.adjuster]`",
    "line.ends": "one or two tables `[[line.ends]]`",
    "line.adjuster.kind": "what corrects an error of length",
    "line.adjuster.shorten": "how far it can shorten the line from the finished length",
    "line.adjuster.lengthen": "how far it can lengthen the line from the finished length",
    "line.ends.splice": "how the end is made. The first end's splice decides plan, steps and pictures; `fitting` is for "
    "the second end of a whole line",
    "line.ends.terminator": "what sits in this eye",
    "line.ends.fitting_length": "length of a made-up fitting, from its bearing point to the end of the rope in it",
    "practice.taper_drops": "number of pairs of strands that are cut out, one pair after another",
    "practice.throat_angle": "angle between the legs, if no length of the eye is given",
    "practice.bury": "length of tail buried in the standing part; the rope maker's figure comes first",
    "practice.lock_stitch": "whether the bury is stitched, or the table `[practice.lock_stitch]`",
    "practice.lock_stitch.stitches": "number of stitches",
    "practice.lock_stitch.spacing": "distance from one stitch to the next",
    "practice.lock_stitch.twine": "twine for the stitches",
    "practice.bury_source": "source of the bury, such as the rope maker; the general rule then gives no warning",
    "practice.taper_source": "source of the taper",
    "practice.hole_gap_source": "source of the hole gap",
    "practice.lock_stitch_source": "source of the stitch pattern",
    "practice.hand": "hand that works the splice; `left` mirrors words and pictures",
    "tools.tape_division": 'finest division of the tape: `"1 mm"`, `"1/16 in"`',
    "print.nozzle": "diameter of the printer's nozzle",
    "print.bed": "width, depth and height that the printer can print",
    "print.clearance": "total play between parts that fit together",
    "print.slot_shrink": "how much narrower than drawn the printer makes a slot; print the coupon and measure it",
    "print.text_height": "height of the letters on gauges",
    "print.kerf": "width of material that a laser or mill removes, for gauges that are cut",
    "print.scale": "scale of models, as a multiple of the rope",
    "print.fuse": "how far the strands of a model overlap, so that they form one body",
}
"""What the notes of `fidpath new` leave to be said."""


def write(folder: Path) -> None:
    """Writes all of them, each only where it changed, so that Sphinx reads only those again."""
    folder.mkdir(exist_ok=True)
    pages = (
        ("job-file", job_file()),
        ("practice", practice()),
        ("formulas", formulas()),
        ("commands", commands()),
        ("outputs", outputs()),
    )
    for name, text in pages:
        target = folder / f"{name}.md"
        if not target.exists() or target.read_text(encoding="utf-8") != text:
            target.write_text(text, encoding="utf-8")


def job_file() -> str:
    """The reference of the job file, from its schema."""
    from fidpath.job import schema

    lines = [
        "# The job file",
        "",
        "This page is made from the schema that reads the file. Lengths are text with a unit, or in rope diameters (`d`). A",
        "number without a unit is refused. So is a key that isn't listed here; the error names the nearest one that is.",
        "For sets, practice files and measurements see [](../files.md).",
        "",
    ]
    said = notes()
    for table, models in schema.tables().items():
        if table == "terminator":
            lines += _terminators()
        for model in models:
            lines += _table(table, model, schema, said)
    return "\n".join(lines) + "\n"


def _terminators() -> Iterator[str]:
    """The kinds of terminators, a row for each."""
    from fidpath.job.terminators.registry import kinds

    yield "## Kinds of terminators"
    yield ""
    yield "The values of `kind` in `[terminator]`, and in the `terminator` of a line's second end."
    yield ""
    yield "| kind | meaning |"
    yield "|---|---|"
    for word, kind in kinds().items():
        yield f"| `{word}` | {kind.note} |"
    yield ""


def notes() -> dict[str, str]:
    """What `fidpath new` writes beside each key: "table.key" -> its note. `[[line.ends]]` is "line.ends"."""
    from fidpath.job.template import TEXT

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
    kind = f', kind = "{get_args(model.model_fields["kind"].annotation)[0]}"' if len(schema.tables()[table]) > 1 else ""
    double = table in ("line.ends",)
    name = (f"[[{table}]]" if double else f"[{table}]") if table else "At the top"
    yield f"## {name}{kind}"
    yield ""
    yield "| key | meaning | value | required | default | range |"
    yield "|---|---|---|---|---|---|"
    for key, info in model.model_fields.items():
        shown = info.alias or key
        place = f"{table}.{shown}".lstrip(".")
        needed = "yes" if info.is_required() else ""
        holds = _holds(info.annotation, info.metadata)
        if (place in limits.LIMITS_D and place != "rope.pitch") or place == "line.ends.eye_length":
            holds = IN_DIAMETERS
        own = next((one for one in info.metadata if isinstance(one, Key)), None)
        if own is None:
            about, without, span = said.get(place) or said[f"*.{shown}"], _left_out(place, info), _span(place)
        else:
            about, without, span = own.note, own.left_out or _default(info), _limits(own, info)
        yield f"| `{shown}` | {_plain(about)} | {holds} | {needed} | {without} | {span} |"
    yield ""


def _default(info: Any) -> str:
    """What a key holds where it is left out."""
    return "" if info.is_required() else _written(info.default)


def _limits(key: Key, info: Any) -> str:
    """From where to where a terminator's key may lie."""
    if key.limits is None:
        return ""
    return "{:g} to {:g}".format(*key.limits) if info.annotation is int else _lengths(*key.limits)


def _span(place: str) -> str:
    """From where to where a key's figure may lie; long lengths in metres."""
    if place in limits.LIMITS_D:
        low, high = limits.LIMITS_D[place]
        return f"{low:g} to {high:g} d"
    if place not in limits.LIMITS_MM:
        return SPANS.get(place, "")
    return _lengths(*limits.LIMITS_MM[place])


def _lengths(low: float, high: float) -> str:
    """Two limits of a length."""
    return f"{low:g} to {high:g} mm" if high < 1e4 else f"{low:g} mm to {high / 1000:g} m"


def _left_out(place: str, info: Any) -> str:
    """What holds where a key that isn't needed is left out."""
    from fidpath.job.job import Line, Printing
    from fidpath.job.rules import rules

    if info.is_required() or place in LEFT_OUT:
        return LEFT_OUT.get(place, "")
    if info.default is not None and not hasattr(info.default, "model_fields"):
        return _written(info.default)
    if place == "line.confidence":
        return f"{100 * Line.confidence:g} %"
    table, _, key = place.partition(".")
    if table == "print":
        value = getattr(Printing, f"{key}_mm", None)
        return f"{Printing.scale:g}" if value is None else _written(value, " mm")
    rule = next(rule for name, rule in rules().items() if place in KEYS.get(name, ()))
    besides = {"reference_tension": ", times the diameter squared", "diameter_tolerance": ", from the nominal one"}
    return f"{rule.value:.4g} {rule.unit}{besides.get(rule.name, '')}"


def _written(value: Any, unit: str = "") -> str:
    """A default as the file would have it."""
    if isinstance(value, tuple):
        return ", ".join(f"{one:g}" for one in value) + unit
    if isinstance(value, bool):
        return f"`{str(value).lower()}`"
    if isinstance(value, str):
        return f'`"{value}"`'
    return f"{value:g}{unit}" if isinstance(value, float) else "none" if value == [] else f"`{value}`"


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
    from fidpath.job.rules import STATUS_WORDS, rules

    lines = [
        "# Rules of practice and their sources",
        "",
        "These rules apply unless the job says otherwise. If a rule has a key, that key of the job file replaces it; the",
        "other rules can't be changed. The rope maker's own figures come before all of them.",
        "",
        "| rule | value | key | meaning | source | status |",
        "|---|---|---|---|---|---|",
    ]
    for name, rule in rules().items():
        keys = ", ".join(f"`{key}`" for key in KEYS.get(name, ())) or "-"
        cells = (f"`{name}`", f"{rule.value:.4g} {rule.unit}", keys, rule.what, rule.source, STATUS_WORDS[rule.status])
        lines.append("| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |")
    return "\n".join(lines) + "\n"


def formulas() -> str:
    """Every figure of the plan: its formula, its source, what it is measured from; the values are the demo job's."""
    from plain_formula import typeset

    from fidpath.job.reader import read_job
    from fidpath.planning.figure import figures
    from fidpath.planning.length_figures import lengths
    from fidpath.planning.mark_figures import marks
    from fidpath.planning.meanings import MEANINGS
    from fidpath.planning.planner import make_plan
    from fidpath.planning.sheet import shown

    plan = make_plan(read_job(ROOT / "scenes" / "demo.toml"))
    lines = [
        "# Every figure, its formula and its source",
        "",
        "The figures of the bench sheet, with the values of `scenes/demo.toml`. $d$ is the rope's diameter, $D$ the",
        "bearing diameter, $P$ the pitch, $N$ the number of strands and $\\alpha$ the braid angle. [](../model.md) explains",
        "how they are connected.",
        "",
    ]
    tables = (("Marks", marks(plan)), ("Lengths", lengths(plan)), ("Angles, counts and ratios", figures(plan)))
    for title, entries in tables:
        lines += [f"## {title}", "", "| figure | value | formula | source | measured from |", "|---|---|---|---|---|"]
        for one in entries:
            cells = (one.label, shown(one, plan), typeset(one.formula), one.source, one.measured_from)
            lines.append("| " + " | ".join(cell.replace("|", "\\|").replace("*", "\\*") for cell in cells) + " |")
        lines.append("")
    lines += ["## Words of the marking", "", *(f"- **{word}**: {means}" for word, means in MEANINGS.items())]
    return "\n".join(lines) + "\n"


def commands() -> str:
    """Every command with its arguments and options, from the command line itself."""
    import typer

    from fidpath.cli.main import app

    found = typer.main.get_command(app)
    written = {one.name or one.callback.__name__: one.callback for one in app.registered_commands if one.callback}
    lines = ["# Commands", "", "This page is made from the command line's own help. See also [](../exit-codes.md).", ""]
    for name, command in sorted(found.commands.items()):  # type: ignore[attr-defined]
        kinds = get_type_hints(written[name], include_extras=True)
        lines += [f"## fidpath {name}", "", _plain(command.help or ""), ""]
        lines += ["| option | meaning | value | default |", "|---|---|---|---|"]
        lines += [_option(one, kinds[one.name]) for one in command.params if one.name != "help"]
        lines.append("")
    return "\n".join(lines) + "\n"


ASKED = {
    "always": "always",
    "steps": "unless `--no-steps`",
    "models": "`--models`",
    "motion": "`--motion`, `--film`",
    "film": "`--film`",
}
"""When an output is made, by what it has to be asked for with."""


def outputs() -> str:
    """Every file that a build writes, from the registered outputs."""
    from fidpath.outputs.registered import all_outputs

    lines = ["# What a build writes", "", "This page is made from the registered outputs.", ""]
    lines += ["| files | what they are | made |", "|---|---|---|"]
    for output in all_outputs():
        if output.files:
            names = ", ".join(f"`{pattern}`" for pattern in output.patterns)
            lines.append(f"| {names} | {output.title} | {ASKED[output.option]} |")
    return "\n".join(lines) + "\n"


def _option(one: Any, kind: Any) -> str:
    """One row: an argument or option, what it is for, what it takes, and what holds without it."""
    flag = getattr(one, "is_flag", False)
    opts = [*one.opts, *one.secondary_opts] if one.opts[0].startswith("-") else []
    place = (one.metavar or one.name.upper()).strip("[]")
    name = " / ".join(f"`{text}`" for text in opts) or (f"`{place}`" if one.required else f"`[{place}]`")
    default = one.default if isinstance(one.default, int | float | str) else None
    if one.required:
        without = "required"
    elif flag:
        without = f"`{one.opts[0]}`" if default and one.secondary_opts else "no"
    else:
        without = "" if default is None else f"`{default.value if isinstance(default, Enum) else default}`"
    return f"| {name} | {_plain(one.help or '')} | {'' if flag else _plain(_takes(one, kind))} | {without} |"


def _takes(one: Any, kind: Any) -> str:
    """What an option takes: one of some words, a number within limits, or what its help calls it."""
    base, *notes = get_args(kind) if hasattr(kind, "__metadata__") else (kind,)
    plain = [each for each in get_args(base) or (base,) if each is not type(None)]
    info = next(iter(notes), None)
    if isinstance(plain[0], type) and issubclass(plain[0], Enum):
        return ", ".join(f"`{each.value}`" for each in plain[0])
    low, high = getattr(info, "min", None), getattr(info, "max", None)
    if low is not None:
        return f"{low:g} or more" if high is None else f"{low:g} to {high:g}"
    words = {Path: "a file", int: "a whole number", float: "a number"}
    called = f"`{one.metavar.strip('[]')}`" if one.metavar and one.opts[0].startswith("-") else ""
    return called or words.get(plain[0], "text")


def _plain(text: str) -> str:
    """A help text on one line, safe in a table."""
    return re.sub(r"\s+", " ", text).replace("|", "\\|").replace("<", "\\<").strip()
