"""A job file's tables -> Job: every length in mm, defaults filled in, figures that can't be refused."""

from __future__ import annotations

import math
from collections.abc import Mapping

from pydantic import BaseModel

from fidpath.job.job import Job, Practice, Rope, StitchPattern, Tools, closes
from fidpath.job.key_paths import KeyPath, key_path
from fidpath.job.limits import LIMITS_D, in_diameters, length, optional, value_of, within
from fidpath.job.line_table import line_of
from fidpath.job.locate import KeyedError
from fidpath.job.print_table import printing_of
from fidpath.job.rules import HOW_TO_COUNT, reference_tension_n, rule, taper_drops
from fidpath.job.schema import JobTable, LockStitchTable, PracticeTable, RopeTable, ToolsTable
from fidpath.job.terminators.registry import terminator_of
from fidpath.units import (
    INCH_MM,
    Measure,
    UnitError,
    default_division,
    is_imperial,
    radians,
    read_length,
    show_duration,
)

MOST_STRANDS = 48


def job_of(table: JobTable, source: str) -> Job:
    """The job a file's tables ask for; a whole line may begin with any splice. Raises KeyedError where it can't be."""
    rope = rope_of(table.rope)
    d = rope.diameter_mm
    unit, division = _tape(table)
    return Job(
        name=table.name,
        rope=rope,
        terminator=terminator_of(table.terminator, d),
        line=line_of(table.line, d, table.name),
        tools=Tools(_fids(table.tools), division),
        practice=practice_of(table.practice, rope),
        printing=printing_of(table.print),
        length_unit=unit,
        source=source,
        units=_units_written(table),
    )


def rope_of(table: RopeTable) -> Rope:
    """The rope, its limits by the usual tolerance where they aren't given."""
    d = length(key_path("rope.diameter"), table.diameter)
    slack = rule("diameter_tolerance").value * d
    least = optional(key_path("rope.diameter_min"), table.diameter_min)
    most = optional(key_path("rope.diameter_max"), table.diameter_max)
    pitch, guessed = _pitch(table, d)
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
        pitch_mm=pitch,
        pitch_guessed=guessed,
        squeeze=within(key_path("rope.squeeze"), squeeze, (0.5, 1.0), f"a squeeze of {squeeze:g}", "0.5 to 1"),
        strength_n=value_of(key_path("rope.strength"), table.strength, (1.0, 1e8), "1 N to 100 MN"),
        stretch_share=value_of(key_path("rope.stretch"), table.stretch, (0.0, 0.6), "0 to 60 %"),
        linear_density_ktex=value_of(
            key_path("rope.linear_density"), table.linear_density, (0.05, 1e5), "0.05 to 100000 g/m"
        ),
        temperature_limit_c=value_of(
            key_path("rope.temperature_limit"), table.temperature_limit, (-60.0, 300.0), "-60 to 300 degC"
        ),
        stretch_tension_n=value_of(
            key_path("rope.stretch_tension"), table.stretch_tension, (1.0, 1e8), "1 N to 100 MN"
        ),
        bedding_in_share=value_of(key_path("rope.bedding_in"), table.bedding_in, (0.0, 0.6), "0 to 60 %"),
        loaded_diameter_mm=_loaded_diameter(table, d),
        loaded_strain_share=value_of(key_path("rope.loaded_strain"), table.loaded_strain, (0.0, 0.2), "0 to 20 %"),
        friction=_friction(table.friction),
    )


def _loaded_diameter(table: RopeTable, d: float) -> float | None:
    """The rope's diameter under load, mm: rope that shrinks more, or swells, is taken for a slip of the pen."""
    if table.loaded_diameter is None:
        return None
    return in_diameters(key_path("rope.loaded_diameter"), table.loaded_diameter, d) * d


def _friction(given: list[float] | None) -> tuple[float, float] | None:
    """The least and greatest friction of strand on strand."""
    if given is None:
        return None
    for value in given:
        within(key_path("rope.friction"), value, (0.0, 0.5), f"a friction of {value:g}", "0 to 0.5")
    return min(given), max(given)


def _pitch(table: RopeTable, d: float) -> tuple[float, bool]:
    """The pitch in mm, as given or by a count, and whether it is a guess."""
    path = key_path("rope.pitch")
    if (table.crossings is None) != (table.over is None):
        lacks = "over" if table.over is None else "crossings"
        raise KeyedError(key_path("rope") / lacks, "this key is missing", f"{HOW_TO_COUNT}.")
    if table.crossings is not None and table.over is not None:
        if isinstance(table.pitch, Measure):
            raise KeyedError(
                path, "the pitch is given in two ways", "Leave out rope.pitch, or rope.crossings and rope.over."
            )
        return _counted_pitch(table.crossings, table.over, table.strands, d), False
    if isinstance(table.pitch, Measure):
        return in_diameters(path, table.pitch, d) * d, False
    if table.pitch is None:
        raise KeyedError(path, "this key is missing", f'{HOW_TO_COUNT}. Until then write pitch = "unknown".')
    return rule("pitch_guess").value * d, True


