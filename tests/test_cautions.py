"""Cautions are said once: no other module, template or script writes them out again."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import fidpath
from fidpath import cautions

HOME = Path(fidpath.__file__).parent
SOURCES = [path for kind in ("py", "js", "typ", "html") for path in sorted(HOME.rglob(f"*.{kind}"))]
PHRASES = (
    "no statement of strength",
    "qualified rigger",
    "nothing about strength",
    "this says nothing about strength",
    "no strength:",
)


@pytest.mark.parametrize("phrase", PHRASES)
def test_a_caution_stands_in_one_module(phrase: str) -> None:
    holding = [path.name for path in SOURCES if phrase in said_by(path)]
    assert holding == ["cautions.py"]


def said_by(path: Path) -> str:
    """What a file can say to a reader; of a module, its texts without the docstrings."""
    text = path.read_text(encoding="utf-8")
    if path.suffix != ".py":
        return text
    tree = ast.parse(text)
    docs = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    texts = [node for node in ast.walk(tree) if isinstance(node, ast.Constant) and id(node) not in docs]
    return "\n".join(node.value for node in texts if isinstance(node.value, str))


def test_every_caution_defers_or_says_what_it_is_not() -> None:
    said = [value for name, value in vars(cautions).items() if name.isupper()]
    for text in (text for each in said for text in ([each] if isinstance(each, str) else each)):
        assert any(word in text for word in ("strength", "rigger", "rope maker", "no source", "usual mistakes")), text
