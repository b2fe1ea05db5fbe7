"""A job file's tables -> Job: every length in mm, defaults filled in, figures that can't be refused."""

from __future__ import annotations

import math

from pydantic import BaseModel

from fidpath.braid import closes
from fidpath.job import End, Job, Line, Practice, Rope, Terminator, Tools
from fidpath.locate import KeyedError, Path
from fidpath.practice_rules import reference_tension_n, rule, taper_drops
from fidpath.schema import (
    LIMITS_D,
    LIMITS_MM,
    DeadeyeTable,
    JobTable,
    LineTable,
    PracticeTable,
    RopeTable,
    TeardropTable,
    TerminatorTable,
    ToolsTable,
)
from fidpath.units import INCH_MM, Measure, default_division, is_imperial, radians, show_length

MOST_STRANDS = 48
MOST_LASHING_HOLES = 12


def job_of(table: JobTable, source: str) -> Job:
    """The job a file's tables ask for. Raises KeyedError where a figure can't be."""
    rope = _rope(table.rope)
    d = rope.diameter_mm
    unit, division = _tape(table)
    return Job(
        name=table.name,
        rope=rope,
        terminator=_terminator(table.terminator, d),
        line=_line(table.line, d, table.name),
        tools=Tools(_fids(table.tools, d, unit), division),
        practice=_practice(table.practice, rope),
        length_unit=unit,
        source=source,
        units=_units_written(table),
    )


def _length(key: str, path: Path, measure: Measure) -> float:
    """A length in mm that may not be written in rope diameters, within the key's limits."""
    if measure.unit == "d":
        raise KeyedError(path, f"{measure.value:g} d: this length can't be in rope diameters", 'Write it as "50 mm".')
    low, high = LIMITS_MM[key]
    _positive(path, measure)
    if not low <= measure.value <= high:
        size = "small" if measure.value < low else "large"
        raise KeyedError(path, f"{measure.value:g} mm is too {size}", f"It can be {low:g} mm to {high:g} mm.")
    return measure.value


def _in_diameters(key: str, path: Path, measure: Measure, diameter_mm: float) -> float:
    """A length in rope diameters, within the key's limits."""
    low, high = LIMITS_D[key]
    _positive(path, measure)
    value = measure.diameters(diameter_mm)
    if not low <= value <= high:
        size = "small" if value < low else "large"
        raise KeyedError(path, f"{value:.4g} rope diameters is too {size}", f"It can be {low:g} d to {high:g} d.")
    return value


def _positive(path: Path, measure: Measure) -> None:
    """Refuse a length of nothing or less."""
    if measure.value <= 0:
        raise KeyedError(path, "a length must be greater than nothing", "Write a positive length.")


def _within(path: Path, value: float, limits: tuple[float, float], shown: str, bounds: str) -> float:
    """The value, if it lies within its limits."""
    if not limits[0] <= value <= limits[1]:
        raise KeyedError(path, f"{shown} can't be", f"It can be {bounds}.")
    return value


def _rope(table: RopeTable) -> Rope:
    """The rope, its limits by the usual tolerance where they aren't given."""
    d = _length("rope.diameter", ("rope", "diameter"), table.diameter)
    slack = rule("diameter_tolerance").value * d
    least = _optional("rope.diameter_min", ("rope", "diameter_min"), table.diameter_min)
    most = _optional("rope.diameter_max", ("rope", "diameter_max"), table.diameter_max)
    _check_limits(d, least, most)
    _check_weave(table)
    squeeze = table.squeeze.value if table.squeeze else rule("squeeze").value
    return Rope(
        name=table.name,
        diameter_mm=d,
        diameter_min_mm=d - slack if least is None else least,
        diameter_max_mm=d + slack if most is None else most,
        strands=table.strands,
        weave=table.weave,
        pitch_mm=_in_diameters("rope.pitch", ("rope", "pitch"), table.pitch, d) * d,
        squeeze=_within(("rope", "squeeze"), squeeze, (0.5, 1.0), f"a squeeze of {squeeze:g}", "0.5 to 1"),
        strength_n=_value(("rope", "strength"), table.strength, (1.0, 1e8), "1 N to 100 MN"),
        stretch_share=_value(("rope", "stretch"), table.stretch, (0.0, 0.6), "0 to 60 %"),
        linear_density_ktex=_value(("rope", "linear_density"), table.linear_density, (0.05, 1e5), "0.05 to 100000 g/m"),
        temperature_limit_c=_value(
            ("rope", "temperature_limit"), table.temperature_limit, (-60.0, 300.0), "-60 to 300 degC"
        ),
    )


