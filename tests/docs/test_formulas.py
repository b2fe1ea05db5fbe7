"""Formulas in the documentation: all of them are typeset, and a built page that loads anything from afar is refused."""

from __future__ import annotations

import re
from pathlib import Path
from types import ModuleType, SimpleNamespace
from xml.etree import ElementTree

import pytest

DOCS = Path(__file__).parents[2] / "docs"
PAGES = sorted(DOCS.glob("*.md"))


def formulas() -> list[str]:
    """Every formula of the pages, between lines and in a line."""
    found = []
    for page in PAGES:
        text = re.sub(r"^```.*?^```$|`[^`\n]*`", "", page.read_text(encoding="utf-8"), flags=re.M | re.S)
        found += re.findall(r"\$\$(.+?)\$\$", text, re.S)
        found += re.findall(r"\$([^$\n]+)\$", re.sub(r"\$\$.+?\$\$", "", text, flags=re.S))
    return found


@pytest.fixture
def mathml(monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    pytest.importorskip("latex2mathml", reason="comes with `make docs`")
    monkeypatch.syspath_prepend(DOCS)
    return __import__("mathml")


def test_every_formula_is_typeset_and_no_command_is_left_in_it(mathml: ModuleType) -> None:
    assert len(formulas()) > 30
    for formula in formulas():
        tree = ElementTree.fromstring(mathml.mathml(formula))
        assert tree.tag.endswith("}math") and len(tree[0]) > 0
        assert "\\" not in "".join(tree.itertext()), formula


def test_a_sign_between_two_terms_is_an_operator(mathml: ModuleType) -> None:
    assert "<mo>&#x000B1;</mo>" in mathml.mathml(r"R \pm a")


@pytest.mark.parametrize(
    ("name", "text", "refused"),
    [
        ("a.html", '<script src="https://cdn.invalid/tex.js"></script>', True),
        ("a.html", '<img src="//pictures.invalid/a.png">', True),
        ("a.css", '@import "https://fonts.invalid/a.css";', True),
        ("a.css", "src: url(https://fonts.invalid/a.woff2)", True),
        ("a.html", '<a href="https://example.invalid">elsewhere</a><script src="_static/a.js"></script>', False),
    ],
)
def test_a_built_page_loads_nothing_from_afar(
    name: str, text: str, refused: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    errors = pytest.importorskip("sphinx.errors", reason="comes with `make docs`")
    monkeypatch.syspath_prepend(DOCS)
    conf = __import__("conf")
    (tmp_path / name).write_text(text, encoding="utf-8")
    app = SimpleNamespace(outdir=tmp_path)
    if refused:
        with pytest.raises(errors.ExtensionError, match="from afar"):
            conf.nothing_from_afar(app, None)
    else:
        conf.nothing_from_afar(app, None)


@pytest.mark.parametrize(
    ("plain", "typeset"),
    [
        ("squeeze x d", r"squeeze ${} \times d$"),
        ("(D + d)/2 x (pi + throat angle)", r"$( D + d ) / 2 \times ( \pi + {}$ throat angle$)$"),
        ("1 - cos a/cos a0 along a cover", r"$1 - \cos\, \alpha / \cos\, \alpha_0$ along a cover"),
        ("d^2/8 daN", "$d ^2 / 8$ daN"),
        ("0.6 d to 1 d", "$0.6 d$ to $1 d$"),
        ("lost/(eye - lost); allowed 2.0%", "lost$/ ($eye ${} - {}$ lost$)$; allowed 2.0%"),
        ("hand-over-hand, the eye asked for", "hand-over-hand, the eye asked for"),
    ],
)
def test_symbols_of_the_plans_formulas_are_typeset_and_words_stay(
    plain: str, typeset: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.syspath_prepend(DOCS)
    assert __import__("plain_formula").typeset(plain) == typeset
