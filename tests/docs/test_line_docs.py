"""The worked lines in the documents: every sum adds up, every step is right, every term is the program's."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from fidpath.job.reader import parse_job, read_job
from fidpath.job.template import template
from fidpath.lines.line import LinePlan, make_line
from fidpath.lines.line_sheet import bench_sheet
from fidpath.lines.loft import calibrate
from fidpath.lines.loft_file import read_loft
from lines import BACKSTAY, LOFT, ROOT, SHROUD

DOCS = {name: (ROOT / "docs" / f"{name}.md").read_text(encoding="utf-8") for name in ("line", "calibration")}
KNOWN = {"sqrt": math.sqrt, "pi": math.pi, "asin": math.asin}


def blocks(name: str, kind: str) -> list[tuple[str, list[str]]]:
    """Fenced blocks of a kind: what stands after the kind, and the lines."""
    found = re.findall(rf"```{kind}([^\n]*)\n(.*?)```", DOCS[name], re.DOTALL)
    return [(title.strip(), body.strip("\n").splitlines()) for title, body in found]


def rows(lines: list[str]) -> list[tuple[str, str, float]]:
    """Sign, label and figure of each line of a sum."""
    found = [re.fullmatch(r"([ +=-]) (.+?)\s+(\d+\.\d)", line) for line in lines]
    assert all(found), lines
    return [(match[1], match[2], float(match[3])) for match in found if match]


def hand_steps() -> list[tuple[str, str]]:
    """Every step worked by hand, in both documents."""
    return [(name, step) for name in DOCS for _, lines in blocks(name, "by hand") for step in lines]


@pytest.mark.parametrize(("name", "step"), hand_steps())
def test_every_step_by_hand_is_right(name: str, step: str) -> None:
    left, right = step.rsplit(" = ", 1)
    assert re.fullmatch(r"[\d.+*/() \-]*(?:(?:sqrt|asin|pi)[\d.+*/() \-]*)*", left)
    last = 10.0 ** -len(right.partition(".")[2]) if "." in right else 1e-9
    assert eval(left, {"__builtins__": {}}, KNOWN) == pytest.approx(float(right), abs=0.8 * last)


def test_every_sum_adds_up() -> None:
    sums = blocks("line", "sum")
    assert len(sums) == 5
    for _, lines in sums:
        *terms, (sign, _, total) = rows(lines)
        assert sign == "="
        added = sum(-value if sign == "-" else value for sign, _, value in terms)
        assert added == pytest.approx(total, abs=0.05 * len(terms))


def the_lines() -> list[LinePlan]:
    return [make_line(read_job(SHROUD)), make_line(read_job(BACKSTAY))]


def test_every_part_of_an_end_is_the_programs() -> None:
    shroud, backstay = the_lines()
    written = [rows(lines) for title, lines in blocks("line", "sum") if title.endswith("end")]
    for end, said in zip((*shroud.ends, backstay.ends[0]), written, strict=True):
        parts = [(label.removeprefix("less: "), abs(value)) for label, value in end.parts]
        assert [(label, value) for _, label, value in said] == [
            (label, pytest.approx(value, abs=0.051)) for label, value in (*parts, ("consumed", end.consumed))
        ]


def test_every_term_of_the_rope_to_cut_is_the_programs() -> None:
    written = [rows(lines) for title, lines in blocks("line", "sum") if title == "rope"]
    for line, said in zip(the_lines(), written, strict=True):
        terms = [(term.label, abs(term.value)) for term in line.terms if term.value]
        assert [(label, value) for _, label, value in said] == [
            (label, pytest.approx(value, abs=0.051)) for label, value in (*terms, ("rope to cut", line.rope_to_cut))
        ]


def test_every_interval_spoken_of_is_the_programs() -> None:
    shroud, backstay = the_lines()
    tried = calibrate(read_loft(LOFT))[0].estimate
    by_loft = make_line(read_job(SHROUD), tried)
    said = re.findall(r"\+- (\d+\.\d) mm", DOCS["line"])
    sheets = [bench_sheet(line) for line in (shroud, by_loft, backstay)]
    finished = [re.findall(r"^Finished length: .* \+- (\d+\.\d) mm", sheet, re.M)[0] for sheet in sheets]
    take_up = re.findall(r"take-up of the cover .* \+- (\d+\.\d) mm", sheets[-1])
    assert said == [*finished[:2], *take_up, finished[2]]


def test_the_calibration_worked_by_hand_is_the_programs() -> None:
    estimate = calibrate(read_loft(LOFT))[0].estimate
    take_up = calibrate(read_loft(LOFT))[0].tried[0].geometry
    words = f"takes up {estimate.mean:.3f} times geometry's, {estimate.mean * take_up:.1f} mm +- "
    words += f"{estimate.half_width(0.95) * take_up:.1f} mm, where the wide prior said {take_up:.1f} mm"
    assert words in DOCS["calibration"]


def the_toml(name: str) -> str:
    """The first TOML block of a document."""
    found = re.search(r"```toml\n(.*?)```", DOCS[name], re.DOTALL)
    assert found
    return found[1]


def test_a_newcomers_job_file_with_the_documents_line_is_a_line() -> None:
    text = template("stay")
    text = text[: text.index("[line]")] + the_toml("line") + text[text.index("[tools]") :]
    line = make_line(parse_job(text, "stay.toml"))
    assert [step.method for step in line.steps] == ["locked, both ends free", "locked, one end captive"]
    assert line.adjuster_covers is True


def test_the_documents_practice_file_calibrates(tmp_path: Path) -> None:
    path = tmp_path / "loft.toml"
    path.write_text(the_toml("calibration"), encoding="utf-8")
    assert calibrate(read_loft(path))[0].estimate.tests == ("T1",)


def test_the_commands_and_scenes_named_are_there() -> None:
    for text in DOCS.values():
        for target in re.findall(r"\]\(([^)#]+)\)", text):
            assert (ROOT / "docs" / target).exists(), target
