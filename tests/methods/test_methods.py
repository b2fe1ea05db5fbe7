"""Methods as data: what comes with the program, what a third party adds, and what is refused."""

from __future__ import annotations

import dataclasses
import re
import tomllib
from pathlib import Path

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from fidpath.errors import Exit, JobError
from fidpath.geometry.braid import strand_angles
from fidpath.job.job import End
from fidpath.job.reader import read_job
from fidpath.job.splice_kinds import splices
from fidpath.methods.lock_placeholders import LOCK_FIGURES
from fidpath.methods.method import CONDITIONS, Landmark, Method, Mover, ToolKind, When
from fidpath.methods.method_file import read_method
from fidpath.methods.placeholders import FIGURES
from fidpath.methods.registry import method_names, method_of, placeholders, registration_of
from fidpath.methods.wording import fill, worded, worded_method, worded_mistake
from fidpath.planning.figure import figures
from fidpath.planning.length_figures import lengths
from fidpath.planning.mark_figures import marks
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.states import kinds as states
from jobs import a_job

ROOT = Path(__file__).parents[2]
SCENES = sorted((ROOT / "scenes").glob("*.toml"))
DOC = (ROOT / "docs" / "methods.md").read_text(encoding="utf-8")
EXAMPLE = re.findall(r"```toml\n(.*?)```", DOC, re.DOTALL)[0]
RECIPE = re.findall(r"```python\n(.*?)```", DOC, re.DOTALL)[-1]
NAMES = method_names()
PACKAGED = {name: splice.file.read_text(encoding="utf-8") for name, splice in splices().items()}


def plan_of(scene: Path, splice: str = "locked-captive") -> Plan:
    """A scene's plan, its first end made by this splice."""
    job = read_job(scene)
    first, *others = job.line.ends
    ends = (dataclasses.replace(first, splice=splice), *others)
    return make_plan(dataclasses.replace(job, line=dataclasses.replace(job.line, ends=ends)))


def written(tmp_path: Path, text: str, *pairs: tuple[str, str]) -> Path:
    """A method's text, changed in one place or more, in a file of its own."""
    for before, after in pairs:
        assert before in text
        text = text.replace(before, after, 1)
    path = tmp_path / "method.toml"
    path.write_text(text, encoding="utf-8")
    return path


def words_of(made: Method) -> list[str]:
    """Every sentence of a method."""
    said = [made.title, made.summary]
    for step in made.steps:
        said += [step.caption, *step.instructions, step.check, step.caution, *(extra.say for extra in step.also)]
    for mistake in made.mistakes:
        said += [mistake.title, *mistake.signs, *mistake.remedy, mistake.how_far_off]
    return [text for text in said if text]


def test_the_one_ended_lock_has_its_steps_in_order() -> None:
    shown = [(step.number, step.state) for step in method_of("locked-captive").steps]
    assert shown == [
        (1, "laid-out"),
        (2, "wrapped"),
        (3, "h1-first-fid"),
        (3, "h1-second-fid"),
        (4, "tail-entering"),
        (5, "marking"),
        (6, "h2-drawn-out"),
        (7, "tail-end-in-h2"),
        (8, "curl-closing"),
        (8, "h2-inside-out"),
        (9, "tail-swung-round"),
        (9, "bight-in-h2"),
        (10, "h1-in-h2"),
        (10, "h2-curled"),
        (10, "curl-rolling-out"),
        (11, "locked"),
        (12, "on-terminator"),
        (13, "cut-and-tapered"),
        (14, "buried"),
    ]


def test_every_state_of_the_locks_has_a_recipe() -> None:
    known = {*states.names(mistakes=False)}
    for name in ("locked-captive", "locked-free"):
        assert {step.state for step in method_of(name).steps} <= known


def test_every_mistake_that_is_modelled_has_its_words() -> None:
    named = {mistake.name for name in method_names() for mistake in method_of(name).mistakes}
    assert sorted(named) == sorted(states.names(mistakes=True))


@pytest.mark.parametrize("name", NAMES)
def test_methods_are_named_for_the_splices_of_a_lines_end(name: str) -> None:
    assert method_of(name).name == name
    assert End("", name).splice == name


@pytest.mark.parametrize("scene", SCENES, ids=lambda path: path.stem)
def test_every_placeholder_resolves_for_every_job(scene: Path) -> None:
    for name in NAMES:
        plan = plan_of(scene, name)
        for placeholder in registration_of(name).placeholders:
            word = fill(f"{{{placeholder}}}", plan)
            assert word and "{" not in word and "nan" not in word, placeholder
        for text in words_of(worded_method(method_of(name), plan)):
            assert not re.search(r"[{}\[\]]", text), text


