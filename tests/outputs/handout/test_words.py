"""What the handout says: hostile names, units, missing figures, the same bytes, what can be read aloud."""

from __future__ import annotations

import io
import os
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pikepdf
import pytest

from fidpath.cautions import BESIDE_FIGURES
from fidpath.errors import OutputError
from fidpath.job.job import Job
from fidpath.methods.card import card_lines
from fidpath.methods.registry import method_of
from fidpath.outputs.handout import handout, step_key, wrong_key
from fidpath.outputs.handout.qr_code import code, code_text
from fidpath.outputs.handout.typeface import BREAK, printable
from fidpath.planning.mark_figures import marks
from fidpath.planning.planner import make_plan
from fidpath.planning.sheet import shown
from jobs import a_job
from readback.handout import tags, words

HOSTILE = (
    '#panic("x") *b* @ref $x$ \\ ] [ _u_ `r` <a> = // -- ~ "q" {n}',
    "line\none\ttwo",
    "W" * 300,
    "Ωμέγα Łódź ½ × °",
    "שלום עולם",
    "船の綱",
    "a\u202eb\u0007",
    "= Heading\n#set page(width: 1mm)",
)

SVG = (
    b'<svg xmlns="http://www.w3.org/2000/svg" width="160mm" height="48mm" viewBox="0 0 160 48">'
    b'<rect width="160" height="48" fill="none" stroke="#000"/><text x="5" y="9" font-size="4">synthetic</text></svg>'
)


def named(name: str) -> Job:
    job = a_job()
    return replace(
        job,
        name=name,
        rope=replace(job.rope, name=name),
        terminator=replace(job.terminator, name=name),
        line=replace(job.line, name=name, captive_end=name, thread_on_first=(name,)),
    )


def made(job: Job, figures: dict[str, bytes] | None = None, name: str = "locked-captive", paper: str = "a4") -> bytes:
    return handout(make_plan(job), method_of(name), figures or {}, paper)  # type: ignore[arg-type]


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


@pytest.mark.parametrize("name", HOSTILE)
def test_any_name_prints_as_itself_and_breaks_nothing(name: str, tmp_path: Path) -> None:
    pdf = made(named(name))
    plain = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf, capture_output=True, check=True).stdout
    text = squeezed(plain.decode("utf-8").replace(BREAK, ""))
    wanted = squeezed(printable(name).replace(BREAK, ""))
    if any("\u0590" <= c <= "\u05ff" for c in name):
        assert all(c in text for c in wanted)
    else:
        assert wanted[:60] in text
        assert len(wanted) < 100 or wanted in text
    with pikepdf.open(io.BytesIO(pdf)) as document:
        assert len({tuple(float(v) for v in page.mediabox) for page in document.pages}) == 2


def test_nothing_runs_off_the_page(tmp_path: Path) -> None:
    from readback.handout import boxes

    for name in ("W" * 300, "long words " * 40):
        for _, left, top, right, _, text in boxes(made(named(name)), tmp_path):
            assert left > 5 and top > 3 and right < 297 - 5, text


def test_what_the_type_lacks_is_printed_as_its_number() -> None:
    assert printable("船 a") == "‹U+8239› a"
    assert printable("a\u202eb") == "a‹U+202E›b"
    assert printable("Ω ½ × °") == "Ω ½ × °"
    assert printable("a\nb") == "a b"
    assert BREAK in printable("W" * 40) and printable("W" * 40).replace(BREAK, "") == "W" * 40


def test_every_length_of_the_table_is_printed_in_the_users_unit(tmp_path: Path) -> None:
    job = a_job(12.7)
    inches = replace(job, length_unit="in", tools=replace(job.tools, tape_division_mm=25.4 / 16))
    for its in (job, inches):
        plan = make_plan(its)
        text = squeezed(words(made(its), tmp_path))
        for row in marks(plan):
            assert squeezed(shown(row, plan)) in text
        assert " mm" in shown(marks(plan)[0], plan) or " in" in shown(marks(plan)[0], plan)


def test_cautions_are_on_the_first_page(tmp_path: Path) -> None:
    first = squeezed(words(made(a_job()), tmp_path).split("\f")[0])
    for caution in BESIDE_FIGURES:
        assert squeezed(caution) in first


def test_the_first_page_has_the_card_and_the_first_step_and_formulas_come_last(tmp_path: Path) -> None:
    plan, way = make_plan(a_job()), method_of("locked-captive")
    pages = [squeezed(page) for page in words(made(a_job()), tmp_path).split("\f")]
    for line in card_lines(way, plan):
        assert squeezed(line) in pages[0]
    assert squeezed(f"Step 1. {way.steps[0].caption}") in pages[0]
    text = "".join(pages)
    heads = ["The card", "The steps", "Usual mistakes", "Check list", "Sleeves at true size", "Lengths and marks"]
    places = [text.index(squeezed(head)) for head in heads]
    assert places == sorted(places)


