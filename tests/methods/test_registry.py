"""Methods discovered by their folders: one made up here is listed, read and worded without touching anything else."""

from __future__ import annotations

import importlib
import re
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

import fidpath.methods
from fidpath.errors import Exit, JobError
from fidpath.job.reader import parse_job
from fidpath.job.splice_kinds import end_kinds, splices
from fidpath.job.template import template
from fidpath.methods.diagnosis import diagnose, diagnostics_of
from fidpath.methods.diagnosis_questions import SightingError
from fidpath.methods.lock_hints import LockMistake
from fidpath.methods.locked_captive import sightings
from fidpath.methods.locked_free import hints as free
from fidpath.methods.method import Method
from fidpath.methods.method_file import read_method
from fidpath.methods.plain_bury import hints as plain
from fidpath.methods.plain_bury.hints import PlainMistake
from fidpath.methods.registration import Registration
from fidpath.methods.registry import method_names, method_of, placeholders, registration_of
from fidpath.methods.wording import fill, worded_method
from fidpath.planning.planner import make_plan
from jobs import a_job

LOCK = method_of("locked-captive")
DATA = """\
schema = 2
name = "twice-locked"
title = "Lock tucked twice"
summary = "Made up for a test, and never to be made. Common practice, no source."

[splice]
words = "locked, and tucked again"
locked = true
needs_bare_end = false

[[steps]]
number = 1
state = "wrapped"
caption = "Wrap and count {tucks}"
instructions = ["Lay the rope round the {terminator}.", "Mark H1, {H1} from the tail's end."]
check = "The loop measures {loop_before_lock}."
views = [{ look = ["eye", "H1"], direction = [0.0, -0.4, 1.0] }]
"""
MODULE = """\
from fidpath.methods.lock_placeholders import OF_A_LOCK
from fidpath.methods.registration import Registration

REGISTRATION = Registration({**OF_A_LOCK, "tucks": lambda plan: f"{plan.braid.strands // 4} tucks"})
"""


@pytest.fixture
def twice_locked(tmp_path: Path) -> Iterator[Path]:
    """A folder of a method, beside those of the program."""
    folder = tmp_path / "twice_locked"
    folder.mkdir()
    (folder / "__init__.py").write_text(MODULE, encoding="utf-8")
    (folder / "method.toml").write_text(DATA, encoding="utf-8")
    fidpath.methods.__path__.append(str(tmp_path))
    importlib.invalidate_caches()
    yield folder
    fidpath.methods.__path__.remove(str(tmp_path))
    sys.modules.pop("fidpath.methods.twice_locked", None)


def a_line(splice: str) -> str:
    """The job that `fidpath new` writes, with a second end made so."""
    text = template("stay")
    return text.replace("\n[tools]", f'\n[[line.ends]]\nname = "upper end"\nsplice = "{splice}"\n\n[tools]')


def test_a_new_folder_is_a_new_method(twice_locked: Path) -> None:
    assert method_names() == ("locked-captive", "locked-free", "plain", "twice-locked")
    method = method_of("twice-locked")
    plan = make_plan(a_job())
    worded = worded_method(method, plan)
    assert worded.steps[0].caption == "Wrap and count 3 tucks"
    assert worded.steps[0].check == fill("The loop measures {loop_before_lock}.", plan)
    assert "{" not in " ".join(worded.steps[0].instructions)


def test_a_job_may_ask_for_the_new_method(twice_locked: Path) -> None:
    assert parse_job(a_line("twice-locked")).line.ends[1].splice == "twice-locked"
    assert '"twice-locked"' in template("stay")
    assert end_kinds() == ("locked-captive", "locked-free", "plain", "twice-locked", "fitting")


def test_without_its_folder_it_is_refused_by_name() -> None:
    with pytest.raises(JobError, match='"twice-locked" is not one of the choices') as refused:
        parse_job(a_line("twice-locked"))
    assert refused.value.key == "line.ends[2].splice"
    with pytest.raises(JobError, match='no method is called "twice-locked"'):
        method_of("twice-locked")


def test_a_folder_without_data_is_no_method(tmp_path: Path, twice_locked: Path) -> None:
    (tmp_path / "notes").mkdir()
    (tmp_path / "notes" / "__init__.py").write_text("", encoding="utf-8")
    assert "notes" not in method_names()


def test_a_methods_own_figures_are_its_own(twice_locked: Path) -> None:
    assert "tucks" in placeholders()
    with pytest.raises(JobError, match=r'there is no figure "\{tucks\}"'):
        read_method(twice_locked / "method.toml")


def test_the_head_of_the_data_says_what_the_whole_says() -> None:
    for kind, splice in splices().items():
        method = method_of(kind)
        assert (method.name, method.title) == (kind, splice.title)
        assert registration_of(kind).placeholders


def test_the_plain_eye_has_no_figures_of_the_lock() -> None:
    assert not {"H1", "hole_gap", "loop_before_lock"} & set(registration_of("plain").placeholders)