def test_every_figure_of_the_plan_can_be_named() -> None:
    for splice, wanted in (("locked-captive", {*FIGURES, *LOCK_FIGURES}), ("plain", set(FIGURES))):
        plan = plan_of(ROOT / "scenes" / "demo.toml", splice)
        named = {figure.name for figure in (*lengths(plan), *marks(plan), *figures(plan))}
        assert {name for name in named if not name.startswith("taper_drop_")} == wanted


def test_words_carry_the_jobs_own_figures_in_its_unit() -> None:
    demo, inches = (plan_of(ROOT / "scenes" / f"{name}.toml") for name in ("demo", "inches"))
    wrapped = method_of("locked-captive").step("wrapped")
    assert "H2 lies at the last of them, 280 mm by the tape" in " ".join(worded(wrapped, demo).instructions)
    assert re.search(
        r"the last of them, [\d ]+(\d/\d+ )?in by the tape", " ".join(worded(wrapped, inches).instructions)
    )
    first = method_of("locked-captive").step("h1-first-fid")
    eight = plan_of(ROOT / "scenes" / "eight-strand-teardrop.toml")
    assert worded(first, demo).check.startswith("6 strands over the fid and 6 under")
    assert worded(first, eight).check.startswith("4 strands over the fid and 4 under")


def test_the_post_has_its_limit_in_numbers_and_its_source() -> None:
    plan = plan_of(ROOT / "scenes" / "demo.toml")
    said = " ".join(worded(method_of("locked-captive").step("on-terminator"), plan).instructions)
    share = plan.job.practice.post_stretch_share
    assert f"{share:.1%}" in said and f"{share * plan.eye_length:.0f} mm" in said and "no source" in said


def test_stitching_and_its_needle_only_where_the_practice_says_so() -> None:
    buried = method_of("locked-captive").step("buried")
    job = a_job()
    stitched = worded(buried, make_plan(job))
    plain = dataclasses.replace(job, practice=dataclasses.replace(job.practice, stitch=None))
    without = worded(buried, make_plan(plain))
    assert "needle" in [tool.kind for tool in stitched.tools]
    assert any("stitch" in text for text in stitched.instructions)
    assert "needle" not in [tool.kind for tool in without.tools]
    assert not any("stitch" in text for text in without.instructions)


def test_a_job_without_drops_says_so() -> None:
    cut = method_of("locked-captive").step("cut-and-tapered")
    assert "drops no strands" in " ".join(worded(cut, make_plan(a_job(drops=0))).instructions)
    assert "T1 " in " ".join(worded(cut, make_plan(a_job(drops=3))).instructions)


@pytest.mark.parametrize("strands", [8, 12, 16, 20])
def test_the_mark_on_top_lies_where_the_braid_has_it(strands: int) -> None:
    """Strands at the top of the rope, at a station one pick off the crossings beside a hole's mouth."""
    plan = make_plan(a_job(strands=strands, weave="over-one"))
    angles = strand_angles(strands, plan.braid.pitch, np.array([plan.pick]))[:, 0]
    on_top = int(np.sum(np.abs(np.exp(1j * angles) - 1j) < 1e-9))
    at_mouth = int(np.sum(np.abs(np.exp(1j * angles) - 1) < 1e-9))
    assert at_mouth == 0
    assert fill("{mark_place}", plan) == {2: "where strands cross", 0: "in the middle of a diamond"}[on_top]


def test_an_uneven_split_is_told_in_the_ropes_own_strands() -> None:
    mistake = worded_mistake(method_of("locked-captive").mistake("split-5-7"), make_plan(a_job(strands=16)))
    assert mistake.how_far_off == "One strand of 16: 7 against 9 where 8 and 8 belong."


def test_what_isnt_known_without_a_job_stands_in_brackets() -> None:
    mistake = worded_mistake(method_of("locked-captive").mistake("holes-too-far"), None)
    assert "[hole gap]" in mistake.how_far_off


@pytest.mark.parametrize("name", NAMES)
def test_who_could_get_hurt_is_warned(name: str) -> None:
    for step in method_of(name).steps:
        kinds = {tool.kind for tool in step.tools}
        if kinds & {"small fid", "large fid", "knife", "post"} or "load" in " ".join(step.instructions):
            assert step.caution, step.state


@pytest.mark.parametrize("name", NAMES)
def test_the_last_step_defers_to_rope_maker_and_rigger(name: str) -> None:
    last = method_of(name).steps[-1]
    assert "qualified rigger" in last.caution and "rope maker" in last.caution


@pytest.mark.parametrize("name", NAMES)
def test_common_practice_is_marked_in_the_data(name: str) -> None:
    assert "ommon practice, no source" in PACKAGED[name]


def test_turns_are_counted_where_they_come_and_go() -> None:
    counted = {step.state for step in method_of("locked-captive").steps if step.turns}
    assert {"h2-inside-out", "tail-swung-round", "curl-rolling-out", "locked"} <= counted
    assert "laid-out" not in counted


