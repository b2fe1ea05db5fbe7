"""One truth at the bench: a figure has the same name and value wherever it is printed.

The figures are read back from sheet, JSON, card, steps, picture labels, page, mark strip, phone code and jigs, and
compared with the plan's own, in the job's unit and in the other one.
"""

from __future__ import annotations

import re
from functools import lru_cache
from pathlib import Path

import pytest

from fidpath.errors import CannotBeMade
from fidpath.job.reader import read_job
from fidpath.methods import card_lines, method_of, worded_method
from fidpath.methods.placeholders import DOT_AWAY, PLACE
from fidpath.outputs.handout.mark_strip import mark_label, strip_marks
from fidpath.outputs.handout.qr_code import code_text
from fidpath.outputs.handout.table_rows import measured_rows
from fidpath.outputs.jigs.catalogue import JIGS
from fidpath.outputs.page.content import tables
from fidpath.planning import Figure, figures, in_other_unit, lengths, marks, shown
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.planning.sheet import as_data, bench_table
from fidpath.scene.captions import mark_words
from fidpath.units import INCH_MM, read_length

NAMES = ("demo", "inches", "both-ends-free", "plain-eye", "sixteen-strand", "eight-strand-teardrop")
PLANS = [(name, other) for name in NAMES for other in (False, True)]

LENGTH = r"\d+(?:\.\d+)?(?: \d+/\d+)?(?:/\d+)? (?:mm|in)\b"
"""A length as it is printed."""

LETTERS = {"R": "rough_bury_mark", "H1": "H1", "H2": "H2", "E": "entry", "B": "bury_mark", "X": "tail_cut"}
"""The figure that places each mark."""

SAID = (
    (rf"R, the rough bury mark, ({LENGTH})", "rough_bury_mark"),
    (rf"rough bury mark R, ({LENGTH}) from the tail's end", "rough_bury_mark"),
    (rf"\bH1,? ({LENGTH})", "H1"),
    (rf"\bH2 ({LENGTH})", "H2"),
    (rf"\bH2 lies [a-z ]+, ({LENGTH}) by the tape", "H2"),
    (rf"\bB,? ({LENGTH})(?: from H1|\.)", "bury_mark"),
    (rf"\bE,? ({LENGTH})", "entry"),
    (rf"From H2's middle, E lies ({LENGTH}) away", "neck_on_standing_part"),
    (rf"From H2's middle, .* and B ({LENGTH}) on the tail", "neck_on_tail"),
    (rf"before setting it is ({LENGTH}) (?:more|less)", "line_past_h1"),
    (rf"The ({LENGTH}) of tail, squeezed", "bury_length"),
    (rf"\bX,? ({LENGTH})", "tail_cut"),
    (rf"From B to X: ({LENGTH})", "tail_cut"),
    (rf"Loop round [\w ]+: ({LENGTH})", "loop_before_lock"),
    (rf"[Tt]he loop is (?:then )?({LENGTH})", "loop_before_lock"),
    (rf"By the tape it is ({LENGTH})", "loop_before_lock"),
    (rf"Loop from H1 round to [\w ]+: ({LENGTH})", "loop_before_lock"),
    (rf"tail beside it, throat to crown ({LENGTH})", "wrapped_throat_to_crown"),
    (rf"Hold it ({LENGTH}) from throat to crown", "wrapped_throat_to_crown"),
    (rf"Tail in H1, throat to crown ({LENGTH})", "marking_throat_to_crown"),
    (rf"hold ({LENGTH}) from H1's middle", "marking_throat_to_crown"),
    (rf"of rope(?: from E round to B)?, throat to crown ({LENGTH})", "eye_length_to_crown"),
    (rf"H2 lies ({LENGTH}) back", "hole_gap"),
    (rf"one hole gap \(({LENGTH})\)", "hole_gap"),
    (rf"({LENGTH}) between the holes", "hole_gap"),
    (rf"the lock will take ({LENGTH})", "eye_lost_to_lock"),
    (rf"wide as a round hole of ({LENGTH})", "h2_opened"),
    (rf"two legs need ({LENGTH})", "h2_across"),
    (rf"no hole wider than ({LENGTH})", "most_across"),
    (rf"tip ({LENGTH}) from", "tip_in_standing_part"),
    (rf"The line shortens by ({LENGTH})", "take_up"),
    (rf"cover (?:is even and about )?({LENGTH})", "swollen_diameter"),
)
"""How card and steps name a figure, and which it is."""