def _counted_pitch(crossings: int, over: Measure, strands: int, d: float) -> float:
    """The pitch by crossings met along one line on top of the rope, which lie 2P/N apart (counting)."""
    path = key_path("rope.crossings")
    within(path, crossings, (4, 1000), f"a count of {crossings}", "4 to 1000; 20 or more count well")
    pitch = length(key_path("rope.over"), over) / crossings * strands / 2
    low, high = (limit * d for limit in LIMITS_D["rope.pitch"])
    if not low <= pitch <= high:
        wide = "long" if pitch > high else "short"
        what = (
            f"{crossings} crossings over {over.value:g} mm make a pitch of {pitch / d:.1f} rope diameters, too {wide}"
        )
        raise KeyedError(path, what, "Count again, along one line on top of the rope, and check rope.strands.")
    return pitch


def _check_limits(diameter_mm: float, least: float | None, most: float | None) -> None:
    """The rope's limits lie either side of its nominal diameter."""
    if least is not None and least > diameter_mm:
        raise KeyedError(
            key_path("rope.diameter_min"), "the least diameter is greater than the nominal", "Swap the two."
        )
    if most is not None and most < diameter_mm:
        raise KeyedError(
            key_path("rope.diameter_max"), "the greatest diameter is less than the nominal", "Swap the two."
        )


def _check_weave(table: RopeTable) -> None:
    """The braid has a sensible number of strands and comes back to itself once round the rope."""
    strands = key_path("rope.strands")
    if table.strands % 2 or not 4 <= table.strands <= MOST_STRANDS:
        what = f"{table.strands} strands don't make a hollow braid"
        raise KeyedError(
            strands, what, f"Count again: an even number from 4 to {MOST_STRANDS}, half of them turning each way."
        )
    if not closes(table.strands, table.weave):
        raise KeyedError(
            strands,
            f"a braid of {table.strands} strands can't close {table.weave}: it needs a multiple of 4",
            'Count the strands again, and look whether each passes over two or over one: weave = "over-one".',
        )


def _tape(table: JobTable) -> tuple[str, float]:
    """The unit that the bench reads, and the tape's division in mm: the tape's own, or else the rope's."""
    written = table.tools.tape_division
    unit = (written or table.rope.diameter).unit
    bench = "in" if is_imperial(unit) else "mm"
    division = optional(key_path("tools.tape_division"), written)
    if division is not None and bench == "in" and 64 % max(1, round(INCH_MM / division)) != 0:
        raise KeyedError(
            key_path("tools.tape_division"), "no tape has this division", 'Write "1/8 in", "1/16 in" or "1/32 in".'
        )
    return bench, default_division(bench) if division is None else division


def _fids(table: ToolsTable) -> tuple[float, ...]:
    """The fids' diameters in mm, smallest first; whether they suit the rope is for the plan to say."""
    path = key_path("tools.fids")
    names = _fid_sizes(table)
    return tuple(sorted({_fid(path / i, fid, names) for i, fid in enumerate(table.fids)}))


def _fid_sizes(table: ToolsTable) -> dict[str, float]:
    """The user's own names for fids, each with its diameter in mm."""
    path = key_path("tools.fid_sizes")
    like = key_path("tools.fids")
    return {name: length(path / name, measure, like) for name, measure in (table.fid_sizes or {}).items()}


def _fid(path: KeyPath, written: str, names: Mapping[str, float]) -> float:
    """A fid's diameter in mm, from a name of the user's own or a measure."""
    if written.strip() in names:
        return names[written.strip()]
    try:
        return length(path, read_length(written), key_path("tools.fids"))
    except UnitError as problem:
        known = f"names known here: {', '.join(names)}" if names else "give its size in tools.fid_sizes"
        remedy = f"Write its diameter with a unit, or a name from a table of your own: {known}."
        raise KeyedError(path, f"{problem.what}, nor a fid's name", remedy) from None


