"""Measures as people write them, converted to mm, N and radians and back; the only room that knows units.

`read_length("1 3/8 in")` is `Measure(34.925, "in")`; `read_length("72 d")` stays in rope diameters until the
diameter is known. A bare number is refused, never guessed. Sizes of units are exact fractions.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from typing import Literal, cast

Rounding = Literal["up", "nearest", "down"]

LONGEST = 64
INCH_MM = 25.4
LENGTH, MASS, TEMPERATURE, TIME, ANGLE = (1, 0, 0, 0), (0, 1, 0, 0), (0, 0, 1, 0), (0, 0, 0, 1), (0, 0, 0, 0)
FORCE, DENSITY = (1, 1, 0, -2), (-1, 1, 0, 0)
KINDS = {
    LENGTH: "a length",
    MASS: "a mass",
    FORCE: "a force",
    DENSITY: "a mass per length",
    TEMPERATURE: "a temperature",
    TIME: "a time",
}
IMPERIAL = frozenset({"in", "ft", "yd", "fathom"})
TYPED = {
    "\u00a0": " ",
    "\u202f": " ",
    "\u2212": "-",
    "\u2044": "/",
    "\u2032": "'",
    "\u2033": '"',
    "\u2019": "'",
    "\u201d": '"',
    "''": '"',
}
NUMBER = re.compile(
    r"(?P<sign>[+-]?)\s*(?:(?P<whole>\d+)(?:\s+|-))?(?P<top>\d+)/(?P<bottom>\d+)|(?P<plain>[+-]?(?:\d+\.?\d*|\.\d+))",
    re.ASCII,
)
UNIT = re.compile(
    r"""\s*(?P<unit>"|'|°[CF]?|[A-Za-z_][A-Za-z_ ]*(?:/(?:\s*100\s*)?[A-Za-z]+)?)\s*(?:[,-]\s*(?=\d))?""", re.ASCII
)


class UnitError(ValueError):
    """A measure that can't be read: what is wrong, and what to write instead."""

    def __init__(self, what: str, remedy: str) -> None:
        super().__init__(what)
        self.what = what
        self.remedy = remedy


@dataclass(frozen=True)
class Measure:
    """A value in the tool's own unit (mm, N, radians, ktex, degrees Celsius) and the unit the user wrote.

    Where `unit` is "d" the value is a length in rope diameters.
    """

    value: float
    unit: str

    def mm(self, diameter_mm: float) -> float:
        """The length in mm, on a rope of this diameter in mm."""
        return self.value * diameter_mm if self.unit == "d" else self.value

    def diameters(self, diameter_mm: float) -> float:
        """The length in diameters of a rope of this diameter in mm."""
        return self.value if self.unit == "d" else self.value / diameter_mm


@dataclass(frozen=True)
class Unit:
    """A unit by its size in mm, kg, K and s, its powers of length, mass, temperature and time, and its zero in K."""

    symbol: str
    size: Fraction
    powers: tuple[int, ...]
    zero: Fraction = Fraction(0)

    def to(self, number: Fraction, other: Unit) -> Fraction:
        """A number of this unit as a number of another that measures the same."""
        return (number * self.size + self.zero - other.zero) / other.size

    def times(self, other: Unit, power: int) -> Unit:
        """This unit times a power of another; keeps its symbol."""
        powers = tuple(mine + power * theirs for mine, theirs in zip(self.powers, other.powers, strict=True))
        return replace(self, size=self.size * other.size**power, powers=powers)