def _optional(key: str, path: Path, measure: Measure | None) -> float | None:
    """A length in mm, or None where it isn't given."""
    return None if measure is None else _length(key, path, measure)


def _value(path: Path, measure: Measure | None, limits: tuple[float, float], bounds: str) -> float | None:
    """A force, share, density or temperature within its limits, or None where it isn't given."""
    if measure is None:
        return None
    return _within(path, measure.value, limits, f"{measure.value:g}", bounds)


def _check_limits(diameter_mm: float, least: float | None, most: float | None) -> None:
    """The rope's limits lie either side of its nominal diameter."""
    if least is not None and least > diameter_mm:
        raise KeyedError(
            ("rope", "diameter_min"), "the least diameter is greater than the nominal", "Exchange the two."
        )
    if most is not None and most < diameter_mm:
        raise KeyedError(
            ("rope", "diameter_max"), "the greatest diameter is less than the nominal", "Exchange the two."
        )


def _check_weave(table: RopeTable) -> None:
    """The braid has a sensible number of strands and comes back to itself once round the rope."""
    strands = ("rope", "strands")
    if table.strands % 2 or not 4 <= table.strands <= MOST_STRANDS:
        what = f"{table.strands} strands make no hollow braid"
        raise KeyedError(strands, what, f"Give an even number from 4 to {MOST_STRANDS}, half turning each way.")
    if not closes(table.strands, table.weave):
        raise KeyedError(
            strands,
            f"a braid of {table.strands} strands can't close {table.weave}: it needs a multiple of 4",
            f'Count the strands again, or write weave = "over-one" if the rope is so; {_nearest_fours(table.strands)}.',
        )


def _nearest_fours(strands: int) -> str:
    """The numbers of strands next to this one that close over-two."""
    low = strands // 4 * 4
    return f"{low} and {low + 4} close" if low >= 4 else f"{low + 4} closes"


def _terminator(table: TerminatorTable, d: float) -> Terminator:
    """What sits in the eye, checked as far as the file alone can tell."""
    bearing = _terminator_length(table, "bearing_diameter") or 0.0
    width = _terminator_length(table, "width") or 0.0
    made = Terminator(
        kind=table.kind,
        name=table.name,
        bearing_diameter_mm=bearing,
        width_mm=width,
        groove_radius_mm=_terminator_length(table, "groove_radius"),
        hole_mm=_terminator_length(table, "hole"),
        length_mm=_terminator_length(table, "length"),
        nose_radius_mm=_terminator_length(table, "nose_radius"),
        lashing_holes=table.lashing_holes if isinstance(table, DeadeyeTable) else 0,
        lashing_hole_mm=_terminator_length(table, "lashing_hole"),
    )
    _check_groove(made, d)
    if isinstance(table, TeardropTable):
        _check_teardrop(made)
    if isinstance(table, DeadeyeTable):
        _check_lashing(made)
    return made


def _terminator_length(table: TerminatorTable, name: str) -> float | None:
    """One length of the terminator in mm, or None where its kind has none or the file gives none."""
    measure: Measure | None = getattr(table, name, None)
    return _optional(f"terminator.{name}", ("terminator", name), measure)


