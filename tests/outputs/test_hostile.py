"""One table of hostile texts goes through every reader and writer, and comes out as text or is refused in words."""

from __future__ import annotations

import csv
import io
import json
import re
import subprocess
import tomllib
import unicodedata
import xml.etree.ElementTree as ET
import zipfile
from collections import Counter
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import ezdxf
import numpy as np
import pytest
import tomlkit

from fidpath.errors import FidpathError, JobError, OutputError
from fidpath.job.reader import one_line, parse_job, read_job
from fidpath.job.template import template
from fidpath.lines import set_sheet
from fidpath.lines.line import make_line
from fidpath.lines.sets import PlannedLine, SetPlan
from fidpath.machine.files import folder_name
from fidpath.meshing.meshes import Mesh
from fidpath.methods.registry import method_of
from fidpath.outputs import stl
from fidpath.outputs.handout import handout
from fidpath.outputs.handout.typeface import printable
from fidpath.outputs.jigs import catalogue
from fidpath.outputs.jigs import flat_drawing as drawing
from fidpath.outputs.jigs.threemf import threemf
from fidpath.outputs.lineart.ink import LineDrawing, TextLine
from fidpath.outputs.lineart.svg import svg
from fidpath.outputs.page.document import Parts, page_of
from fidpath.planning import sheet
from fidpath.planning.planner import make_plan
from fidpath.viewing.live_page import saving
from fidpath.viewing.live_page.fields import fields
from fidpath.viewing.live_page.form import Form, Refused, read_form, tried
from hostile import HOSTILE, named
from jobs import a_job

SCENES = Path(__file__).parents[2] / "scenes"
DEMO = tomllib.loads((SCENES / "demo.toml").read_text(encoding="utf-8"))
TEXTS = pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
RESERVED = re.compile(r"(?i)(con|prn|aux|nul|com\d|lpt\d)(\..*)?")
PLANNED = make_plan(a_job(strands=8, bury=14.0))


def in_xml(text: str) -> str:
    """What XML can hold of a text."""
    return "".join(c for c in text if c in "\t\n" or (c >= " " and not "\ud800" <= c <= "\udfff" and c < "\ufffe")
                   or c > "\uffff")  # fmt: skip


# ---- TOML


@TEXTS
def test_a_job_file_holds_any_text(text: str) -> None:
    tables = {**DEMO, "rope": {**DEMO["rope"], "name": text}, "list": [text, text]}
    assert tomllib.loads(tomlkit.dumps(tables)) == tables


@TEXTS
def test_the_template_is_valid_under_any_name(text: str) -> None:
    made = parse_job(template(text), "a.toml")
    assert made.name.isprintable()
    assert folder_name(made.name) != ""


@TEXTS
def test_a_name_is_read_as_it_stands_or_refused_on_one_line(text: str) -> None:
    tables = {**DEMO, "terminator": {**DEMO["terminator"], "name": text}, "name": text}
    try:
        job = parse_job(tomlkit.dumps(tables), "a.toml")
    except JobError as refused:
        said = one_line(str(refused))
        assert said.isprintable() and len(said) < 600
        assert refused.key in ("name", "terminator.name") and refused.line and refused.remedy
        return
    assert job.name == job.terminator.name == text.strip()
    assert job.name.isprintable()
    assert Path("exports", job.name).resolve().parent == Path("exports").resolve()
    assert not RESERVED.fullmatch(job.name)


def test_of_the_hostile_names_those_are_refused_that_no_folder_or_line_can_bear() -> None:
    refused = set()
    for kind, text in HOSTILE.items():
        try:
            parse_job(tomlkit.dumps({**DEMO, "name": text}), "a.toml")
        except JobError:
            refused.add(kind)
    assert refused >= {"up", "absolute", "drive", "device", "device with an end", "hidden", "dots", "nul", "ansi",
                       "newline", "bidi", "option", "empty", "spaces", "longer", "byte order"}  # fmt: skip
    assert not refused & {"typst", "emoji", "right to left", "wide", "formula", "combining", "null"} - {"typst"}


# ---- file names