def _table() -> dict[str, Unit]:
    """The units people write on ropes, by every name they go by; the first is the symbol.

    Those of mass and force by the international pound (1959) and standard gravity (CGPM, 1901).
    """
    pound, gravity, inch = Fraction("0.45359237"), Fraction("9806.65"), Fraction("25.4")
    rows = [
        ("mm millimeter millimetre", Fraction(1), LENGTH),
        ("cm centimeter centimetre", Fraction(10), LENGTH),
        ("m meter metre", Fraction(1000), LENGTH),
        ("in inch inches", inch, LENGTH),
        ("ft foot feet", 12 * inch, LENGTH),
        ("yd yard", 36 * inch, LENGTH),
        ("fathom", 72 * inch, LENGTH),
        ("s second", Fraction(1), TIME),
        ("min minute", Fraction(60), TIME),
        ("h hour", Fraction(3600), TIME),
        ("day", Fraction(86400), TIME),
        ("kg kilogram", Fraction(1), MASS),
        ("g gram", Fraction(1, 1000), MASS),
        ("t tonne", Fraction(1000), MASS),
        ("lb pound", pound, MASS),
        ("N newton", Fraction(1000), FORCE),
        ("daN decanewton", Fraction(10_000), FORCE),
        ("kN kilonewton", Fraction(1_000_000), FORCE),
        ("kgf kilogram_force", gravity, FORCE),
        ("tf tonne_force", 1000 * gravity, FORCE),
        ("lbf pound_force", pound * gravity, FORCE),
        ("kip kilopound_force", 1000 * pound * gravity, FORCE),
        ("tex", Fraction(1, 10**9), DENSITY),
        ("ktex kilotex", Fraction(1, 10**6), DENSITY),
        ("rad radian", Fraction(1), ANGLE),
        ("deg degree", Fraction("0.017453292519943295"), ANGLE),
        ("K kelvin", Fraction(1), TEMPERATURE),
    ]
    units = [(names, Unit(names.split()[0], size, powers)) for names, size, powers in rows]
    units += [
        ("degC degree_Celsius", Unit("degC", Fraction(1), TEMPERATURE, Fraction("273.15"))),
        ("degF degree_Fahrenheit", Unit("degF", Fraction(5, 9), TEMPERATURE, Fraction("233.15") + Fraction(200, 9))),
    ]
    return {name: unit for names, unit in units for name in names.split()}


UNITS = _table()


def read_length(text: object) -> Measure:
    """A length: "8 mm", "1 3/8 in", "2 ft 3 in", or "7 d" in rope diameters; UnitError if it is none."""
    return _read(text, "mm", "a length", "8 mm")


def read_force(text: object) -> Measure:
    """A force in N: "45 kN", "9000 lbf"; UnitError if it is none."""
    return _read(text, "N", "a force", "45 kN")


def read_duration(text: object) -> Measure:
    """A time in s: "30 min", "12 h"; UnitError if it is none."""
    return _read(text, "s", "a time", "30 min")


def read_angle(text: object) -> Measure:
    """An angle in radians: "45 deg", "60°"; UnitError if it is none."""
    return _read(text, "rad", "an angle", "45 deg")


def read_density(text: object) -> Measure:
    """Mass per length in ktex: "52 g/m", "3.5 lb/100 ft"; UnitError if it is none."""
    return _read(text, "ktex", "a mass per length", "52 g/m")


def read_temperature(text: object) -> Measure:
    """A temperature in degrees Celsius: "65 °C", "150 °F"; UnitError if it is none."""
    return _read(text, "degC", "a temperature", "65 degC")


def read_share(number: object) -> Measure:
    """A share of one: 0.75, or "75 %"; UnitError if it is neither."""
    wanted = UnitError(f"{shown(number)} is not a share", 'Write a number such as 0.75, or "75 %".')
    if isinstance(number, bool) or not isinstance(number, int | float | str):
        raise wanted
    if not isinstance(number, str):
        return Measure(float(number), "")
    tidy = _tidy(number)
    if not tidy.endswith("%") or not NUMBER.fullmatch(tidy[:-1].strip()):
        raise wanted
    return Measure(float(_number(tidy[:-1].strip()) / 100), "%")


def _read(text: object, into: str, kind: str, example: str) -> Measure:
    """The sum of a text's number-and-unit pairs in unit `into`."""
    pairs = _pairs(text, kind, example)
    if len(pairs) == 1 and pairs[0][1] == "d" and into == "mm":
        return Measure(float(pairs[0][0]), "d")
    if len(pairs) > 1 and into != "mm":
        raise UnitError(
            f"{shown(text)} is more than one measurement", f'Write one number and unit, such as "{example}".'
        )
    own = UNITS[into]
    units = [_unit(text, name, own, kind, example) for _, name in pairs]
    values = [unit.to(number, own) for (number, _), unit in zip(pairs, units, strict=True)]
    _falling(text, [number for number, _ in pairs], [unit.size for unit in units])
    return Measure(float(sum(values)), units[-1].symbol)