@lru_cache(maxsize=32)
def plan_of(name: str, other: bool) -> Plan:
    plan = make_plan(read_job(Path("scenes") / f"{name}.toml"))
    return in_other_unit(plan) if other else plan


def by_name(plan: Plan) -> dict[str, Figure]:
    return {one.name: one for one in (*lengths(plan), *marks(plan), *figures(plan))}


def texts_of(plan: Plan) -> list[str]:
    """Every sentence of the plan's card and steps."""
    method = worded_method(method_of(plan.job.line.ends[0].splice), plan)
    steps = [text for step in method.steps for text in (step.caption, *step.instructions, step.check, step.caution)]
    return [*card_lines(method_of(plan.job.line.ends[0].splice), plan), *steps]


@pytest.fixture(params=PLANS, ids=lambda which: f"{which[0]}-{'other' if which[1] else 'own'}")
def plan(request: pytest.FixtureRequest) -> Plan:
    return plan_of(*request.param)


def test_card_and_steps_say_the_plans_figures(plan: Plan) -> None:
    known, found = by_name(plan), 0
    for text in texts_of(plan):
        for pattern, name in SAID:
            for value in re.findall(pattern, text):
                if name == "H1" and plan.lock is None:
                    continue
                assert value == shown(known[name], plan), (text, name)
                found += 1
    assert found >= (25 if plan.lock else 8)


def test_no_length_in_card_or_steps_is_a_stranger(plan: Plan) -> None:
    practice, d = plan.job.practice, plan.braid.diameter
    known = {shown(one, plan) for one in by_name(plan).values()}
    own = [DOT_AWAY * d, 2 * plan.pick, plan.taper.stagger, practice.post_stretch_share * plan.eye_length, 0.05 * d]
    if practice.stitch:
        own += [practice.stitch.spacing_diameters * d, practice.stitch.length_diameters * d]
    for text in texts_of(plan):
        for value in re.findall(LENGTH, text):
            near = min(abs(read_length(value).value - mm) for mm in own)
            off = abs(by_name(plan)["eye_slack"].value) if "eye_slack" in by_name(plan) else 0.0
            fit = abs(read_length(value).value - off) < 2 * plan.job.tools.tape_division_mm
            named = plan.job.terminator.name + plan.job.rope.name
            assert value in known or near <= plan.job.tools.tape_division_mm or fit or value in named, (text, value)


def test_counts_of_crossings_are_the_plans(plan: Plan) -> None:
    if plan.lock is None:
        return
    known = by_name(plan)
    to_h2, to_entry = (shown(known[name], plan) for name in ("crossings_to_h2", "crossings_to_entry"))
    counts = [count for text in texts_of(plan) for count in re.findall(r"(\d+) crossings\b", text)]
    assert set(counts) == {to_h2, to_entry} and counts.count(to_h2) >= 3
    assert any(f"or {to_entry} crossings from H1's middle the other way" in text for text in texts_of(plan))
    assert int(to_h2) * 2 == plan.lock.picks_h1_to_h2


def test_sheet_json_and_page_have_one_name_and_value_for_each(plan: Plan) -> None:
    text, data, page = bench_table(plan), as_data(plan), tables(plan)
    for kind, every in (("marks", marks(plan)), ("lengths", lengths(plan)), ("figures", figures(plan))):
        assert len(data[kind]) == len(page[kind]) == len(every)
        for figure, entry, row in zip(every, data[kind], page[kind], strict=True):
            for one in (entry, row):
                assert (one["name"], one["label"], one["shown"]) == (figure.name, figure.label, shown(figure, plan))
            assert re.search(rf"^  {re.escape(figure.label)} +{re.escape(shown(figure, plan))}( |$)", text, re.M)


def test_one_name_is_one_figure(plan: Plan) -> None:
    every = [*lengths(plan), *marks(plan), *figures(plan)]
    assert len({one.name for one in every}) == len(every)
    assert len({one.label for one in every}) == len(every)