@TEXTS
def test_no_text_names_a_file_outside_its_folder(tmp_path: Path, text: str) -> None:
    folder = folder_name(text)
    assert (tmp_path / folder).resolve().parent == tmp_path.resolve()
    assert folder.isprintable() and 0 < len(folder) <= 80
    assert not RESERVED.fullmatch(folder)
    for name in (text, f"{text}.toml"):
        try:
            target = saving.save(tmp_path, name, "a = 1\n", replace=True)
        except OutputError as refused:
            assert len(str(refused)) < 400
        else:
            assert target.resolve().parent == tmp_path.resolve()
    assert all(path.is_file() for path in tmp_path.iterdir())


# ---- terminal, JSON, tables for spreadsheets


@TEXTS
def test_the_bench_table_and_json_show_a_text_as_it_stands(text: str) -> None:
    plan = replace(PLANNED, job=named(PLANNED.job, text))
    found = json.loads(sheet.as_json(sheet.as_data(plan)))
    assert found["name"] == text and found["parts_to_thread_on_first"] == [text, text]
    if text.isprintable():
        shown = sheet.bench_table(plan)
        assert text in shown
        assert all(line.isprintable() for line in shown.split("\n"))


@pytest.mark.parametrize("text", [text for text in HOSTILE.values() if text.isprintable()])
def test_a_table_for_a_spreadsheet_holds_no_formula(text: str) -> None:
    line = make_line(read_job(SCENES / "lines" / "line-cap-shroud.toml"))
    plan = replace(line, job=named(line.job, text))
    done = SetPlan(text, text, (PlannedLine(text, 1, plan, 1000.0),), (), ())
    rows = list(csv.reader(io.StringIO(set_sheet.as_csv(done), newline="")))
    assert len(rows) == 2
    assert rows[1][0].lstrip("'") == text.lstrip("'")
    assert not rows[1][0].startswith(tuple("=+-@")) and not rows[1][2].startswith(tuple("=+-@"))
    assert json.loads(set_sheet.as_json(done))["name"] == text


@pytest.mark.parametrize("text", ["a\x1b[31mb", "a\nb", "a\u202eb", "a\0b"])
def test_an_error_is_one_line_whatever_the_file_is_called(text: str) -> None:
    error = FidpathError(f"no {text}", "Look again", file=f"{text}.toml", line=1, key=text)
    assert one_line(str(error)).isprintable()


# ---- HTML