def _pairs(text: object, kind: str, example: str) -> list[tuple[Fraction, str]]:
    """Numbers with the unit after each, in the order written."""
    if not isinstance(text, str):
        bare = "has no unit" if isinstance(text, int | float) and not isinstance(text, bool) else f"is not {kind}"
        raise UnitError(f"{shown(text)} {bare}", f'Write {kind} as text with its unit, such as "{example}".')
    tidy = _tidy(text)
    pairs: list[tuple[Fraction, str]] = []
    place = 0
    while place < len(tidy):
        number = NUMBER.match(tidy, place)
        unit = UNIT.match(tidy, number.end()) if number else None
        if number is None or unit is None:
            raise _unreadable(text, tidy, kind, example)
        pairs.append((_number(number.group()), unit.group("unit").rstrip()))
        place = unit.end()
    if not pairs:
        raise _unreadable(text, tidy, kind, example)
    return pairs


def _tidy(text: str) -> str:
    """The text with typographic fractions, primes and minus signs as their plain counterparts."""
    if len(text) > LONGEST:
        raise UnitError(
            f"{shown(text[:16])}... is too long for a measurement", 'Write a number and a unit, such as "8 mm".'
        )
    plain = re.sub(r"(?<=\d)(?=[\u00bc-\u00be\u2150-\u215e])", " ", text)
    plain = re.sub(r"[\u00bc-\u00be\u2150-\u215e]", lambda match: unicodedata.normalize("NFKC", match.group()), plain)
    for typed, key in TYPED.items():
        plain = plain.replace(typed, key)
    return plain.strip()


def _unreadable(text: str, tidy: str, kind: str, example: str) -> UnitError:
    """Why a text is no measure: a decimal comma, a missing unit, or something else."""
    if re.search(r"\d,\d", tidy):
        return UnitError(f"{shown(text)} has a comma in its number", f'Write a full stop for decimals: "{example}".')
    if NUMBER.fullmatch(tidy):
        return UnitError(f"{shown(text)} has no unit", f'Write {kind} with its unit, such as "{example}".')
    return UnitError(f"{shown(text)} can't be read as {kind}", f'Write a number and a unit, such as "{example}".')


def _number(text: str) -> Fraction:
    """A decimal, a fraction or a whole number with a fraction, exactly."""
    match = NUMBER.fullmatch(text)
    if match is None:
        raise UnitError(f"{shown(text)} is not a number", 'Write "8", "0.5", "5/16" or "1 3/8".')
    if match["plain"] is not None:
        return Fraction(match["plain"].rstrip("."))
    top, bottom, whole = int(match["top"]), int(match["bottom"]), int(match["whole"] or 0)
    if bottom == 0 or (match["whole"] is not None and top >= bottom):
        raise UnitError(f"{shown(text)} is not a fraction", 'Write it as "5/16" or "1 3/8".')
    return (-1 if match["sign"] == "-" else 1) * (whole + Fraction(top, bottom))


def _unit(text: object, name: str, own: Unit, kind: str, example: str) -> Unit:
    """The unit that is called so, where it measures the same as the tool's own."""
    spoken = {'"': "in", "'": "ft", "°": "deg", "°C": "degC", "°F": "degF"}.get(name, name)
    if own.powers == TEMPERATURE:
        spoken = {"C": "degC", "F": "degF"}.get(spoken, spoken)
    unit = _called(spoken)
    if unit is None:
        raise UnitError(f"{shown(text)}: {shown(name)} is not a known unit", _units_for(kind, example))
    if unit.powers != own.powers:
        what = f"is {KINDS[unit.powers]}, but {kind} is needed" if unit.powers in KINDS else f"is not {kind}"
        raise UnitError(f"{shown(text)} {what}", _units_for(kind, example))
    return unit


def _called(name: str) -> Unit | None:
    """The unit of a name, or of names that multiply and divide: "kg", "pounds", "g/m", "lb/100 ft"; None if none."""
    above, _, below = name.partition("/")
    each, per_hundred = re.subn(r"^\s*100\s*", "", below)
    tops, bottoms = [[_single(word) for word in side.split()] for side in (above, each)]
    if len(tops) == 1 and not bottoms:
        return tops[0]
    if any(unit is None or unit.zero or unit.powers == ANGLE for unit in tops + bottoms):
        return None
    whole = Unit(name, Fraction(1, 100 if per_hundred else 1), ANGLE)
    for unit, power in [*((unit, 1) for unit in tops), *((unit, -1) for unit in bottoms)]:
        whole = whole.times(cast(Unit, unit), power)
    return whole


def _single(word: str) -> Unit | None:
    """The unit of one word, in the singular or the plural; a single letter has no plural."""
    return UNITS.get(word) or (UNITS.get(word[:-1]) if word.endswith("s") and len(word) > 2 else None)