def test_an_unknown_method_is_refused_with_the_nearest() -> None:
    with pytest.raises(JobError, match=r'no method is called "locked-captiv".*Did you mean "locked-captive"'):
        method_of("locked-captiv")


def test_the_documents_example_is_a_method(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = read_method(written(tmp_path, EXAMPLE))
    plan = plan_of(ROOT / "scenes" / "demo.toml")
    assert worded(made.steps[0], plan).instructions[-1] == "Thread on chafe sleeve before the eye is closed."
    assert made.steps[1].views[1].up == (0.0, 0.0, 1.0)
    monkeypatch.setattr(states, "KINDS", dict(states.KINDS))
    exec(RECIPE, {})
    for step in made.steps:
        assert states.state_of(plan, step.state).name == step.state


def test_the_documents_name_every_word_that_may_be_used() -> None:
    named = set(re.findall(r"`([^`]+)`", re.sub(r"```.*?```", "", DOC, flags=re.DOTALL)))
    for kinds in (ToolKind, Landmark, Mover, When):
        assert {word for word in kinds.__args__ if word} <= named
    assert set(placeholders()) <= named
    assert set(CONDITIONS) == set(When.__args__)


REFUSED = [
    (('caption = "Wrap', 'captoin = "Wrap'), "captoin", 'Did you mean "caption"'),
    (("number = 2", "number = 4"), "steps[2].number", "step 4 is out of order. Write 1 or 2"),
    (("number = 1", "number = 0"), "steps[1].number", "step 0 is out of order. Write 1"),
    (("number = 1", 'number = "1"'), "steps[1].number", "a whole number"),
    (('state = "wrapped"', 'state = "../wrapped"'), "steps[1].state", "no name for a state"),
    (("{tail_to_lay_out}", "{tail_to_lay}"), "steps[1].instructions[2]", 'Did you mean "{tail_to_lay_out}"'),
    (("{tail_to_lay_out}", "{}"), "steps[1].instructions[2]", "Allowed are D_over_d, H1, H2"),
    (("{tail_to_lay_out}", "{tail_to_lay_out"), "steps[1].instructions[2]", "a brace stands alone"),
    (("{tail_to_lay_out}", "{H1.x}"), "steps[1].instructions[2]", "there is no figure"),
    (("{tail_to_lay_out}", "\\n"), "steps[1].instructions[2]", "not a sentence on one line"),
    (('kind = "tape"', 'kind = "tap"'), "steps[1].tools[2].kind", 'Did you mean "tape"'),
    (('at = "eye"', 'at = "eyes"'), "steps[1].tools[1].at", 'Did you mean "eye"'),
    (('marks = ["H1"]', 'marks = ["h1"]'), "steps[1].marks[1]", "is no mark"),
    (('from = "tail end"', 'from = "tail"'), "steps[2].from", "is not one of the choices"),
    (("[0.0, -0.4, 1.0]", "[0.0, 0.0, 0.0]"), "steps[1].views[1].direction", "three numbers"),
    (("[0.0, -0.4, 1.0]", "[0.0, nan, 1.0]"), "steps[1].views[1].direction", "three numbers"),
    (("[0.0, -0.4, 1.0]", "[0.0, 1.0]"), "steps[1].views[1].direction", "three numbers"),
    (("[0.0, -0.4, 1.0]", "[0.0, -4.0, 0.0]"), "steps[1].views[1].up", "up is parallel"),
    (('when = "thread_on"', 'when = "thread"'), "steps[1].also[1].when", "Did you mean"),
    (('made_at = "seizing-begun"', 'made_at = "seized"'), "mistakes[1].made_at", "no step shows"),
    (('beside = "seizing-begun"', 'beside = "seized"'), "mistakes[1].beside", "no step shows"),
    (('signs = ["The seizing has a ridge.", ', "signs = ["), "mistakes[1].signs", "1 signs here"),
    (("schema = 2", "schema = 3"), "schema", "not one of the choices"),
]  # fmt: skip


@pytest.mark.parametrize(("change", "key", "said"), REFUSED, ids=lambda each: str(each)[:40])
def test_what_cant_be_is_refused_with_key_and_line(
    tmp_path: Path, change: tuple[str, str], key: str, said: str
) -> None:
    path = written(tmp_path, EXAMPLE, change)
    with pytest.raises(JobError) as refused:
        read_method(path)
    error = refused.value
    assert error.code == Exit.JOB
    assert error.key is not None and error.key.endswith(key)
    assert said in str(error)
    slip = EXAMPLE.index(change[0])
    begun = EXAMPLE.rfind("instructions = [", 0, slip) if "instructions" in key else slip
    assert error.line == 1 + EXAMPLE[:begun].count("\n")


def test_a_missing_key_is_told_with_its_tables_line(tmp_path: Path) -> None:
    path = written(tmp_path, EXAMPLE, ('check = "No turn rides over another."\n', ""))
    with pytest.raises(JobError) as refused:
        read_method(path)
    second = 1 + EXAMPLE[: EXAMPLE.rindex("[[steps]]")].count("\n")
    assert str(refused.value).startswith(f"{path}:{second}: steps[2].check: this key is missing")


def test_an_arrow_needs_something_that_moves(tmp_path: Path) -> None:
    path = written(tmp_path, EXAMPLE, ('moves = "tail end"\n', ""))
    with pytest.raises(JobError, match=r"steps\[2\].from: nothing moves"):
        read_method(path)


def test_what_lies_between_two_steps_is_shown_by_a_view(tmp_path: Path) -> None:
    """What no view shows is never checked, and before the first step nothing lies."""
    unseen = ('moves = "tail end"\n', 'moves = "tail end"\nbetween = ["half-way"]\n')
    with pytest.raises(JobError, match=r'steps\[2\].between\[1\]: no view shows "half-way"'):
        read_method(written(tmp_path, EXAMPLE, unseen))
    first = ('state = "wrapped"\n', 'state = "wrapped"\nbetween = ["half-way"]\n')
    with pytest.raises(JobError, match=r"steps\[1\].between\[1\]: no step comes before this one"):
        read_method(written(tmp_path, EXAMPLE, first))


def test_a_mistake_has_its_name_once(tmp_path: Path) -> None:
    again = EXAMPLE[EXAMPLE.index("[[mistakes]]") :]
    with pytest.raises(JobError, match=r"mistakes\[2\].name: \"turns-riding\" occurs twice"):
        read_method(written(tmp_path, EXAMPLE + again))


def test_no_such_file(tmp_path: Path) -> None:
    with pytest.raises(JobError, match="there is no such file"):
        read_method(tmp_path / "none.toml")


SNIPPETS = st.sampled_from(
    ["", "{", "}", "[", "]]", "=", '"', "nan", "inf", "-1", "true", "[[steps]]", "[steps]", "\n", "\\", ".", "'", "#",
     "{pick}", "[[mistakes]]", "schema = 2", "1e999", "2026-01-01", "\u0000", "[[[[", "x.y = 1\n", "é", ",", "look"]
)  # fmt: skip


@given(st.lists(st.tuples(st.integers(0, len(EXAMPLE)), st.integers(0, 30), SNIPPETS), min_size=1, max_size=4))
@example([(0, len(EXAMPLE), "")])
@example([(0, 0, "steps = 1\n")])
@example([(0, 0, "steps = []\n"), (0, 0, "\ufeff")])
def test_a_spoilt_file_gives_only_our_errors(
    tmp_path_factory: pytest.TempPathFactory, cuts: list[tuple[int, int, str]]
) -> None:
    text = EXAMPLE
    for at, long, put in cuts:
        text = text[:at] + put + text[at + long :]
    path = tmp_path_factory.getbasetemp() / "spoilt.toml"
    path.write_text(text, encoding="utf-8")
    try:
        made = read_method(path)
    except JobError as refused:
        assert refused.what and refused.file == str(path)
    else:
        assert made.steps


VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-3, 3) | st.floats(allow_nan=True) | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(["kind", "at", "look"]), inner),
    max_leaves=5,
)