def test_pictures_label_marks_with_the_plans_figures(plan: Plan) -> None:
    known, method = by_name(plan), method_of(plan.job.line.ends[0].splice)
    for letter in {mark for step in method.steps for mark in step.marks if mark in LETTERS}:
        words = mark_words(plan, letter, True)
        if plan.lock:
            assert shown(known[LETTERS[letter]], plan) in words, letter
            assert known[LETTERS[letter]].measured_from.partition(",")[0] in words


def test_the_strip_counts_from_h1_as_the_sheet_does(plan: Plan) -> None:
    at = {mark.letter: mark_label(mark, plan).removeprefix(mark.letter).strip() for mark in strip_marks(plan)}
    known = by_name(plan)

    def mm(name: str) -> float:
        return read_length(shown(known[name], plan)).value

    assert read_length(at["B"]).value == pytest.approx(mm("bury_mark"))
    assert at["X"] == f"B + {shown(known['tail_cut'], plan)}"
    assert read_length(at["tail's end"]).value == pytest.approx(mm("tail_to_lay_out"))
    for letter in (one for one in at if one.startswith("T")):
        assert at[letter] == f"B + {shown(known[f'taper_drop_{letter[1:]}'], plan)}"
    if plan.lock:
        assert at["H2"] == shown(known["H2"], plan) and at["H1"] == ""
        assert read_length(at["E"]).value == pytest.approx(-mm("entry"))
        away = DOT_AWAY * plan.braid.diameter
        assert at["R"] == "= B" and read_length(at["dot"]).value == pytest.approx(mm("H2") + away, abs=0.8)


def test_the_code_and_the_record_say_the_sheets_figures(plan: Plan) -> None:
    known = by_name(plan)
    text = code_text(plan, marks(plan))
    assert all(f": {shown(mark, plan)} from" in text for mark in marks(plan))
    assert all(row == known[row.name] for row in measured_rows(plan))


@pytest.mark.parametrize("name", ["demo", "inches", "both-ends-free"])
def test_jigs_keep_to_the_plans_figures(name: str) -> None:
    plan = plan_of(name, False)
    known, unit = by_name(plan), INCH_MM if plan.job.length_unit == "in" else 1.0
    crown = [known[n].value for n in ("eye_length_to_crown", "marking_throat_to_crown", "wrapped_throat_to_crown")]
    sizes, texts = [], []
    for make in JIGS.values():
        try:
            jig = make(plan)
        except CannotBeMade:
            continue
        sizes += [size for piece in jig.pieces for size in piece.sizes]
        texts += [text for piece in jig.pieces for text in piece.texts]
    held = [size.value for size in sizes if "crown's bearing" in size.label and "H2" not in size.label]
    assert held and all(min(abs(mm - value) for value in crown) < 0.05 for mm in held)
    engraved = " ".join(texts).replace("\n", " ")
    buried = [float(number) * unit for number in re.findall(r"BURY (\d+(?:\.\d+)?)\s(?:MM|IN)", engraved)]
    assert all(mm == pytest.approx(plan.bury_length, abs=0.05) for mm in buried)


def test_the_two_sides_of_a_sentence_are_looked_at() -> None:
    """Every figure of the marking that a method's words name is one that these tests read back somewhere."""
    for splice in ("locked-captive", "locked-free"):
        method = method_of(splice)
        first = [step for step in method.steps if step.state in ("laid-out", "wrapped", "marking", "tail-entering")]
        words = " ".join(text for step in first for text in (*step.instructions, step.check))
        assert set(PLACE.findall(words)) >= {"H1", "H2", "entry", "bury_mark", "loop_before_lock", "hole_gap"}


def test_no_word_draws_the_loop_up_before_the_lock_is_made() -> None:
    for splice in ("locked-captive", "locked-free"):
        method = method_of(splice)
        early = [step for step in method.steps if step.state in ("wrapped", "marking", "tail-entering")]
        for text in (t for step in early for t in (step.caption, *step.instructions, step.check, step.caution)):
            assert not re.search(r"snug|slack|tight", text), text
