"""The card: the whole splice in at most twelve lines, its figures those of the plan."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from fidpath.cli import main as cli
from fidpath.errors import JobError
from fidpath.job.job import StitchPattern
from fidpath.job.reader import read_job
from fidpath.job.splice_kinds import splices
from fidpath.methods.card import card, card_lines
from fidpath.methods.lock_placeholders import OF_A_LOCK
from fidpath.methods.method_head import read_head
from fidpath.methods.registry import head_of, method_names, method_of
from fidpath.planning.mark_figures import marks
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.planning.shown import shown
from jobs import a_job

SCENES = sorted((Path(__file__).parents[2] / "scenes").glob("*.toml"))
DEMO = next(scene for scene in SCENES if scene.stem == "demo")


def carded(plan: Plan, both_units: bool = False) -> tuple[str, ...]:
    """The lines of a plan's card."""
    return card_lines(method_of(plan.job.line.ends[0].splice), plan, both_units)


@pytest.mark.parametrize("scene", SCENES, ids=lambda path: path.stem)
def test_every_card_keeps_to_twelve_lines_and_has_every_mark_of_its_plan(scene: Path) -> None:
    plan = make_plan(read_job(scene))
    lines = carded(plan)
    assert 5 <= len(lines) <= 12
    assert max(len(line) for line in lines) <= 135
    for mark in marks(plan):
        assert shown(mark, plan) in " ".join(lines), mark.name


def test_crossings_are_counted_along_one_line() -> None:
    """They lie 2P/N apart (counting): 280 mm of 7 d pitch at 12 strands are 24 of them."""
    plan = make_plan(read_job(DEMO))
    (line,) = [line for line in carded(plan) if "H2" in line and "crossings" in line]
    assert re.search(r"H2 280 mm = 24 crossings", line) and line.endswith("E 47 mm = 4 crossings.")


def test_both_units_stand_side_by_side_and_a_tension_once() -> None:
    lines = carded(make_plan(read_job(DEMO)), both_units=True)
    assert "H2 280 mm (11 in)" in lines[2]
    assert lines[0].count("125 N") == 1 and "125 N (12.7 kg)" in lines[0]


def test_the_pattern_of_the_lock_stitch_is_the_practices_own() -> None:
    job = a_job()
    own = StitchPattern(11, 0.5, "waxed thread", "maker: data sheet")
    stitched = make_plan(replace(job, practice=replace(job.practice, stitch=own)))
    assert "11 stitches 5 mm apart, waxed thread" in " ".join(carded(stitched))
    none = make_plan(replace(job, practice=replace(job.practice, stitch=None)))
    assert "titch" not in " ".join(carded(none))


def test_figures_that_hang_on_a_guessed_pitch_carry_a_question_mark() -> None:
    job = a_job()
    text = card(method_of("locked-captive"), make_plan(replace(job, rope=replace(job.rope, pitch_guessed=True))))
    assert "shortens by 74 mm?" in text and re.search(r"\d\? crossings", text) and "720 mm?" not in text
    assert "? depends on the pitch" in text
    assert "?" not in card(method_of("locked-captive"), make_plan(job))


def test_plan_prints_the_card_and_at_most_45_lines(capsys: pytest.CaptureFixture[str]) -> None:
    for scene in SCENES:
        assert cli.main(["plan", str(scene)]) == 0
        said = capsys.readouterr().out
        assert cli.main(["card", str(scene)]) == 0
        assert said.startswith(capsys.readouterr().out) and "CAUTIONS" in said
        assert len(said.splitlines()) <= 45
    assert cli.main(["plan", "--full", str(DEMO)]) == 0
    assert "formula" not in said and "= 72 d [" in capsys.readouterr().out


@pytest.mark.parametrize("name", method_names())
def test_the_head_read_alone_is_the_methods_own(name: str) -> None:
    method, head = method_of(name), head_of(name)
    assert (head.name, head.title, head.card) == (method.name, method.title, method.card)
    assert len(head.card) > 5


def test_the_head_is_judged_on_its_own_lines_and_the_steps_arent(tmp_path: Path) -> None:
    text = splices()["locked-captive"].file.read_text(encoding="utf-8")
    file = tmp_path / "method.toml"
    late = '\n[[card]]\nsay = "Measure {nothing}."\n'
    file.write_text(text.replace("number = 1\n", 'number = "one"\n', 1) + late, encoding="utf-8")
    with pytest.raises(JobError, match="there is no figure") as refused:
        read_head(file, OF_A_LOCK)
    assert refused.value.line == text.count("\n") + 3
    file.write_text(file.read_text(encoding="utf-8").removesuffix(late), encoding="utf-8")
    assert read_head(file, OF_A_LOCK) == head_of("locked-captive")
