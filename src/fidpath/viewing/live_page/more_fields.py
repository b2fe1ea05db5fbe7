"""Fields for the keys of a job that few change live: its names, data sheet, whole line, second end, sources, printer.

With those of `fields` they are every key that a job file may have.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from fidpath.job import FITTING, Job, key_path, keys_by_name, kinds, splice_words, splices
from fidpath.viewing.live_page.field import DIAMETERS, LENGTHS, Field, always, typed

FORCES = "N, kN, kgf or lbf"
SHARES = "share or %"
NAMES = "Names"
SHEET = "Rope maker's data sheet"
LINE = "Whole line"
SECOND = "Second end"
RULES = "More rules and their sources"
STITCHES = "Lock-stitches"
PRINTER = "Printer and cutter"

MORE = frozenset({SHEET, LINE, SECOND, RULES, STITCHES, PRINTER})
"""Groups that most jobs leave empty; a page shows them folded."""

NONE = ("", "not given")


def method_field() -> Field:
    """The method of the first end, by name and in words."""
    choices = tuple((kind, splice.title) for kind, splice in splices().items())
    return Field(key_path("line.ends[1].splice"), "How it is made", "Method", kind="choice", choices=choices)


def name_fields() -> Iterator[Field]:
    """What things are called on sheets, in folders and on the card."""
    rows = (
        ("name", "Job, and folder of its results", ""),
        ("rope.name", "Rope, as the loft's test splices name it", "rope"),
        ("terminator.name", "What sits in the eye", "as its kind"),
        ("line.name", "Line", "the job's name"),
        ("line.ends[1].name", "End to be spliced", "end"),
        ("line.captive_end", "What holds the captive end", "the second end, once made"),
    )
    for key, label, left_out in rows:
        yield Field(key_path(key), label, NAMES, default=always(left_out))
    first = "Parts to thread on first"
    yield Field(key_path("line.thread_on_first"), first, NAMES, "commas between", "list", default=always("none"))


def more_fields() -> Iterator[Field]:
    """All the rest."""
    yield from _sheet_fields()
    yield from _line_fields()
    yield from _second_end_fields()
    yield from _rule_fields()
    yield from _print_fields()


def _rows(table: str, group: str, rows: tuple[tuple[str, str, str, str], ...]) -> Iterator[Field]:
    """Fields of one table, each row being key, label, units and bounds; a share is a number."""
    for key, label, units, bounds in rows:
        kind = "share" if units == SHARES else "text"
        yield Field(key_path(f"{table}.{key}"), label, group, units, kind, bounds=bounds)  # type: ignore[arg-type]


def _sheet_fields() -> Iterator[Field]:
    rows = (
        ("diameter_min", "Smallest diameter", LENGTHS, ""),
        ("diameter_max", "Greatest diameter", LENGTHS, ""),
        ("strength", "Strength; no length depends on it", FORCES, "1 N to 100 MN"),
        ("stretch", "Elastic stretch", SHARES, "0 to 60 %"),
        ("stretch_tension", "Tension of that stretch", FORCES, "1 N to 100 MN"),
        ("bedding_in", "Bedding-in", SHARES, "0 to 60 %"),
        ("linear_density", "Mass per length", "g/m, ktex or lb/100 ft", "0.05 to 100000 g/m"),
        ("temperature_limit", "Greatest temperature", "degC or degF", "-60 to 300 degC"),
        ("loaded_diameter", "Diameter under load", DIAMETERS, ""),
        ("loaded_strain", "Strain under load", SHARES, "0 to 20 %"),
    )
    yield from _rows("rope", SHEET, rows)
    friction = "Friction of strand on strand"
    yield Field(key_path("rope.friction"), friction, SHEET, "one or two numbers", "numbers", bounds="0 to 0.5")


def _line_fields() -> Iterator[Field]:
    rows = (
        ("finished_length", "Finished length", LENGTHS, ""),
        ("tension", "Tension in use", FORCES, "0.1 N to 10 MN"),
        ("confidence", "Confidence of its interval", SHARES, "50 % to 99.9 %"),
    )
    yield from _rows("line", LINE, rows)
    words = (NONE, ("turnbuckle", "turnbuckle"), ("lashing", "lashing"))
    yield Field(key_path("line.adjuster.kind"), "Adjuster", LINE, kind="choice", choices=words)
    yield Field(key_path("line.adjuster.shorten"), "Adjuster shortens by", LINE, LENGTHS)
    yield Field(key_path("line.adjuster.lengthen"), "Adjuster lengthens by", LINE, LENGTHS)


def _second_end_fields() -> Iterator[Field]:
    end = key_path("line.ends[2]")
    made = (*((kind, splice.title) for kind, splice in splices().items()), (FITTING, splice_words(FITTING)))
    yield Field(end / "name", "Name", SECOND)
    yield Field(end / "splice", "How it is made", SECOND, kind="choice", choices=(NONE, *made))
    yield Field(end / "eye_length", "Eye, throat to crown", SECOND, DIAMETERS)
    yield Field(end / "fitting_length", "Fitting, bearing point to rope end", SECOND, LENGTHS)
    known = kinds()
    same = ("", "as at the first end")
    choices = (same, *((word, kind.label) for word, kind in known.items()))
    table = end / "terminator"
    yield Field(table / "kind", "Terminator", SECOND, kind="choice", choices=choices)
    yield Field(table / "name", "What sits in the eye", SECOND, of=tuple(known), kind_key=str(table / "kind"))
    for name, (key, words) in keys_by_name().items():
        bare = Field(table / name, key.label, SECOND, of=words, limits=key.limits, kind_key=str(table / "kind"))
        yield typed(bare, key, known[words[0]].table.model_fields[name], (NONE,))


def _rule_fields() -> Iterator[Field]:
    hands = (NONE, ("right", "right-handed"), ("left", "left-handed: all is mirrored"))
    yield Field(key_path("practice.hand"), "Working hand", RULES, kind="choice", choices=hands)
    rows = (
        ("reference_tension", "Tension for measuring", FORCES, "0.1 N to 10 MN"),
        ("set_load", "Load the splice is set under", FORCES, "1 N to 100 MN"),
        ("set_time", "How long it is set", "s, min or h", "1 s to 30 days"),
        ("bury_source", "Source of the bury", "", ""),
        ("taper_source", "Source of the taper", "", ""),
        ("hole_gap_source", "Source of the hole gap", "", ""),
        ("makers", "Makers' rules: file", "", ""),
        ("maker", "Makers' rules: name in it", "", ""),
    )
    yield from _rows("practice", RULES, rows)
    sizes = "no. 3 = 8 mm, commas between"
    yield Field(key_path("tools.fid_sizes"), "Your names for fids", RULES, sizes, "sizes")
    stitch = key_path("practice.lock_stitch")
    yield Field(stitch / "stitches", "Stitches", STITCHES, kind="number", bounds="1 to 200")
    yield Field(stitch / "spacing", "Spacing", STITCHES, DIAMETERS)
    yield Field(stitch / "twine", "Twine", STITCHES)
    yield Field(key_path("practice.lock_stitch_source"), "Source of the stitching", STITCHES)


def _print_fields() -> Iterator[Field]:
    rows = (
        ("nozzle", "Nozzle"),
        ("clearance", "Play of parts that fit together"),
        ("text_height", "Height of letters"),
        ("plate", "Thickness of flat gauges"),
        ("slot_shrink", "How much narrower a slot becomes"),
        ("kerf", "Kerf of the cutter"),
        ("fuse", "How far a model's strands overlap"),
    )
    for key, label in rows:
        yield Field(key_path(f"print.{key}"), label, PRINTER, LENGTHS, default=_printing(key))
    yield Field(key_path("print.bed"), "Bed: width, depth, height", PRINTER, "three lengths, commas between", "list")
    yield Field(key_path("print.scale"), "Scale of models", PRINTER, kind="share", bounds="2 to 5 times the rope")


def _printing(key: str) -> Callable[[Job], str]:
    return lambda job: f"{getattr(job.printing, f'{key}_mm'):g} mm"


def count_fields() -> Iterator[Field]:
    """A pitch by count."""
    label, bounds = "or count: crossings in a line", "4 to 1000; 20 or more"
    yield Field(key_path("rope.crossings"), label, "Rope", kind="number", bounds=bounds)
    yield Field(key_path("rope.over"), "and the length they take", "Rope", LENGTHS)
