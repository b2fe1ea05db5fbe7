"""Measures as people write them, and back."""

import math
import re

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fidpath import units
from fidpath.units import INCH_MM, Measure, UnitError


@pytest.mark.parametrize(
    ("text", "mm", "unit"),
    [
        ("8 mm", 8.0, "mm"),
        ("8mm", 8.0, "mm"),
        (" 8  mm ", 8.0, "mm"),
        ("8\u00a0mm", 8.0, "mm"),
        ("0.5 m", 500.0, "m"),
        (".5 in", 12.7, "in"),
        ("12 cm", 120.0, "cm"),
        ("5/16 in", 7.9375, "in"),
        ("1 3/8 in", 34.925, "in"),
        ('1-3/8"', 34.925, "in"),
        ("1⅜ in", 34.925, "in"),
        ("1 ⅜ in", 34.925, "in"),
        ("⅜ in", 9.525, "in"),
        ("1⅜″", 34.925, "in"),
        ("3\u20448 inch", 9.525, "in"),
        ("2 ft 3 in", 685.8, "in"),
        ("2 feet, 3 inches", 685.8, "in"),
        ("2 ft-3 in", 685.8, "in"),
        ("2' 3\"", 685.8, "in"),
        ("2'-3 1/2\"", 698.5, "in"),
        ("2′ 3″", 685.8, "in"),
        ("2 m 30 cm", 2300.0, "cm"),
        ("-8 mm", -8.0, "mm"),
        ("\u22121 3/8 in", -34.925, "in"),
        ("7 d", 7.0, "d"),
        ("72d", 72.0, "d"),
    ],
)
def test_lengths_as_people_write_them(text: str, mm: float, unit: str) -> None:
    assert units.read_length(text) == Measure(mm, unit)


@pytest.mark.parametrize("bare", ["8", "0.5", "3/8", "1⅜", 8, 8.0, 0])
def test_a_bare_number_is_refused(bare: object) -> None:
    with pytest.raises(UnitError, match="has no unit") as refused:
        units.read_length(bare)
    assert "8 mm" in refused.value.remedy


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("8 kg", "is a mass, but a length is needed"),
        ("8 kN", "is a force, but a length is needed"),
        ("8 mm mm", "is not a length"),
        ("8 mm deg", '"mm deg" is not a known unit'),
        ("8 ms", '"ms" is not a known unit'),
        ("8 furlong", '"furlong" is not a known unit'),
        ("8 MM", '"MM" is not a known unit'),
        ("8,5 mm", "has a comma in its number"),
        ("1/0 in", "is not a fraction"),
        ("1 5/4 in", "is not a fraction"),
        ("3 in 2 ft", "mixes units in the wrong order"),
        ("2 ft --3 in", "can't be read as a length"),
        ("-2 ft 3 in", "mixes units in the wrong order"),
        ("7 d 3 mm", "not a known unit"),
        ("", "can't be read as a length"),
        ("mm", "can't be read as a length"),
        ("nan mm", "can't be read as a length"),
        ("8 mm-", "can't be read as a length"),
        ("٣ mm", "can't be read as a length"),
        ("9" * 80 + " mm", "is too long"),
        (True, "is not a length"),
        (None, "is not a length"),
        (["8 mm"], "is not a length"),
    ],
)
def test_what_is_no_length_is_refused(text: object, what: str) -> None:
    with pytest.raises(UnitError, match=re.escape(what)) as refused:
        units.read_length(text)
    assert refused.value.remedy


def test_other_measures() -> None:
    assert units.read_force("45 kN") == Measure(45000.0, "kN")
    assert units.read_force("18 daN").value == 180.0
    assert units.read_force("1 kgf").value == 9.80665
    assert units.read_angle("60°").value == units.read_angle("60 deg").value == pytest.approx(math.pi / 3, rel=1e-15)
    assert units.read_density("52 g/m").value == units.read_density("52 ktex").value == 52.0
    assert units.read_density("3.5 lb/100 ft").value == pytest.approx(3.5 * 453.59237 / 30.48, rel=1e-12)
    assert units.read_temperature("149 °F") == Measure(65.0, "degF")
    assert units.read_temperature("65 °C") == units.read_temperature("65 degC") == units.read_temperature("65 C")
    assert units.read_share("75 %") == Measure(0.75, "%")
    assert units.read_share(0.75) == Measure(0.75, "")


@pytest.mark.parametrize(
    ("read", "text", "what"),
    [
        (units.read_force, "9000 lb", "is a mass, but a force is needed"),
        (units.read_force, 9000, "has no unit"),
        (units.read_force, "7 d", "not a known unit"),
        (units.read_angle, "60 mm", "is a length, but an angle is needed"),
        (units.read_density, "52 g", "is a mass, but a mass per length is needed"),
        (units.read_temperature, "65 mm", "is a length, but a temperature is needed"),
        (units.read_force, "1 kN 20 N", "more than one measure"),
        (units.read_density, "52 g per m", '"g per m" is not a known unit'),
        (units.read_temperature, "65 degC/rad", '"degC/rad" is not a known unit'),
        (units.read_temperature, "65 degC m/m", '"degC m/m" is not a known unit'),
        (units.read_share, "75", "is not a share"),
        (units.read_share, True, "is not a share"),
        (units.read_share, "lots %", "is not a share"),
    ],
)
def test_other_measures_refused(read: object, text: object, what: str) -> None:
    assert callable(read)
    with pytest.raises(UnitError, match=re.escape(what)):
        read(text)


