"""Line art as a PDF."""

from __future__ import annotations

import io
import sys
from collections.abc import Iterator
from dataclasses import replace

import pikepdf
import pytest

from fidpath.errors import EnvironmentProblem
from fidpath.outputs.lineart.ink import TextLine
from fidpath.outputs.lineart.line_drawing import pdf
from scenes.line_art import NASTY, POINT, drawing_of


@pytest.fixture
def document() -> Iterator[pikepdf.Pdf]:
    with pikepdf.open(io.BytesIO(pdf(drawing_of("on-terminator")))) as opened:
        yield opened


def test_it_has_one_page_of_the_sheets_size(document: pikepdf.Pdf) -> None:
    (page,) = document.pages
    left, bottom, right, top = (float(edge) * POINT for edge in page.mediabox)
    assert (left, bottom) == (0, 0)
    assert (right, top) == pytest.approx(drawing_of("on-terminator").size, abs=0.01)


def test_it_is_drawn_in_lines_and_grey(document: pikepdf.Pdf) -> None:
    page = document.pages[0]
    content = [(str(operator), operands) for operands, operator in pikepdf.parse_content_stream(page)]
    coloured = [operands for operator, operands in content if operator in ("sc", "scn", "SC", "SCN")]
    assert len({tuple(operands) for operands in coloured}) > 3
    assert all(len(operands) == 1 for operands in coloured)
    assert not {"rg", "RG", "k", "K", "Do", "BI"} & {operator for operator, _ in content}
    assert sum(operator == "l" for operator, _ in content) > 2000


def test_its_type_is_embedded_and_its_words_are_words(document: pikepdf.Pdf) -> None:
    fonts = document.pages[0].Resources.Font
    for font in fonts.values():
        (inner,) = font.DescendantFonts
        assert "DejaVuSans" in str(inner.BaseFont) and "/FontFile2" in inner.FontDescriptor
        assert "/ToUnicode" in font
    with document.open_metadata() as about:
        assert about["dc:title"] == drawing_of("on-terminator").title


@pytest.mark.parametrize("words", [NASTY, "綱", '#panic("x")', "\u202eab", ""])
def test_any_words_can_be_set(words: str) -> None:
    drawing = drawing_of("on-terminator")
    inks = (*drawing.inks, TextLine((20.0, 20.0), words, 4.0, 30.0))
    with pikepdf.open(io.BytesIO(pdf(replace(drawing, title=words, inks=inks)))) as opened:
        assert len(opened.pages) == 1


def test_without_the_typesetter_it_is_refused_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "typst", None)
    with pytest.raises(EnvironmentProblem, match="Typst"):
        pdf(drawing_of("on-terminator"))
