"""Measures as people write them, in mm, N, radians and so on, and back again; the only importer of pint.

`read_length("1 3/8 in")` is `Measure(34.925, "in")`; `read_length("72 d")` stays in rope diameters until the
diameter is known. A bare number is refused, never guessed. pint is slow to import, so it waits for its first use.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    import pint

Rounding = Literal["up", "nearest", "down"]

LONGEST = 64
STANDARD_GRAVITY = 9.80665
"""N for each kg that hangs (standard gravity, exact)."""

LBF_N = 4.4482216152605
"""N for each lb that hangs (exact)."""

INCH_MM = 25.4
DEFINITIONS = """
millimeter = [length] = mm = millimeters = millimetre = millimetres
centimeter = 10 * millimeter = cm = centimeters = centimetre = centimetres
meter = 1000 * millimeter = m = meters = metre = metres
inch = 25.4 * millimeter = in = inches
foot = 12 * inch = ft = feet
yard = 3 * foot = yd = yards
fathom = 6 * foot = _ = fathoms
second = [time] = s
kilogram = [mass] = kg
gram = kilogram / 1000 = g
tonne = 1000 * kilogram = t
pound = 0.45359237 * kilogram = lb = lbs
newton = kilogram * meter / second ** 2 = N
decanewton = 10 * newton = daN
kilonewton = 1000 * newton = kN
kilogram_force = 9.80665 * newton = kgf
tonne_force = 1000 * kilogram_force = tf
pound_force = 4.4482216152605 * newton = lbf
kilopound_force = 1000 * pound_force = kip
tex = gram / (1000 * meter)
kilotex = 1000 * tex = ktex
radian = [] = rad
degree = 0.017453292519943295 * radian = deg = degrees
kelvin = [temperature]; offset: 0 = K
degree_Celsius = kelvin; offset: 273.15 = degC
degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9 = degF
"""
KINDS = {
    "millimeter": "a length",
    "kilogram": "a mass",
    "newton": "a force",
    "kilotex": "a mass per length",
    "kelvin": "a temperature",
    "second": "a time",
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


@lru_cache(maxsize=1)
def registry() -> pint.UnitRegistry[Fraction]:
    """The units people write on ropes, and no others: pint's own list would read "d" as a day."""
    from pint import UnitRegistry

    units: pint.UnitRegistry[Fraction] = UnitRegistry(None, cache_folder=None, non_int_type=Fraction)
    units.load_definitions(DEFINITIONS.strip().splitlines())
    return units


def read_length(text: object) -> Measure:
    """A length: "8 mm", "1 3/8 in", "2 ft 3 in", or "7 d" in rope diameters; UnitError if it is none."""
    return _read(text, "millimeter", "a length", "8 mm")


def read_force(text: object) -> Measure:
    """A force in N: "45 kN", "9000 lbf"; UnitError if it is none."""
    return _read(text, "newton", "a force", "45 kN")


def read_angle(text: object) -> Measure:
    """An angle in radians: "45 deg", "60°"; UnitError if it is none."""
    return _read(text, "radian", "an angle", "45 deg")


def read_density(text: object) -> Measure:
    """Mass per length in ktex: "52 g/m", "3.5 lb/100 ft"; UnitError if it is none."""
    return _read(text, "kilotex", "a mass per length", "52 g/m")


def read_temperature(text: object) -> Measure:
    """A temperature in degrees Celsius: "65 °C", "150 °F"; UnitError if it is none."""
    return _read(text, "degree_Celsius", "a temperature", "65 degC")


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
    if len(pairs) == 1 and pairs[0][1] == "d" and into == "millimeter":
        return Measure(float(pairs[0][0]), "d")
    if len(pairs) > 1 and into != "millimeter":
        raise UnitError(f"{shown(text)} is more than one measure", f'Write one number and unit, such as "{example}".')
    units = [_unit(text, name, into, kind, example) for _, name in pairs]
    values = [_converted(number, unit, into) for (number, _), unit in zip(pairs, units, strict=True)]
    _falling(text, [number for number, _ in pairs], [_converted(Fraction(1), unit, into) for unit in units])
    return Measure(float(sum(values)), short(units[-1]))


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
            f"{shown(text[:16])}... is too long for a measure", 'Write a number and a unit, such as "8 mm".'
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


def _unit(text: object, name: str, into: str, kind: str, example: str) -> str:
    """The registry's name of a unit that measures the same as `into`."""
    import pint

    units = registry()
    spoken = {'"': "in", "'": "ft", "°": "deg", "°C": "degC", "°F": "degF"}.get(name, name)
    if into == "degree_Celsius":
        spoken = {"C": "degC", "F": "degF"}.get(spoken, spoken)
    try:
        unit = units.Unit(_per_one(spoken))
    except (pint.errors.UndefinedUnitError, pint.errors.DefinitionSyntaxError, ValueError, TypeError):
        raise UnitError(f"{shown(text)}: {shown(name)} is no unit known here", _units_for(kind, example)) from None
    if unit.dimensionality != units.Unit(into).dimensionality:
        same = [said for name, said in KINDS.items() if units.Unit(name).dimensionality == unit.dimensionality]
        what = f"is {same[0]}, and {kind} is wanted" if same else f"is not {kind}"
        raise UnitError(f"{shown(text)} {what}", _units_for(kind, example))
    return spoken


def _units_for(kind: str, example: str) -> str:
    """The units a kind of measure may be written in."""
    known = {
        "a length": "mm, cm, m, in or ft",
        "a force": "N, daN, kN, kgf or lbf",
        "an angle": "deg or rad",
        "a mass per length": "g/m, ktex, lb/ft or lb/100 ft",
        "a temperature": "degC or degF",
    }
    return f'Write {kind} in {known[kind]}, such as "{example}".'


def _converted(number: Fraction, unit: str, into: str) -> Fraction:
    """A number of some unit as a number of the tool's own, exactly."""
    value = Fraction(registry().Quantity(number, _per_one(unit)).to(into).magnitude)
    return value / 100 if _per_one(unit) != unit else value


def _per_one(unit: str) -> str:
    """Mass per hundred units of length, as if per one: "lb/ft" for "lb/100 ft"."""
    return re.sub(r"/\s*100\s*", "/", unit)


def short(unit: str) -> str:
    """A unit as its abbreviation: "in" for "inches", "kN"; a compound one as it is written."""
    return unit if "/" in unit else str(registry().get_symbol(unit))


def _falling(text: object, numbers: list[Fraction], sizes: list[Fraction]) -> None:
    """Refuse "3 in 2 ft", "2 ft -3 in" and "7 d 3 mm": parts go from the larger unit to the smaller."""
    falls = all(a > b for a, b in pairwise(sizes))
    if not falls or any(number < 0 for number in numbers[1:]) or (numbers[0] < 0 and len(numbers) > 1):
        raise UnitError(f"{shown(text)} mixes its units", 'Write the larger unit first, such as "2 ft 3 in".')


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
    mass, name = (n / LBF_N, "lb") if is_imperial(unit) else (n / STANDARD_GRAVITY, "kg")
    return f"{n:.4g} N ({mass:.3g} {name})"


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
