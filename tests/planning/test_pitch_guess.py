"""A pitch nobody has measured: planned with a guess that is called one, or counted along the rope."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from fidpath.errors import JobError
from fidpath.job.reader import parse_job
from fidpath.planning.length_figures import lengths
from fidpath.planning.mark_figures import marks
from fidpath.planning.notices import warnings
from fidpath.planning.pitch_guess import spreads
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.planning.sheet import as_data, bench_table

DEMO = (Path(__file__).parents[2] / "scenes" / "demo.toml").read_text(encoding="utf-8")


def planned(pitch: str) -> Plan:
    """The demo's plan with these lines in place of its pitch."""
    return make_plan(parse_job(re.sub(r"^pitch = .*$", pitch, DEMO, flags=re.MULTILINE)))


def test_a_count_along_the_rope_gives_the_pitch() -> None:
    """Crossings along one line lie 2P/N apart (counting): 20 over 233 mm at 12 strands are 69.9 mm of pitch."""
    plan = planned('crossings = 20\nover = "233 mm"')
    assert plan.braid.pitch == pytest.approx(233 / 20 * 12 / 2)
    assert spreads(plan) == {} and not plan.job.rope.pitch_guessed
    assert planned('pitch = "unknown"\ncrossings = 20\nover = "233 mm"').braid.pitch == plan.braid.pitch


def test_a_guess_is_called_one_and_says_what_hangs_on_it() -> None:
    plan = planned('pitch = "unknown"')
    assert plan.braid.pitch == 7 * plan.braid.diameter
    (notice,) = [one for one in warnings(plan) if one.name == "pitch"]
    assert "guess" in notice.text and "Count crossings" in notice.text and "54 to 107 mm" in notice.text
    assert as_data(plan)["pitch_guessed"] is True


@pytest.mark.parametrize("name", ["take_up", "rope_consumed", "entry", "bury_mark", "tip_in_standing_part"])
def test_a_figure_that_hangs_on_the_guess_runs_as_far_as_the_pitches_take_it(name: str) -> None:
    def value(plan: Plan) -> float:
        return next(figure.value for figure in (*lengths(plan), *marks(plan)) if figure.name == name)

    found = spreads(planned('pitch = "unknown"'))[name]
    ends = [value(planned(f'pitch = "{pitch} d"')) for pitch in (6, 7, 8)]
    assert (found.least, found.most) == pytest.approx((min(ends), max(ends)))


def test_the_sheet_marks_what_hangs_on_the_guess_and_nothing_else() -> None:
    text = bench_table(planned('pitch = "unknown"'))
    after = text[text.index("take-up of the cover") :].split("\n  bury", 1)[0]
    assert "depends on the guessed pitch: 54 to 107 mm" in after
    bury = text[text.index("\n  bury  ") :].split("\n  standing part", 1)[0]
    assert "guess" not in bury
    assert "guess" not in bench_table(planned('pitch = "7 d"'))


@pytest.mark.parametrize(
    ("pitch", "key", "what"),
    [
        ("", "rope.pitch", "missing"),
        ("crossings = 20", "rope.over", "missing"),
        ('over = "233 mm"', "rope.crossings", "missing"),
        ('pitch = "7 d"\ncrossings = 20\nover = "233 mm"', "rope.pitch", "two ways"),
        ('crossings = 2\nover = "23 mm"', "rope.crossings", "a count of 2"),
        ('crossings = 20\nover = "900 mm"', "rope.crossings", "too long"),
        ('crossings = 20\nover = "40 mm"', "rope.crossings", "too short"),
        ('pitch = "unknow"', "rope.pitch", "can't be read"),
    ],
)
def test_no_message_proposes_a_pitch(pitch: str, key: str, what: str) -> None:
    with pytest.raises(JobError) as refused:
        planned(pitch)
    assert refused.value.key == key and what in refused.value.what
    assert "7 d" not in (refused.value.remedy or "")
