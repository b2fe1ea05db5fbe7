"""The glossary and the sheet give the words of the marking one meaning, word for word."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from fidpath.planning import MEANINGS

GLOSSARY = Path(__file__).parents[1] / "docs" / "glossary.md"
ROW = re.compile(r"^\| \*\*(.+?)\*\* \| (.+?)(?:\.? Compare \*\w+\*)? \|$", re.MULTILINE)


@pytest.mark.parametrize("word", sorted(MEANINGS))
def test_the_glossary_means_the_same(word: str) -> None:
    assert dict(ROW.findall(GLOSSARY.read_text(encoding="utf-8")))[word] == MEANINGS[word]