@pytest.mark.parametrize("name", ["locked-captive", "locked-free", "plain"])
def test_every_step_and_mistake_is_there_with_or_without_its_figure(name: str, tmp_path: Path) -> None:
    way = method_of(name)
    keys = [step_key(way, i) for i in range(len(way.steps))]
    assert len(set(keys)) == len(keys)
    figures = dict.fromkeys([*keys[1:], *(wrong_key(w) for w in way.mistakes)], SVG)
    pdf = made(a_job(), figures, name)
    text = words(pdf, tmp_path)
    assert text.count("There is no picture of this.") == 1
    assert all(f"Step {key[5:].lstrip('0')}" in text for key in keys)
    behind = squeezed(text.partition("Usual mistakes")[2])
    assert all(squeezed(f"{mistake.title} (step {mistake.step_number})") in behind for mistake in way.mistakes)
    assert text.count("synthetic") == len(figures)


def test_a_broken_figure_is_named_in_one_error() -> None:
    with pytest.raises(OutputError, match="typeset"):
        made(a_job(), {"step-01": b"<svg"})


def test_same_bytes_whatever_the_clock_the_locale_and_the_home_folder(tmp_path: Path) -> None:
    program = (
        "import sys, hashlib; sys.path.insert(0, 'tests/support')\n"
        "from jobs import a_job\nfrom fidpath.outputs.handout import handout\n"
        "from fidpath.methods.registry import method_of\nfrom fidpath.planning.planner import make_plan\n"
        "print(hashlib.sha256(handout(make_plan(a_job()), method_of('plain'), {}, 'a4')).hexdigest())"
    )
    found = set()
    root = Path(__file__).parents[3]
    for home, locale, zone, clock in (
        (str(tmp_path), "C", "UTC", "0"),
        ("/nowhere", "tr_TR.UTF-8", "Asia/Tokyo", "9" * 9),
    ):
        env = os.environ | {"HOME": home, "LC_ALL": locale, "TZ": zone, "SOURCE_DATE_EPOCH": clock,
                            "PYTHONPATH": str(root / "src"), "PYTHONHASHSEED": clock}  # fmt: skip
        done = subprocess.run(
            [sys.executable, "-c", program], env=env, cwd=root, capture_output=True, check=True, text=True
        )
        found.add(done.stdout)
    assert len(found) == 1


def test_can_be_read_aloud_and_prints_at_actual_size() -> None:
    """PDF/UA-1 is checked by the typesetter when it writes; this is what a reader needs, read back by itself."""
    way = method_of("locked-captive")
    pdf = made(a_job(), {step_key(way, 0): SVG, wrong_key(way.mistakes[0]): SVG})
    with pikepdf.open(io.BytesIO(pdf)) as document:
        root = document.Root
        assert str(root.Lang).startswith("en")
        assert root.MarkInfo.Marked
        assert root.ViewerPreferences.DisplayDocTitle
        assert str(root.ViewerPreferences.PrintScaling) == "/None"
        with document.open_metadata() as about:
            assert about["dc:title"] == "test: test line"
            assert about["pdfuaid:part"] == "1"
        with document.open_outline() as outline:
            titles = [entry.title for entry in outline.root]
    assert {
        "Lengths and marks",
        "The steps",
        "Check list",
        "Sleeves at true size",
        "Mark strip at true size",
    } <= set(titles)
    found = tags(pdf)
    kinds = {kind for kind, _ in found}
    assert {"/H1", "/H2", "/Table", "/TH", "/L", "/Figure"} <= kinds
    figures = [alt for kind, alt in found if kind == "/Figure"]
    assert len(figures) >= 6 and all(len(alt) > 20 for alt in figures)
    assert any("Mark strip" in alt for alt in figures) and any("wrap once round" in alt for alt in figures)


def test_every_font_is_embedded(tmp_path: Path) -> None:
    path = tmp_path / "h.pdf"
    path.write_bytes(made(named("Ωμέγα שלום")))
    rows = subprocess.run(["pdffonts", str(path)], capture_output=True, check=True, text=True).stdout.splitlines()[2:]
    assert rows and all("DejaVuSans" in row and re.search(r"\byes yes yes\b", row) for row in rows)


def test_the_code_says_the_marks_and_no_address() -> None:
    plan = make_plan(a_job())
    text = code_text(plan, marks(plan))
    assert all(shown(row, plan) in text for row in marks(plan))
    assert "http" not in text and "//" not in text
    drawn = code(text)
    dark = sum((s.corners[1][0] - s.corners[0][0]) * (s.corners[2][1] - s.corners[1][1]) for s in drawn.shapes)
    assert 0.3 < dark / drawn.size[0] ** 2 < 0.6
