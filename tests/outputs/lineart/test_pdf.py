"""Line art as a PDF."""

from __future__ import annotations

import io
import re
import sys

import pikepdf
import pytest

from fidpath.errors import EnvironmentProblem
from fidpath.outputs.lineart.line_drawing import pdf
from line_art import POINT, drawing_of


def _streams(content: bytes) -> bytes:
    """All page content of a PDF, unpacked."""
    with pikepdf.open(io.BytesIO(content)) as document:
        return b"".join(pikepdf.unparse_content_stream(pikepdf.parse_content_stream(page)) for page in document.pages)


def test_the_pdf_has_one_page_of_the_sheets_size_in_grey_with_its_type() -> None:
    drawing = drawing_of("on-terminator")
    content = pdf(drawing)
    box = re.search(rb"/MediaBox \[ 0 0 ([\d.]+) ([\d.]+) \]", content)
    assert box is not None
    assert [float(edge) * POINT for edge in box.groups()] == pytest.approx(drawing.size, abs=0.01)
    assert content.count(b"/Type /Page\n") == 1 and b"/FontFile2" in content
    page = _streams(content)
    assert re.search(rb"[\d.] g\b", page) and not re.search(rb"[\d.] (rg|RG|k|K)\b", page)


def test_without_its_library_a_pdf_is_refused_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "reportlab.pdfgen.canvas", None)
    with pytest.raises(EnvironmentProblem, match="ReportLab"):
        pdf(drawing_of("on-terminator"))
