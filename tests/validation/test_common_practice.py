"""Figures of the trade. Every one of them: common practice, no source."""

from __future__ import annotations

import pytest

from fidpath.errors import CannotBeMade
from fidpath.plan import make_plan, openings_of
from fidpath.practice_rules import rule
from jobs import a_job


@pytest.mark.parametrize(("d", "bury"), [(8.0, 576.0), (12.0, 864.0)])
def test_bury_of_seventy_two_diameters(d: float, bury: float) -> None:
    assert rule("bury").value == 72
    assert rule("bury").source == "common practice, no source"
    assert make_plan(a_job(d=d)).bury_length == pytest.approx(bury)


@pytest.mark.parametrize("d", [7.0, 8.0, 9.0])
def test_second_mark_about_a_quarter_inch_on_from_the_pass(d: float) -> None:
    # Common practice, no source: about 6.4 mm on ropes of 7 to 9 mm; the plan's default is one diameter.
    assert 5.0 < make_plan(a_job(d=d)).hole_gap < 10.0


@pytest.mark.parametrize("d", [7.0, 8.0, 9.0])
def test_fids_of_a_quarter_and_three_eighths_inch_serve_these_ropes(d: float) -> None:
    from dataclasses import replace

    from fidpath.job import Tools

    job = replace(a_job(d=d), tools=Tools((6.35, 9.525), 1.0))
    chosen = openings_of(job)
    assert (chosen.first_fid, chosen.second_fid) == (6.35, 9.525)


def test_a_fid_too_thick_is_refused() -> None:
    from dataclasses import replace

    from fidpath.job import Tools

    with pytest.raises(CannotBeMade, match="no fid at hand"):
        openings_of(replace(a_job(d=8.0), tools=Tools((6.4, 20.0), 1.0)))