@pytest.fixture(scope="module")
def general() -> pint.UnitRegistry:
    return pint.UnitRegistry(cache_folder=None)


@pytest.mark.parametrize("unit", dict.fromkeys(units.UNITS.values()), ids=lambda unit: unit.symbol)
def test_sizes_are_those_of_a_general_list_of_units(unit: units.Unit, general: pint.UnitRegistry) -> None:
    """pint's list, made by others, has the same size and the same zero for each. Its fathom is six feet of the US
    survey, longer by two parts in a million than six international feet.
    """
    near = 2.1e-6 if unit.symbol == "fathom" else 1e-12
    length, mass, temperature, time = unit.powers
    own = general.Unit(f"mm**{length} * kg**{mass} * K**{temperature} * s**{time}")
    for number in (0, 1, 250):
        theirs = general.Quantity(number, unit.symbol).to(own).magnitude
        assert float(number * unit.size + unit.zero) == pytest.approx(theirs, rel=near, abs=1e-12)


@pytest.mark.parametrize("unit", ["kgs/m", "kgs /m", "kgs/100m", "kg / 100 m", "lb/ 100 ft"])
def test_a_mass_per_length_as_people_write_it(unit: str) -> None:
    each = {"k": 1000.0, "l": 453.59237 / 0.3048}[unit[0]] / (100 if "100" in unit else 1)
    assert units.read_density(f"2 {unit}") == Measure(pytest.approx(2 * each, rel=1e-12), unit)


@pytest.mark.parametrize("plural", ["fathoms", "yards", "yds", "feet", "metres", "millimeters", "inches"])
def test_a_length_in_the_plural_keeps_its_symbol(plural: str) -> None:
    read = units.read_length(f"5 {plural}")
    assert read == units.read_length(f"5 {read.unit}")
    assert read.unit in {"fathom", "yd", "ft", "m", "mm", "in"}


def test_diameters_wait_for_the_rope() -> None:
    assert Measure(7.0, "d").mm(8.0) == 56.0
    assert Measure(56.0, "mm").mm(8.0) == 56.0
    assert Measure(56.0, "mm").diameters(8.0) == Measure(7.0, "d").diameters(8.0) == 7.0


@given(st.integers(0, 10_000_000))
def test_decimal_millimetres_are_exact(hundredths: int) -> None:
    text = f"{hundredths // 100}.{hundredths % 100:02d} mm"
    assert units.read_length(text).value == float(text.removesuffix(" mm"))


@given(st.integers(0, 500), st.integers(0, 15))
def test_sixteenths_come_back_as_written(whole: int, sixteenths: int) -> None:
    mm = units.read_length(f"{whole} {sixteenths}/16 in").value
    shown = units.show_length(mm, "in", INCH_MM / 16)
    assert units.read_length(shown).value == pytest.approx(mm, abs=1e-9)
    assert shown == units.show_length(mm, "in", INCH_MM / 16, "up") == units.show_length(mm, "in", INCH_MM / 16, "down")


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        read = units.read_length(text)
    except UnitError as refused:
        assert refused.what and refused.remedy
        assert "\n" not in refused.what
    else:
        assert math.isfinite(read.value)


@given(st.floats(0, 1e6), st.sampled_from([1.0, 0.5, INCH_MM / 16, INCH_MM / 32]))
def test_a_least_length_never_comes_out_short(mm: float, division: float) -> None:
    up = units.on_tape_mm(mm, division, "up")
    down = units.on_tape_mm(mm, division, "down")
    assert mm - 1e-6 <= up < mm + division + 1e-6
    assert mm - division - 1e-6 < down <= mm + 1e-6
    assert abs(units.on_tape_mm(mm, division, "nearest") - mm) <= division / 2 + 1e-6


def test_shown_in_the_users_unit() -> None:
    assert units.show_length(864.0, "mm", 1.0) == "864 mm"
    assert units.show_length(36.57, "mm", 0.1) == "36.6 mm"
    assert units.show_length(9.525, "in", INCH_MM / 16) == "3/8 in"
    assert units.show_length(0.0, "in", INCH_MM / 16) == "0 in"
    assert units.show_length(-9.525, "in", INCH_MM / 16) == "-3/8 in"
    assert units.show_length(-0.01, "mm", 1.0) == "0 mm"
    assert units.show_length(864.0, units.other_unit("mm"), INCH_MM / 16, "up") == "34 1/16 in"
    assert units.show_length(863.6, units.other_unit("in"), 1.0) == "864 mm"


def test_only_the_units_that_measure_ropes_are_known() -> None:
    """A general list reads "d" as a day, which would turn seven diameters into a week."""
    for text in ("3 d", "3 day", "3 lightyear", "3 px"):
        with pytest.raises(UnitError):
            units.read_force(text)