def as_toml(value: object) -> str:
    """A value as TOML writes it; nothing at all becomes an empty text."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return f"[{', '.join(as_toml(each) for each in value)}]"
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{key} = {as_toml(each)}' for key, each in value.items())} }}"
    if isinstance(value, int | float):
        return repr(value)
    escaped = "".join(f"\\U{ord(letter):08x}" for letter in str(value or "") if not 0xD800 <= ord(letter) < 0xE000)
    return f'"{escaped}"'


@given(st.sampled_from(sorted({line.split(" = ")[0] for line in EXAMPLE.splitlines() if " = " in line})), VALUES)
def test_a_key_of_any_value_gives_only_our_errors(
    tmp_path_factory: pytest.TempPathFactory, key: str, value: object
) -> None:
    line = next(line for line in EXAMPLE.splitlines() if line.startswith(f"{key} = "))
    text = EXAMPLE.replace(line + "\n", f"{key} = {as_toml(value)}\n", 1)
    path = tmp_path_factory.getbasetemp() / "any-value.toml"
    path.write_text(text, encoding="utf-8")
    try:
        read_method(path)
    except JobError as refused:
        assert refused.what and refused.file == str(path)


@pytest.mark.parametrize("name", NAMES)
def test_the_packaged_files_hold_nothing_that_isnt_read(name: str) -> None:
    raw = tomllib.loads(PACKAGED[name])
    assert len(raw["steps"]) == len(method_of(name).steps)
    assert len(raw.get("mistakes", [])) == len(method_of(name).mistakes)