def _units_for(kind: str, example: str) -> str:
    """The units a kind of measure may be written in."""
    known = {
        "a length": "mm, cm, m, in or ft",
        "a force": "N, daN, kN, kgf or lbf",
        "a time": "s, min, h or day",
        "an angle": "deg or rad",
        "a mass per length": "g/m, ktex, lb/ft or lb/100 ft",
        "a temperature": "degC or degF",
    }
    return f'Write {kind} in {known[kind]}, such as "{example}".'


def _falling(text: object, numbers: list[Fraction], sizes: list[Fraction]) -> None:
    """Refuse "3 in 2 ft", "2 ft -3 in" and "7 d 3 mm": parts go from the larger unit to the smaller."""
    falls = all(a > b for a, b in pairwise(sizes))
    if not falls or any(number < 0 for number in numbers[1:]) or (numbers[0] < 0 and len(numbers) > 1):
        raise UnitError(
            f"{shown(text)} mixes units in the wrong order", 'Write the larger unit first, such as "2 ft 3 in".'
        )


def shown(value: object) -> str:
    """A value of the user's, safe to print on one line and no longer than a measure may be."""
    if isinstance(value, dict | list):
        return "a table" if isinstance(value, dict) else "a list"
    text = f'"{value}"' if isinstance(value, str) and value.isprintable() else repr(value)
    return text if len(text) <= LONGEST + 2 else f"{text[:LONGEST]}..."


def is_imperial(unit: str) -> bool:
    """Whether a length unit belongs to inches and feet."""
    return unit in IMPERIAL


def on_tape(mm: float, division_mm: float, rounding: Rounding) -> int:
    """How many divisions of the tape: a least length goes up, a greatest down, any other to the nearest."""
    count = mm / division_mm
    slip = 1e-9 + 1e-12 * abs(count)
    whole: dict[Rounding, Callable[[], int]] = {
        "up": lambda: math.ceil(count - slip),
        "down": lambda: math.floor(count + slip),
        "nearest": lambda: math.floor(count + 0.5),
    }
    return whole[rounding]()


def on_tape_mm(mm: float, division_mm: float, rounding: Rounding) -> float:
    """A length in mm, rounded to the tape's division."""
    return on_tape(mm, division_mm, rounding) * division_mm


def show_length(mm: float, unit: str, division_mm: float, rounding: Rounding = "nearest") -> str:
    """A length for the bench: "864 mm", or "34 1/16 in" where the user works in inches."""
    if is_imperial(unit):
        return _inches(on_tape(mm, division_mm, rounding) * Fraction(division_mm / INCH_MM).limit_denominator(128))
    return f"{_plain(on_tape_mm(mm, division_mm, rounding))} mm"


def show_tension(n: float, unit: str) -> str:
    """A tension for the bench, with the mass that pulls as hard where it hangs: "125 N (12.7 kg)", or in lb."""
    hung, name = ("lbf", "lb") if is_imperial(unit) else ("kgf", "kg")
    mass = n * float(UNITS["N"].size / UNITS[hung].size)
    pull = f"{n / 1000:.4g} kN" if n >= 10_000 else f"{n:.4g} N"
    return f"{pull} ({float(f'{mass:.3g}'):g} {name})"


def show_duration(measure: Measure) -> str:
    """A time in the unit that it was written in: "30 min"."""
    return f"{_plain(measure.value / float(UNITS[measure.unit].size))} {measure.unit}"


def other_unit(unit: str) -> str:
    """The unit of the other system."""
    return "mm" if is_imperial(unit) else "in"


def default_division(unit: str) -> float:
    """The usual finest division of a tape in this unit, mm: 1/16 in or 1 mm."""
    return INCH_MM / 16 if is_imperial(unit) else 1.0


def radians(degrees: float) -> float:
    """Degrees as radians."""
    return math.radians(degrees)


def _inches(inches: Fraction) -> str:
    """Whole inches and a reduced fraction: "34 1/16 in"."""
    sign = "-" if inches < 0 else ""
    whole, part = divmod(abs(inches), 1)
    words = [str(whole)] if whole or not part else []
    words += [f"{part.numerator}/{part.denominator}"] if part else []
    return f"{sign}{' '.join(words)} in"


def _plain(value: float) -> str:
    """A number without needless zeros, to a hundredth."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