# Steps known by their state


def renumbered(tmp_path: Path, by: int = 1) -> Method:
    """The lock with a step put before its first, so that every number is another."""
    text = splices()["locked-captive"].file.read_text(encoding="utf-8")
    raised = re.sub(r"(?m)^number = (\d+)$", lambda found: f"number = {int(found[1]) + by}", text)
    first = text.index("[[steps]]")
    step = text[first : text.index("[[steps]]", first + 1)].replace('state = "laid-out"', 'state = "beforehand"')
    at = raised.index("[[steps]]")
    path = tmp_path / "method.toml"
    path.write_text(raised[:at] + step + raised[at:], encoding="utf-8")
    return read_method(path)


SEEN = (
    {"turns": "1", "hand": "right"},
    {"turns": "2", "hand": "left"},
    {"split-h1": "5/7", "loose": "3 picks"},
    {"bury": "40 d"},
    {"tight": "2 picks", "wont-go-in": "yes"},
)


@pytest.mark.parametrize("said", SEEN, ids=str)
def test_renumbered_steps_change_the_number_of_the_answer_alone(tmp_path: Path, said: dict[str, str]) -> None:
    other, plan = renumbered(tmp_path), make_plan(a_job())
    before = diagnose(LOCK, sightings.INSPECTION.read(LOCK, said, plan), plan)
    after = diagnose(other, sightings.INSPECTION.read(other, said, plan), plan)
    assert before.likely and len(before.likely) == len(after.likely)
    for one, same in zip(before.likely, after.likely, strict=True):
        assert (one.mistake.name, one.weight, one.why, one.how_far_off) == (
            same.mistake.name,
            same.weight,
            same.why,
            same.how_far_off,
        )
        assert same.mistake.step_number == one.mistake.step_number + 1
    assert before.look_next == after.look_next


def at_step(method: Method, step: int, turns: str) -> str:
    """What is answered to turns seen after a step: the mistakes by name, or the refusal."""
    said = {"at-step": str(step), "turns": turns}
    try:
        seen = sightings.INSPECTION.read(method, said, None)
        return ", ".join(one.mistake.name for one in diagnose(method, seen).likely) or "nothing"
    except SightingError as refused:
        return str(refused)


def test_renumbered_steps_are_asked_for_by_their_new_numbers(tmp_path: Path) -> None:
    other = renumbered(tmp_path)
    for step in range(1, 15):
        for turns in "012":
            was, now = at_step(LOCK, step, turns), at_step(other, step + 1, turns)
            assert now == re.sub(r"\bstep (\d+)", lambda found: f"step {int(found[1]) + 1}", was), (step, turns)
    assert sightings.INSPECTION.questions(other)[0].answer == "1 to 15"
    assert "The steps are 1 to 15" in at_step(other, 16, "0")


def test_every_state_and_mistake_that_code_names_is_in_the_data() -> None:
    states = {state for _, state, _ in sightings.INSPECTION.first_seen}
    states |= {sightings.TURNED, sightings.HALF_WAY, sightings.LAST}
    assert states <= {step.state for step in LOCK.steps}
    of_locks = {mistake.name for name in ("locked-captive", "locked-free") for mistake in method_of(name).mistakes}
    assert {mistake.value for mistake in LockMistake} == of_locks
    assert {mistake.value for mistake in PlainMistake} == {mistake.name for mistake in method_of("plain").mistakes}
    for inspection, name in ((free.INSPECTION, "locked-free"), (plain.INSPECTION, "plain")):
        assert {state for _, state, _ in inspection.first_seen} <= {step.state for step in method_of(name).steps}


def test_a_method_whose_mistakes_cant_be_told_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    def bare(name: str) -> Registration:
        found = registration_of(name)
        return replace(found, diagnostics=None) if name == "plain" else found

    monkeypatch.setattr("fidpath.methods.diagnosis.registration_of", bare)
    told = r"mistakes of plain can't be recognised.*Those of locked-captive, locked-free can"
    with pytest.raises(SightingError, match=told) as refused:
        diagnostics_of(method_of("plain"))
    assert refused.value.code == Exit.USAGE


def test_a_file_of_the_first_schema_is_told_what_has_changed(tmp_path: Path) -> None:
    path = tmp_path / "method.toml"
    path.write_text(DATA.replace("schema = 2", "schema = 1") + "\n[[wrong_ways]]\nat_step = 1\n", encoding="utf-8")
    with pytest.raises(JobError, match=r"method of schema 1.*\[\[mistakes\]\].*made_at = a state"):
        read_method(path)


def test_the_documents_list_every_method() -> None:
    doc = (Path(__file__).parents[2] / "docs" / "methods.md").read_text(encoding="utf-8")
    for kind, splice in splices().items():
        bare = "must be bare" if splice.needs_bare_end else "may be made off"
        assert f'| `"{kind}"` | {splice.title} | `{splice.folder}` | {bare} |' in doc