def _check_groove(made: Terminator, d: float) -> None:
    """The rope lies in the groove, and the hole leaves a bearing."""
    if made.width_mm < d:
        what = f"the {made.kind} is {made.width_mm:g} mm wide, narrower than the {d:g} mm rope"
        raise KeyedError(("terminator", "width"), what, "Choose one at least as wide as the rope.")
    if made.groove_radius_mm is not None and 2 * made.groove_radius_mm < d * (1 - 1e-9):
        raise KeyedError(
            ("terminator", "groove_radius"),
            f"the groove is {2 * made.groove_radius_mm:g} mm across, narrower than the {d:g} mm rope",
            f"The {made.kind} can't sit in this eye: its groove radius must be at least {d / 2:g} mm.",
        )
    if made.hole_mm is not None and made.hole_mm >= made.bearing_diameter_mm:
        what = f"a hole of {made.hole_mm:g} mm leaves nothing of a bearing of {made.bearing_diameter_mm:g} mm"
        raise KeyedError(("terminator", "hole"), what, "Make the hole smaller than the bearing diameter.")


def _check_teardrop(made: Terminator) -> None:
    """A teardrop is longer than its crown circle and comes to a nose."""
    length, nose = made.length_mm or 0.0, made.nose_radius_mm or 0.0
    if length <= made.bearing_diameter_mm:
        raise KeyedError(
            ("terminator", "length"),
            f"a teardrop of {length:g} mm is shorter than its own circle of {made.bearing_diameter_mm:g} mm",
            "Measure from the crown's bearing to the nose's; for a round thimble write kind = \"ring\".",
        )
    if nose >= made.bearing_diameter_mm / 2:
        what = f"a nose of radius {nose:g} mm is no narrower than the crown"
        raise KeyedError(("terminator", "nose_radius"), what, f"Make it less than {made.bearing_diameter_mm / 2:g} mm.")


def _check_lashing(made: Terminator) -> None:
    """The lashing holes fit inside the bearing circle: equal circles inside a ring, r/R = s/(1 + s), s = sin(pi/n)."""
    holes, hole = made.lashing_holes, made.lashing_hole_mm or 0.0
    if not 1 <= holes <= MOST_LASHING_HOLES:
        raise KeyedError(
            ("terminator", "lashing_holes"), f"{holes} lashing holes can't be", "Give a number from 1 to 12."
        )
    sine = math.sin(math.pi / holes)
    most = made.bearing_diameter_mm * (1.0 if holes == 1 else sine / (1 + sine))
    if hole >= most:
        what = f"{holes} holes of {hole:g} mm don't fit inside a bearing of {made.bearing_diameter_mm:g} mm"
        raise KeyedError(("terminator", "lashing_hole"), what, f"Make them less than {most:.4g} mm.")


def _line(table: LineTable, d: float, job_name: str) -> Line:
    """The line; its first end is the one spliced."""
    if table.ends[0].splice != "locked-captive":
        raise KeyedError(
            ("line", "ends", 0, "splice"),
            f"the first end asks for {table.ends[0].splice}, and only locked-captive is worked out so far",
            'Write splice = "locked-captive" at the first end; a second end may differ.',
        )
    ends = tuple(
        End(end.name, end.splice, _eye_length(end.eye_length, ("line", "ends", index, "eye_length"), d))
        for index, end in enumerate(table.ends)
    )
    return Line(table.name or job_name, ends, table.captive_end, tuple(table.thread_on_first))


def _eye_length(measure: Measure | None, path: Path, d: float) -> float | None:
    """An eye's length in mm; it may be written in rope diameters."""
    return None if measure is None else _length("line.ends.eye_length", path, Measure(measure.mm(d), "mm"))


def _tape(table: JobTable) -> tuple[str, float]:
    """The unit that the bench reads, and the tape's division in mm: the tape's own, or else the rope's."""
    written = table.tools.tape_division
    unit = (written or table.rope.diameter).unit
    bench = "in" if is_imperial(unit) else "mm"
    division = _optional("tools.tape_division", ("tools", "tape_division"), written)
    if division is not None and bench == "in" and 64 % max(1, round(INCH_MM / division)) != 0:
        raise KeyedError(("tools", "tape_division"), "no tape is divided so", 'Write "1/8 in", "1/16 in" or "1/32 in".')
    return bench, default_division(bench) if division is None else division


