"""A line between two ends: what adds up to the rope to cut, the marks, the order of making, and what is refused."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path

import pytest

from fidpath.cli import main as cli
from fidpath.errors import CannotBeMade, Exit, JobError
from fidpath.job.reader import parse_job, read_job
from fidpath.lines import line_sheet
from fidpath.lines.line import make_line
from fidpath.lines.uncertainty import TakeUpEstimate
from fidpath.methods.placeholders import figure_of
from fidpath.planning import printed_mm
from fidpath.planning.planner import make_plan
from lines import BACKSTAY, ROOT, SHROUD, backstay, changed, shroud

FREE = 'splice = "locked-free"'
CAPTIVE = 'splice = "locked-captive"'


def test_the_terms_add_up_to_the_rope_to_cut() -> None:
    for job in (shroud(), backstay()):
        line = make_line(job)
        assert sum(term.value for term in line.terms) == pytest.approx(line.rope_to_cut, abs=1e-9)


def test_the_rope_to_cut_is_the_plain_rope_and_what_either_end_holds() -> None:
    """The same length counted another way: rope at either end, tail and all, and plain rope between the tips."""
    line = make_line(shroud())
    held = sum(end.consumed + end.span + end.trim for end in line.ends)
    assert line.rope_to_cut == pytest.approx(line.plain + held, abs=1e-6)


def test_under_its_tension_the_line_measures_what_was_asked() -> None:
    line = make_line(shroud())
    growth = 0.002 + 0.009 * (6000 - 125) / 20000
    spans = sum(end.span for end in line.ends)
    assert line.plain * (1 + growth) + spans * (1 + growth / 2) == pytest.approx(9350.0, abs=1e-9)


def test_a_splice_consumes_what_its_own_plan_says() -> None:
    line = make_line(shroud())
    plan = make_plan(read_job(SHROUD))
    assert line.ends[0].consumed == pytest.approx(plan.rope_consumed)
    assert line.ends[0].take_up == pytest.approx(plan.take_up)
    assert sum(value for _, value in line.ends[0].parts) == pytest.approx(plan.rope_consumed)


def test_locked_either_way_the_same_rope_goes_in() -> None:
    captive = make_line(shroud((FREE, CAPTIVE)))
    assert captive.rope_to_cut == pytest.approx(make_line(shroud()).rope_to_cut)


def test_a_larger_take_up_takes_more_rope() -> None:
    job = shroud()
    more = make_line(job, TakeUpEstimate(1.2, 10.0, 0.05, 20.0, ("a",)))
    usual = make_line(job)
    assert more.rope_to_cut - usual.rope_to_cut == pytest.approx(0.2 * sum(end.take_up for end in usual.ends))
    tips = [next(m for m in line.marks if m.name == "upper end: tip").from_datum for line in (usual, more)]
    assert tips[1] - tips[0] == pytest.approx(0.2 * usual.ends[1].take_up)


def test_marks_run_from_one_datum_in_order_and_mirror_each_other() -> None:
    line = make_line(shroud(('eye_length = "110 mm"\n', ""), ('kind = "ring"', 'kind = "pin"'), *_pin()))
    places = [mark.from_datum for mark in line.marks]
    assert places == sorted(places)
    assert places[-1] == line.rope_to_cut
    names = [mark.name.split(": ")[-1] for mark in line.marks]
    assert names[:6] == ["tail_cut", "bury_mark", "H2", "H1", "entry", "tip"]
    assert names[6:] == ["tip", "entry", "H1", "H2", "bury_mark", "tail_cut", "cut"]
    assert line.marks[0].name.startswith("upper end")
    assert line.marks[6].from_datum - line.marks[5].from_datum == pytest.approx(line.plain)


def _pin() -> list[tuple[str, str]]:
    return [('groove_radius = "5.5 mm"\nwidth = "14 mm"\nhole = "32 mm"\n', 'width = "14 mm"\n')]


def test_the_end_that_needs_the_other_bare_goes_first() -> None:
    steps = make_line(shroud()).steps
    assert [(step.end, step.method) for step in steps] == [
        (1, "locked, both ends free"),
        (0, "locked, one end captive"),
    ]
    assert "bare" in steps[0].why


def test_a_fitting_goes_first_and_leaves_the_splice_for_last() -> None:
    steps = make_line(backstay()).steps
    assert [step.method for step in steps] == ["made-up fitting", "plain buried eye, no lock"]


def test_a_fitting_goes_last_where_the_splice_needs_both_ends_free() -> None:
    steps = make_line(backstay(('splice = "plain"', FREE))).steps
    assert [step.end for step in steps] == [0, 1]


def test_two_ends_cannot_both_be_made_with_both_free() -> None:
    job = parse_job(changed(SHROUD, (CAPTIVE, FREE)), "line.toml")
    with pytest.raises(CannotBeMade, match="once one is made"):
        make_line(job)


def test_buries_that_would_meet_are_refused_with_the_least_length() -> None:
    with pytest.raises(CannotBeMade) as refused:
        make_line(shroud(('finished_length = "9.350 m"', 'finished_length = "1.5 m"')))
    least = re.search(r"at least (\d+) mm", refused.value.what)
    assert least is not None
    assert refused.value.key == "line.finished_length"
    shortest = make_line(shroud(('finished_length = "9.350 m"', f'finished_length = "{least[1]} mm"')))
    assert 30 <= shortest.plain <= 32
    with pytest.raises(CannotBeMade):
        make_line(shroud(('finished_length = "9.350 m"', f'finished_length = "{int(least[1]) - 1} mm"')))


def test_what_the_data_sheet_does_not_give_is_left_out_and_said() -> None:
    line = make_line(backstay())
    assert line.growth.share == 0
    assert [text.split(":")[0] for text in line.growth.left_out] == ["bedding-in", "elastic stretch"]
    assert "LEFT OUT" in line_sheet.bench_sheet(line)


def test_a_stretch_without_its_tension_is_left_out() -> None:
    line = make_line(shroud(('stretch_tension = "20 kN"\n', "")))
    assert line.growth.stretch == 0
    assert "rope.stretch_tension" in line.growth.left_out[0]


def test_the_adjuster_covers_or_does_not() -> None:
    line = make_line(shroud())
    assert line.adjuster_covers is True
    tight = make_line(shroud(('lengthen = "60 mm"', 'lengthen = "10 mm"')))
    assert tight.adjuster_covers is False
    assert any("does not cover" in text for text in line_sheet.notices(tight))


def test_no_adjuster_is_said() -> None:
    text = changed(SHROUD, *[(row, "") for row in _adjuster_rows()])
    line = make_line(parse_job(text, "line.toml"))
    assert line.adjuster_covers is None
    assert "no adjuster" in line_sheet.bench_sheet(line)


def _adjuster_rows() -> list[str]:
    text = SHROUD.read_text(encoding="utf-8")
    found = re.search(r"\[line\.adjuster\].*?(?=\n\[\[)", text, re.DOTALL)
    assert found
    return [found.group()]


def test_a_higher_confidence_is_a_wider_interval() -> None:
    wide = make_line(shroud(('tension = "6 kN"', 'tension = "6 kN"\nconfidence = "99 %"')))
    assert wide.half > 1.25 * make_line(shroud()).half


def test_a_plain_eye_too_short_for_its_ring_is_refused() -> None:
    with pytest.raises(CannotBeMade, match="upper end: an eye of 60 mm is too short"):
        make_line(backstay(('eye_length = "150 mm"', 'eye_length = "60 mm"')))


def test_a_locked_end_that_cannot_be_names_its_end() -> None:
    with pytest.raises(CannotBeMade, match="upper end: ") as refused:
        make_line(shroud(('eye_length = "110 mm"', 'eye_length = "60 mm"')))
    assert refused.value.key == "line.ends[2].eye_length"


def test_what_the_second_end_is_refused_for_gets_its_line(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "line.toml"
    text = changed(SHROUD, ('eye_length = "110 mm"', 'eye_length = "60 mm"'))
    path.write_text(text, encoding="utf-8")
    assert cli.main(["line", str(path)]) == Exit.CANNOT_BE_MADE
    number = text.split('eye_length = "60 mm"')[0].count("\n") + 1
    assert capsys.readouterr().err.startswith(f"{path}:{number}: line.ends[2].eye_length: upper end: ")


@pytest.mark.parametrize(
    ("pairs", "key", "what"),
    [
        ([('finished_length = "9.350 m"', "")], "line.finished_length", "missing"),
        ([('finished_length = "9.350 m"', 'finished_length = "9"')], "line.finished_length", "no unit"),
        ([('shorten = "60 mm"', 'shorten = "-1 mm"')], "line.adjuster.shorten", "greater than zero"),
        ([('shorten = "60 mm"', 'shrten = "60 mm"')], "line.adjuster.shrten", "unknown key"),
        ([('width = "14 mm"', 'width = "4 mm"')], "line.ends[2].terminator.width", "narrower"),
        ([('width = "14 mm"', 'wdith = "14 mm"')], "line.ends[2].terminator.wdith", "unknown key"),
        ([('kind = "ring"', 'kind = "rng"')], "line.ends[2].terminator.kind", "not one of"),
        ([(FREE, 'splice = "fitting"')], "line.ends[2].splice", "made-up fitting needs fitting_length"),
        (
            [(CAPTIVE, 'splice = "fitting"\nfitting_length = "90 mm"')],
            "line.ends[1].splice",
            "first end must be a splice",
        ),
        ([('tension = "6 kN"', 'tension = "6 kN"\nconfidence = 0.2')], "line.confidence", "can't be"),
        ([('bedding_in = "0.2 %"', 'bedding_in = "80 %"')], "rope.bedding_in", "can't be"),
    ],
)
def test_what_a_line_may_not_say(pairs: list[tuple[str, str]], key: str, what: str) -> None:
    with pytest.raises(JobError, match=re.escape(what)) as refused:
        make_line(shroud(*pairs))
    assert refused.value.key == key
    assert refused.value.remedy


def test_one_end_is_no_line() -> None:
    with pytest.raises(JobError, match="one end"):
        make_line(read_job(ROOT / "scenes" / "demo.toml"))


def test_a_line_may_begin_with_a_plain_eye() -> None:
    assert read_job(BACKSTAY).line.ends[0].splice == "plain"


def test_a_second_end_needs_no_captive_end() -> None:
    assert shroud().line.captive_end == "upper end, once made"


def test_the_json_holds_every_figure_with_units() -> None:
    data = json.loads(line_sheet.as_json(make_line(shroud())))
    assert data["rope_to_cut_mm"] == pytest.approx(sum(term["value_mm"] for term in data["terms"]), abs=1e-4)
    assert all(term["source"] and term["uncertainty"] for term in data["terms"])
    assert data["adjuster"]["covers"] is True
    assert [entry["end"] for entry in data["order"]] == ["upper end", "lower end"]
    assert math.isclose(data["finished_half_width_mm"], make_line(shroud()).half, abs_tol=1e-6)


@pytest.mark.parametrize("mark", ["H2", "entry", "bury_mark"])
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_marks_of_an_end_are_as_far_apart_as_its_card_says(mark: str, unit: str) -> None:
    line = make_line(shroud())
    end = next(end for end in line.ends if end.name == "lower end")
    assert end.plan is not None
    found = {one.name: line_sheet.printed_place(line, one, unit) for one in line.marks}
    apart = abs(found[f"lower end: {mark}"] - found["lower end: H1"])
    assert apart == pytest.approx(printed_mm(figure_of(mark, end.plan), end.plan, unit))


def test_the_rope_to_cut_rounds_up_on_the_tape() -> None:
    line = make_line(shroud())
    shown = int(line_sheet.as_data(line)["rope_to_cut"].split()[0])
    assert 0 <= shown - line.rope_to_cut < 1


def test_the_command_line(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert cli.main(["line", str(SHROUD)]) == 0
    out = capsys.readouterr().out
    assert "Rope to cut: 11426 mm" in out
    assert "wide prior" in out
    short = tmp_path / "short.toml"
    short.write_text(changed(SHROUD, ('"9.350 m"', '"1.2 m"')), encoding="utf-8")
    assert cli.main(["line", str(short)]) == Exit.CANNOT_BE_MADE
    assert f"{short}:27: line.finished_length: the two buries would meet" in capsys.readouterr().err