def practice_of(table: PracticeTable, rope: Rope) -> Practice:
    """The loft's rules; those of the data files where the job gives none."""
    d = rope.diameter_mm
    share = table.taper_share.value if table.taper_share else rule("taper_share").value
    stretch = table.post_stretch.value if table.post_stretch else rule("post_stretch_share").value
    throat = table.throat_angle.value if table.throat_angle else radians(rule("throat_angle").value)
    tension = value_of(key_path("practice.reference_tension"), table.reference_tension, (0.1, 1e7), "0.1 N to 10 MN")
    return Practice(
        bury_diameters=_rule_d("bury", table.bury, d),
        taper_share=_taper_share(share),
        taper_drops=_drops(table.taper_drops, rope.strands) if share else 0,
        hole_gap_diameters=_rule_d("hole_gap", table.hole_gap, d),
        throat_angle=within(
            key_path("practice.throat_angle"),
            throat,
            (radians(5), radians(119)),
            f"a throat angle of {math.degrees(throat):.3g} deg",
            "5 to 119 deg",
        ),
        post_stretch_share=within(
            key_path("practice.post_stretch"), stretch, (0.0, 0.3), f"a stretch of {stretch:g}", "0 to 30 %"
        ),
        reference_tension_n=reference_tension_n(d) if tension is None else tension,
        neck_diameters=_rule_d("neck", table.neck, d),
        stitch=_stitch(table, d),
        set_load_n=value_of(key_path("practice.set_load"), table.set_load, (1.0, 1e8), "1 N to 100 MN"),
        set_time=_set_time(table.set_time),
        sources=_sources(table),
        hand=table.hand,
    )


def _set_time(measure: Measure | None) -> str:
    """How long the splice is set under its load, in the unit that the user wrote; nothing where the job doesn't say."""
    if measure is None:
        return ""
    within(key_path("practice.set_time"), measure.value, (1.0, 30 * 86400.0), f"{measure.value:g} s", "1 s to 30 days")
    return show_duration(measure)


LEAST_TAPER = 0.02
"""The least share of the bury that can taper; none at all is a blunt tail."""


def _taper_share(share: float) -> float:
    """The share of the bury that tapers, or nothing where the tail ends blunt."""
    limits = (LEAST_TAPER if share else 0.0, 1.0)
    return within(key_path("practice.taper_share"), share, limits, f"a share of {share:g}", "0, or 0.02 to 1")


SOURCES = {"bury": "bury", "taper": "taper_share", "hole_gap": "hole_gap", "lock_stitch": "lock_stitch"}
"""Keys such as `bury_source`, and the key whose source each gives."""


def _sources(table: PracticeTable) -> tuple[tuple[str, str], ...]:
    """Where the job says that its figures come from, as (key, words); each stands beside its figure."""
    found = []
    for name, key in SOURCES.items():
        words = getattr(table, f"{name}_source")
        if words is not None and getattr(table, key) is None:
            path = key_path("practice") / f"{name}_source"
            raise KeyedError(path, "this source has no figure", f"Give practice.{key} as well.")
        found += [(key, words)] if words is not None else []
    return tuple(found)


def _stitch(table: PracticeTable, d: float) -> StitchPattern | None:
    """How the bury is stitched: the job's own pattern, or that of the rules."""
    if not table.lock_stitch:
        return None
    usual, path = rule("lock_stitch_stitches"), key_path("practice.lock_stitch")
    source = table.lock_stitch_source or usual.source
    own = (
        table.lock_stitch
        if isinstance(table.lock_stitch, LockStitchTable)
        else LockStitchTable(stitches=round(usual.value))
    )
    stitches = round(within(path / "stitches", own.stitches, (1, 200), f"{own.stitches} stitches", "1 to 200"))
    spacing = rule("lock_stitch_spacing").value
    if own.spacing is not None:
        spacing = in_diameters(path / "spacing", own.spacing, d)
    return StitchPattern(stitches, spacing, own.twine or "whipping twine", source)


def _rule_d(name: str, measure: Measure | None, d: float) -> float:
    """A rule reckoned in rope diameters: the job's, or the data files'."""
    if measure is None:
        return rule(name).value
    return in_diameters(key_path("practice") / name, measure, d)


def _drops(drops: int | None, strands: int) -> int:
    """Pairs of strands dropped in the taper, which must leave a pair."""
    if drops is None:
        return taper_drops(strands)
    most = strands // 2 - 1
    what = f"{drops} drops of two strands from {strands}"
    return round(within(key_path("practice.taper_drops"), drops, (0, most), what, f"0 to {most}"))


def _units_written(table: JobTable) -> dict[str, str]:
    """Every key the file gives, by its path's text, with the unit written there ("" where a key has none)."""
    found: dict[str, str] = {}
    _walk(table, KeyPath(), found)
    return found


def _walk(value: object, path: KeyPath, found: dict[str, str]) -> None:
    """Take in one value and all below it."""
    below: list[tuple[str | int, object]] = []
    if isinstance(value, BaseModel):
        aliases = {name: info.alias or name for name, info in type(value).model_fields.items()}
        below = [(aliases[name], getattr(value, name)) for name in sorted(value.model_fields_set)]
    elif isinstance(value, list):
        below = list(enumerate(value))
    else:
        found[str(path)] = value.unit if isinstance(value, Measure) else ""
    for name, item in below:
        _walk(item, path / name, found)