class Found(HTMLParser):
    """Elements with their attributes' names, and all text outside scripts."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.elements: Counter[tuple[str, tuple[str, ...]]] = Counter()
        self.text, self.data, self.inside = "", "", ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements[tag, tuple(sorted(name for name, _ in attrs))] += 1
        self.inside = str(dict(attrs).get("id")) if tag == "script" else tag if tag == "style" else ""

    def handle_endtag(self, tag: str) -> None:
        self.inside = "" if tag in ("script", "style") else self.inside

    def handle_data(self, data: str) -> None:
        if not self.inside:
            self.text += data


def page(text: str) -> str:
    """The page of a job of this name, of no state, so that only its words are in it."""
    plan = replace(PLANNED, job=named(PLANNED.job, text))
    return page_of(plan, method_of("locked-captive"), Parts({}, {}, {}, {}))


def test_the_page_has_the_same_elements_under_any_name() -> None:
    harmless = Found(page("plain name"))
    for kind, text in HOSTILE.items():
        found = Found(page(text))
        assert found.elements == harmless.elements, kind
        if text.isprintable() and text.strip():
            assert text in found.text, kind


@TEXTS
def test_the_pages_data_hold_the_text_and_no_markup(text: str) -> None:
    whole = page(text)
    block = re.search(r'<script type="application/json"[^>]*>(.*?)</script>', whole, re.DOTALL)
    assert block is not None
    assert json.loads(block[1])["name"] == text
    assert not set("<>&") & set(block[1])


# ---- SVG, 3MF, STL, DXF


@TEXTS
def test_line_art_holds_the_text_as_text(text: str) -> None:
    made = svg(LineDrawing("a", text, (100.0, 50.0), (TextLine((1.0, 2.0), text, 4.0, 20.0),)))
    root = ET.fromstring(made)
    assert Counter(node.tag.partition("}")[2] for node in root.iter()) == {"svg": 1, "title": 1, "g": 1, "text": 1}
    assert root.findtext("{*}g/{*}text") == root.findtext("{*}title") == in_xml(text)
    assert root.get("aria-label", "").split() == in_xml(text).split()


TRIANGLE = Mesh(np.eye(3), np.array([[0, 1, 2]]))


@TEXTS
def test_solids_hold_the_text_as_text(text: str) -> None:
    with zipfile.ZipFile(io.BytesIO(threemf(TRIANGLE, text, text, text))) as package:
        assert sorted(package.namelist()) == ["3D/3dmodel.model", "[Content_Types].xml", "_rels/.rels"]
        root = ET.fromstring(package.read("3D/3dmodel.model"))
    told = {node.get("name"): node.text or "" for node in root.findall("{*}metadata")}
    assert told["Title"] == told["Description"] == in_xml(text)
    assert set(told) == {"Title", "Description", "Application"}
    assert (root.find(".//{*}object").get("name") or "").split() == in_xml(text).split()  # type: ignore[union-attr]
    header = stl.stl(TRIANGLE, text)
    assert len(header) == 84 + 50 and header[:80].isascii() and b"\0" not in header[:80]


@pytest.fixture(scope="module")
def gauge() -> catalogue.Jig:
    return catalogue.JIGS["rope-gauge"](PLANNED)


@TEXTS
def test_a_gauge_to_cut_holds_the_text_as_text(gauge: catalogue.Jig, text: str) -> None:
    flat = next(piece.flat for piece in gauge.pieces if piece.flat is not None)
    root = ET.fromstring(drawing.svg(flat, 0.1, text, text))
    assert {node.tag.partition("}")[2] for node in root.iter()} == {"svg", "title", "desc", "g", "path", "polyline"}
    assert root.findtext("{*}title") == root.findtext("{*}desc") == in_xml(text)


def test_jigs_bear_no_name_of_a_job() -> None:
    plain, odd = (replace(PLANNED, job=named(PLANNED.job, name)) for name in ("plain", HOSTILE["script"]))
    for name in ("rope-gauge", "taper-board"):
        files = [dict(catalogue.files(plan, catalogue.JIGS[name](plan), catalogue.USUAL)) for plan in (plain, odd)]
        assert files[0] == files[1]
        for content in (content for path, content in files[1].items() if path.endswith(".dxf")):
            kinds = {entity.dxftype() for entity in ezdxf.read(io.StringIO(content.decode())).modelspace()}
            assert kinds == {"LWPOLYLINE"}


# ---- the handout


def test_the_handout_prints_every_text_at_once(tmp_path: Path) -> None:
    job = a_job(strands=8, bury=14.0)
    short = [text for text in HOSTILE.values() if len(text) < 200]
    given = replace(named(job, HOSTILE["typst"]), line=replace(job.line, thread_on_first=tuple(short)))
    pdf = handout(make_plan(given), method_of("locked-captive"), {}, "a4")
    said = subprocess.run(["pdftotext", "-raw", "-", "-"], input=pdf, capture_output=True, check=True).stdout
    found = squeezed(said.decode("utf-8"))
    for text in short:
        if not any(unicodedata.bidirectional(c) in ("R", "AL") for c in text):
            assert squeezed(printable(text)) in found, text
    assert b"/JavaScript" not in pdf and b"/URI" not in pdf and b"/Launch" not in pdf


def squeezed(text: str) -> str:
    """A text without what a typesetter puts between its letters."""
    return re.sub(r"[\s\u200b]+", "", unicodedata.normalize("NFC", text))


# ---- the live page


@pytest.fixture(scope="module")
def form() -> Form:
    return read_form(SCENES / "demo.toml")


@TEXTS
def test_a_field_of_the_live_page_takes_a_text_as_it_stands_or_refuses_it(form: Form, text: str) -> None:
    for key in ("rope.diameter", "rope.weave", "tools.fids", "rope.pitch"):
        found = tried(form, {**form.texts, key: text})
        if isinstance(found, Refused):
            said = [*found.errors.values(), found.general]
            assert all(one_line(words).isprintable() and len(words) < 600 for words in said)
            assert set(found.errors) <= {field.key for field in fields()}
        else:
            assert text.strip() == "" or found.job == parse_job(found.text, found.job.source)
    strange = tried(form, {**form.texts, text: text})
    assert isinstance(strange, Form | Refused)