def _fids(table: ToolsTable, d: float, unit: str) -> tuple[float, ...]:
    """The fids' diameters in mm, smallest first; one opens the rope and one opens it wide enough to pass."""
    path: Path = ("tools", "fids")
    sizes = tuple(sorted({_length("tools.fids", (*path, i), fid) for i, fid in enumerate(table.fids)}))
    for name, does in (("fid_opens", "opens this rope"), ("fid_passes", "opens it wide enough to pass")):
        least, most = rule(f"{name}_least").value * d, rule(f"{name}_most").value * d
        if not any(least <= size <= most for size in sizes):
            wanted = f"{_fine(least, unit, up=True)} to {_fine(most, unit, up=False)}"
            raise KeyedError(path, f"no fid at hand {does}", f"It takes one of {wanted}; add it to the list.")
    return sizes


def _fine(mm: float, unit: str, *, up: bool) -> str:
    """A tool's diameter, finer than a tape shows it."""
    return show_length(mm, unit, INCH_MM / 64 if is_imperial(unit) else 0.1, "up" if up else "down")


def _practice(table: PracticeTable, rope: Rope) -> Practice:
    """The loft's rules; those of the data files where the job gives none."""
    d = rope.diameter_mm
    share = table.taper_share.value if table.taper_share else rule("taper_share").value
    stretch = table.post_stretch.value if table.post_stretch else rule("post_stretch_share").value
    throat = table.throat_angle.value if table.throat_angle else radians(rule("throat_angle").value)
    tension = _value(("practice", "reference_tension"), table.reference_tension, (0.1, 1e7), "0.1 N to 10 MN")
    return Practice(
        bury_diameters=_rule_d("bury", table.bury, d),
        taper_share=_within(("practice", "taper_share"), share, (0.0, 1.0), f"a share of {share:g}", "0 to 1"),
        taper_drops=_drops(table.taper_drops, rope.strands),
        hole_gap_diameters=_rule_d("hole_gap", table.hole_gap, d),
        throat_angle=_within(
            ("practice", "throat_angle"),
            throat,
            (radians(5), radians(119)),
            f"a throat angle of {math.degrees(throat):.3g} deg",
            "5 to 119 deg",
        ),
        post_stretch_share=_within(
            ("practice", "post_stretch"), stretch, (0.0, 0.3), f"a stretch of {stretch:g}", "0 to 30 %"
        ),
        reference_tension_n=reference_tension_n(d) if tension is None else tension,
        neck_diameters=_rule_d("neck", table.neck, d),
        lock_stitch=table.lock_stitch,
    )


def _rule_d(name: str, measure: Measure | None, d: float) -> float:
    """A rule reckoned in rope diameters: the job's, or the data files'."""
    if measure is None:
        return rule(name).value
    return _in_diameters(f"practice.{name}", ("practice", name), measure, d)


def _drops(drops: int | None, strands: int) -> int:
    """Pairs of strands dropped in the taper, which must leave a pair."""
    if drops is None:
        return taper_drops(strands)
    most = strands // 2 - 1
    what = f"{drops} drops of two strands from {strands}"
    return round(_within(("practice", "taper_drops"), drops, (0, most), what, f"0 to {most}"))


def _units_written(table: JobTable) -> dict[str, str]:
    """Every key the file gives, dotted, with the unit written there ("" where a key has none)."""
    found: dict[str, str] = {}
    _walk(table, "", found)
    return found


def _walk(value: object, key: str, found: dict[str, str]) -> None:
    """Take in one value and all below it."""
    below: list[tuple[str, object]] = []
    if isinstance(value, BaseModel):
        aliases = {name: info.alias or name for name, info in type(value).model_fields.items()}
        below = [(aliases[name], getattr(value, name)) for name in sorted(value.model_fields_set)]
    elif isinstance(value, list):
        below = [(str(index), item) for index, item in enumerate(value)]
    else:
        found[key] = value.unit if isinstance(value, Measure) else ""
    for name, item in below:
        _walk(item, f"{key}.{name}" if key else name, found)
