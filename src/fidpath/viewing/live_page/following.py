"""What goes with a rope: where its diameter or its strands change, the other figures and names that should follow.

Nothing is changed here. A person is shown each figure as it stands and as it would be, and says which are to follow.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from fidpath.job import LIMITS_MM, keys_by_name, rule
from fidpath.viewing.live_page.field import LENGTHS, Field
from fidpath.viewing.live_page.fields import fields
from fidpath.viewing.live_page.lengths import SLIP_SHARE, measured, sized_up, system_of
from fidpath.viewing.live_page.more_fields import NAMES

DIAMETER, STRANDS, PITCH, FIDS = "rope.diameter", "rope.strands", "rope.pitch", "tools.fids"
EYES = ("line.ends[1].eye_length", "line.ends[2].eye_length")
RULES = ("practice.bury", "practice.hole_gap", "practice.neck", "practice.lock_stitch.spacing")
OF_THE_ROPE = (
    "rope.diameter_min",
    "rope.diameter_max",
    "rope.strength",
    "rope.stretch_tension",
    "rope.linear_density",
    "rope.loaded_diameter",
)
"""Figures of one rope's data sheet, which another rope doesn't have."""

COUNT = ("rope.crossings", "rope.over")
MEASURE = re.compile(r"\d+(?:[ -]\d+/\d+|/\d+|\.\d+)?\s*(?:mm|inch|in\b|\")", re.ASCII)


@dataclass(frozen=True)
class Proposal:
    """One field that should follow: what stands in it, what would stand there, and why."""

    key: str
    label: str
    old: str
    new: str
    why: str


@dataclass(frozen=True)
class _Change:
    """A rope's diameter before and now, mm, and its strands."""

    before_mm: float
    now_mm: float
    strands_before: str
    strands_now: str
    now: str

    @property
    def ratio(self) -> float:
        return self.now_mm / self.before_mm


def proposals(base: Mapping[str, str], texts: Mapping[str, str]) -> list[Proposal]:
    """What should follow from `base` to `texts`, both by key; fields a person has changed since are left to them."""
    change = _change(base, texts)
    if change is None:
        return []
    untouched = [field for field in fields() if base.get(field.key) and texts.get(field.key) == base[field.key]]
    found = (_proposal(field, texts[field.key], change) for field in untouched)
    return [one for one in found if one is not None and one.new != one.old]


def names_to_follow(base: Mapping[str, str], texts: Mapping[str, str]) -> list[Proposal]:
    """The names among them: what a job must not be saved without a word about."""
    names = {field.key for field in fields() if field.group == NAMES}
    return [one for one in proposals(base, texts) if one.key in names]


def _change(base: Mapping[str, str], texts: Mapping[str, str]) -> _Change | None:
    """How the rope has changed; None where it hasn't, or stands half typed."""
    before, now = measured(base.get(DIAMETER, "")), measured(texts.get(DIAMETER, ""))
    if before is None or now is None or "d" in (before.unit, now.unit):
        return None
    low, high = LIMITS_MM[DIAMETER]
    strands = base.get(STRANDS, ""), texts.get(STRANDS, "").strip()
    same = abs(now.value / before.value - 1) <= SLIP_SHARE and strands[0] == strands[1]
    if same or not low <= now.value <= high or not strands[1].isdecimal():
        return None
    return _Change(before.value, now.value, *strands, texts[DIAMETER].strip())


def _proposal(field: Field, text: str, change: _Change) -> Proposal | None:
    """One field's proposal; None where it doesn't go with the rope."""
    for rule_of in (_name, _scaled, _fids, _measured, _drops):
        if made := rule_of(field, text, change):
            return Proposal(field.key, field.label, text, *made)
    return None


def _name(field: Field, text: str, change: _Change) -> tuple[str, str] | None:
    """A name that says a diameter or strands that were."""
    if field.group != NAMES or field.kind != "text":
        return None

    def changed(match: re.Match[str]) -> str:
        measure = measured(match.group())
        same = measure is not None and abs(measure.value - change.before_mm) < 1e-6
        return change.now if same else match.group()

    new = MEASURE.sub(changed, text)
    new = re.sub(rf"\b{change.strands_before}(?=[ -]?strand)", change.strands_now, new)
    return (new, "the name says what the rope was") if new != text else None


def _scaled(field: Field, text: str, change: _Change) -> tuple[str, str] | None:
    """A length that grows with the rope: of what sits in the eye, of the eye, a rule that isn't in rope diameters."""
    measure = measured(text)
    own = "terminator" in field.path and field.path[-1] in keys_by_name() and field.units == LENGTHS
    if measure is None or measure.unit == "d" or change.ratio == 1 or not (own or field.key in (*EYES, *RULES)):
        return None
    new = sized_up(measure.value * change.ratio, system_of(text))
    return new, "in the same proportion to the rope" if own else "in the same proportion; rules go by the diameter"


def _fids(field: Field, text: str, change: _Change) -> tuple[str, str] | None:
    """The fids at hand, and those of the rule's size that the new rope wants besides."""
    items = [item.strip() for item in text.split(",")]
    sizes = [measure.value for item in items if (measure := measured(item)) is not None]
    if field.key != FIDS or len(sizes) < len(items) or change.ratio == 1:
        return None
    wanted = [fid_size(name, change.now_mm) for name in ("fid_opens", "fid_passes") if not _has(sizes, name, change)]
    new = [*items, *(sized_up(size, system_of(items[0])) for size in wanted)]
    return ", ".join(new), "fids of these sizes are needed besides those at hand"


def _has(sizes: list[float], name: str, change: _Change) -> bool:
    """Whether a fid at hand lies within a rule's bounds for the new rope."""
    low, high = (rule(f"{name}_{end}").value * change.now_mm for end in ("least", "most"))
    return any(low <= size <= high for size in sizes)


def fid_size(name: str, d: float) -> float:
    """The fid in the middle of a rule's bounds for rope `d` mm thick, mm."""
    return (rule(f"{name}_least").value + rule(f"{name}_most").value) / 2 * d


def _measured(field: Field, text: str, change: _Change) -> tuple[str, str] | None:
    """What was measured of the rope that was, or stood on its data sheet."""
    if field.key in COUNT or (field.key in OF_THE_ROPE and not text.endswith(" d")):
        return "", "it was the figure of the rope before"
    measure = measured(text)
    if field.key == PITCH and measure is not None and measure.unit != "d" and change.ratio != 1:
        return "unknown", "it was measured on the rope before: count again"
    return None


def _drops(field: Field, _text: str, change: _Change) -> tuple[str, str] | None:
    """Pairs of strands dropped go by the strands there are."""
    if field.key == "practice.taper_drops" and change.strands_before != change.strands_now:
        return "", "the rule for the new number of strands"
    return None
