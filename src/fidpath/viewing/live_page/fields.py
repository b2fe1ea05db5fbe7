"""The parameters of a job that can be changed live: labels, units, limits; texts in, a checked job out.

Whatever a person types goes through the reader of job files: what a file may not say, a field may not either, and the
words of the refusal are the same.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from math import degrees
from typing import Any

from fidpath.job import LIMITS_D, LIMITS_MM, Job, key_path, keys_by_name, kinds
from fidpath.units import INCH_MM, is_imperial, show_length
from fidpath.viewing.live_page.field import DIAMETERS, LENGTHS, Field, typed
from fidpath.viewing.live_page.more_fields import MORE, count_fields, method_field, more_fields, name_fields

GROUP = "Terminator"
KIND = key_path("terminator.kind")

WEAVES = (("over-two", "over two"), ("over-one", "over one"))
_ROPE_FIELDS: tuple[Field, ...] = (
    Field(key_path("rope.diameter"), "Rope diameter d", "Rope", LENGTHS),
    Field(key_path("rope.strands"), "Strands", "Rope", kind="number", bounds="a multiple of 4 up to 48"),
    Field(key_path("rope.weave"), "Weave", "Rope", kind="choice", choices=WEAVES),
    Field(key_path("rope.pitch"), "Pitch", "Rope", DIAMETERS),
    Field(
        key_path("rope.squeeze"),
        "Buried tail squeezed to",
        "Rope",
        "share of its diameter",
        "share",
        default=lambda job: f"{job.rope.squeeze:g}",
        bounds="0.5 to 1",
    ),
)

_OTHER_FIELDS: tuple[Field, ...] = (
    Field(
        key_path("line.ends[1].eye_length"),
        "Eye, throat to crown",
        "Eye",
        DIAMETERS,
        default=lambda _job: "by the throat angle",
    ),
    Field(
        key_path("practice.throat_angle"),
        "Throat angle",
        "Eye",
        "deg",
        default=lambda job: f"{degrees(job.practice.throat_angle):g} deg",
        bounds="5 to 119 deg",
    ),
    Field(
        key_path("practice.bury"),
        "Bury",
        "Practice",
        DIAMETERS,
        default=lambda job: f"{job.practice.bury_diameters:g} d",
    ),
    Field(
        key_path("practice.hole_gap"),
        "Hole gap",
        "Practice",
        DIAMETERS,
        default=lambda job: f"{job.practice.hole_gap_diameters:g} d",
    ),
    Field(
        key_path("practice.neck"),
        "Bare neck",
        "Practice",
        DIAMETERS,
        default=lambda job: f"{job.practice.neck_diameters:g} d",
    ),
    Field(
        key_path("practice.taper_share"),
        "Tapered part of the bury",
        "Practice",
        "share",
        "share",
        default=lambda job: f"{job.practice.taper_share:.3g}",
        bounds="0 to 1",
    ),
    Field(
        key_path("practice.taper_drops"),
        "Pairs of strands dropped",
        "Practice",
        kind="number",
        default=lambda job: f"{job.practice.taper_drops}",
        bounds="0 to half the strands, less one",
    ),
    Field(
        key_path("practice.post_stretch"),
        "Stretch allowed over a post",
        "Practice",
        "share or %",
        "share",
        default=lambda job: f"{job.practice.post_stretch_share:.3g}",
        bounds="0 to 30 %",
    ),
    Field(
        key_path("practice.lock_stitch"), "Lock-stitch the bury", "Practice", kind="switch", default=lambda _job: "no"
    ),
    Field(key_path("tools.fids"), "Fids at hand", "Tools", "diameters in mm or in, commas between", "list"),
    Field(
        key_path("tools.tape_division"),
        "Tape's division",
        "Tools",
        LENGTHS,
        default=lambda job: _length(job.tools.tape_division_mm, job.length_unit),
    ),
)


def fields() -> tuple[Field, ...]:
    """Every parameter that has a field, in the order shown."""
    return _fields(tuple(kinds()))


@lru_cache(maxsize=4)
def _fields(_kinds: tuple[str, ...]) -> tuple[Field, ...]:
    """The fields while there are terminators of these kinds."""
    own = (*_ROPE_FIELDS, *count_fields(), *_terminator_fields(), *_OTHER_FIELDS)
    return (method_field(), *name_fields(), *own, *more_fields())


def field_keys() -> frozenset[str]:
    """The keys that have a field."""
    return _keys(tuple(kinds()))


@lru_cache(maxsize=4)
def _keys(known: tuple[str, ...]) -> frozenset[str]:
    return frozenset(field.key for field in _fields(known))


def _terminator_fields() -> Iterator[Field]:
    """The kind, and every key that any kind has, as the registry has them."""
    known = kinds()
    choices = tuple((word, kind.label) for word, kind in known.items())
    yield Field(KIND, "Terminator", GROUP, kind="choice", choices=choices)
    for name, (key, words) in keys_by_name().items():
        info = known[words[0]].table.model_fields[name]
        of = () if len(words) == len(known) else words
        bare = Field(key_path("terminator") / name, key.label, GROUP, of=of, limits=key.limits, note=key.note)
        yield typed(bare, key, info)


def described(job: Job) -> list[dict[str, Any]]:
    """The fields as plain data for a page: labels, units, limits in the job's unit, what holds where one is empty."""
    return [
        {
            "key": field.key,
            "label": field.label,
            "group": field.group,
            "units": field.units,
            "kind": field.kind,
            "choices": [list(choice) for choice in field.choices],
            "default": field.default(job),
            "bounds": field.bounds or _bounds(field, job),
            "note": field.note,
            "of": list(field.of),
            "kindKey": field.kind_key,
            "more": field.group in MORE,
        }
        for field in fields()
    ]


def _bounds(field: Field, job: Job) -> str:
    """A field's limits as `read` holds them, in the job's unit."""
    key = field.path.in_schema
    if key in LIMITS_D:
        low, high = LIMITS_D[key]
        return f"{low:g} to {high:g} d"
    limits = field.limits or LIMITS_MM.get(key)
    if limits:
        return " to ".join(_length(limit, job.length_unit) for limit in limits)
    return ""


def _length(mm: float, unit: str) -> str:
    """A length in the job's unit, fine enough for a tool."""
    return show_length(mm, unit, INCH_MM / 64 if is_imperial(unit) else 0.1)
