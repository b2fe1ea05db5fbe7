"""Units, tape rounding and reference tension, against definitions and documents."""

import pytest

from fidpath import units
from fidpath.job.reader import parse_job
from fidpath.job.rules import reference_tension_n, rule
from fidpath.job.template import template


def test_a_sixteenth_of_an_inch() -> None:
    """1/16 in is 1.5875 mm: by definition of the inch."""
    assert units.read_length("1/16 in").value == 1.5875


def test_a_pound_force() -> None:
    """1 lbf is 4.4482216152605 N: by definition."""
    assert units.read_force("1 lbf").value == 4.4482216152605


def test_a_least_length_rounds_up_on_the_tape() -> None:
    """864 mm in sixteenths is 34 1/16 in, as 34 in would be short: arithmetic."""
    assert units.show_length(864.0, "in", 25.4 / 16, "up") == "34 1/16 in"
    assert units.on_tape_mm(864.0, 25.4 / 16, "up") >= 864.0
    assert units.show_length(34 * 25.4, "in", 25.4 / 16, "up") == "34 in"


def test_reference_tension() -> None:
    """d^2/8 daN, 180 N at 12 mm: ISO 2307 Annex A, from memory."""
    assert reference_tension_n(12.0) == 180.0
    assert "ISO 2307 Annex A, from memory" in rule("reference_tension").source


def test_the_other_reference_tension_agrees_in_size() -> None:
    """200 D^2 lbf, D in inches, 222.411081 N at 1/2 in: Cordage Institute CI 1500, from memory.

    The two documents differ by a tenth; a rule that slipped by a unit would be out by far more.
    """
    pounds = units.read_force("50 lbf").value
    assert pounds == pytest.approx(222.411081, rel=1e-6)
    assert reference_tension_n(12.7) == pytest.approx(pounds, rel=0.12)


@pytest.mark.parametrize(("diameter", "bury"), [("8 mm", 576.0), ("12 mm", 864.0)])
def test_bury(diameter: str, bury: float) -> None:
    """72 d is 576 mm on 8 mm rope, 864 mm on 12 mm: common practice, no source."""
    text = template("x").replace('diameter = "10 mm"', f'diameter = "{diameter}"')
    job = parse_job(
        text.replace('fids = ["8 mm", "12 mm"]', 'fids = ["6.4 mm", "9.5 mm", "14 mm"]').replace(
            'groove_radius = "5.5 mm"', 'groove_radius = "7 mm"'
        )
    )
    assert job.practice.bury_diameters * job.rope.diameter_mm == bury


def test_fid_length() -> None:
    """21 to 22 rope diameters, 266.7 to 279.4 mm at 12.7 mm: Wikipedia, article Fid (5 %)."""
    assert rule("fid_length_least").value * 12.7 == pytest.approx(266.7, rel=0.05)
    assert rule("fid_length_most").value * 12.7 == pytest.approx(279.4, rel=0.05)


def test_limits_from_documents() -> None:
    """60 deg: 29 CFR 1926.251(d)(2). 2 d: ISO 2307:2010, 5.1. 5 D: Naval Ships' Technical Manual 613-2.5.1."""
    assert (rule("throat_angle_most").value, rule("throat_angle_most").unit) == (60, "deg")
    assert (rule("bearing_least").value, rule("bearing_least").unit) == (2, "d")
    assert (rule("eye_preferred").value, rule("eye_preferred").unit) == (5, "D")
