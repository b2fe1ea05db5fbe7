"""Lengths as texts: written anew in millimetres or in inches with fractions, and in sizes that things come in."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Literal

from fidpath.units import INCH_MM, Measure, UnitError, is_imperial, read_length
from fidpath.viewing.live_page.field import DIAMETERS, LENGTHS, Field

System = Literal["mm", "in"]

SLIP_MM, SLIP_SHARE = 0.02, 0.002
"""How far a length written in another unit may lie from the one before: finer than any tape."""

FINEST = 64
"""The smallest fraction of an inch on a ruler."""

TAPES: Mapping[System, str] = {"mm": "1 mm", "in": "1/16 in"}
TAPE = "tools.tape_division"


def measured(text: str) -> Measure | None:
    """A text's length, in mm or in rope diameters; None where it is none."""
    try:
        return read_length(text.strip())
    except UnitError:
        return None


def written(mm: float, system: System) -> str:
    """A length in the fewest figures that keep it: a fraction of an inch where it is one, else a decimal."""
    slip = min(SLIP_MM, SLIP_SHARE * abs(mm))
    if system == "mm":
        return f"{_shortest(mm, slip)} mm"
    inches = mm / INCH_MM
    for bottom in (1, 2, 4, 8, 16, 32, FINEST):
        near = Fraction(round(inches * bottom), bottom)
        if near and abs(float(near) * INCH_MM - mm) <= slip:
            return f"{_mixed(near)} in"
    return f"{_shortest(inches, slip / INCH_MM)} in"


def sized_up(mm: float, system: System) -> str:
    """A size that things come in, the next that is no smaller: halves of a millimetre, sixteenths of an inch."""
    step = INCH_MM / 16 if system == "in" else 0.5
    step = step if mm >= 10 * step else step / 5 if system == "mm" else step / 4
    return written(math.ceil(mm / step - 1e-6) * step, system)


def system_of(text: str) -> System:
    """The system of a text's unit."""
    measure = measured(text)
    return "in" if measure is not None and is_imperial(measure.unit) else "mm"


def switched(fields: Iterable[Field], texts: Mapping[str, str], system: System) -> dict[str, str]:
    """The texts with every length in this system; rope diameters, shares and all else stay as they are."""
    found = dict(texts)
    for field in fields:
        text = texts.get(field.key, "")
        if field.units in (LENGTHS, DIAMETERS):
            found[field.key] = _length(text, system)
        elif field.kind == "list" and text:
            found[field.key] = ", ".join(_length(item.strip(), system) for item in text.split(","))
        elif field.kind == "sizes" and "=" in text:
            pairs = [item.partition("=") for item in text.split(",")]
            found[field.key] = ", ".join(f"{name.strip()} = {_length(size.strip(), system)}" for name, _, size in pairs)
    return {**found, TAPE: TAPES[system]}


def _length(text: str, system: System) -> str:
    """One length in the system; what is no length, or stands in rope diameters, as it is."""
    measure = measured(text)
    if measure is None or measure.unit == "d" or system_of(text) == system:
        return text
    return written(measure.value, system)


def _shortest(value: float, slip: float) -> str:
    """A number with as few decimals as keep it."""
    for digits in range(7):
        text = f"{value:.{digits}f}"
        if abs(float(text) - value) <= slip:
            return text
    return f"{value:.9g}"


def _mixed(value: Fraction) -> str:
    """Whole inches and what is left: "1 3/8"."""
    whole, part = divmod(value, 1)
    words = [str(whole)] if whole else []
    return " ".join([*words, f"{part.numerator}/{part.denominator}"] if part else words)
