r"""Formulas as MathML. Browsers typeset it themselves, so a built page needs no script, font or network for it.

Pages write `$\pi d$` in a line and `$$...$$` between lines, in LaTeX's notation.
"""

from __future__ import annotations

from typing import Any

from docutils import nodes
from latex2mathml.converter import convert


def setup(app: Any) -> dict[str, bool]:
    """Registers the renderer; `html_math_renderer = "mathml"` in conf.py chooses it."""
    app.add_html_math_renderer("mathml", (_inline, _nothing), (_block, _nothing))
    return {"parallel_read_safe": True, "parallel_write_safe": True}


def mathml(formula: str, display: str = "inline") -> str:
    """A formula's MathML. A plus-minus sign is an operator there, with space on both sides; a stroke has none."""
    made = convert(formula, display=display).replace("<mi>&#x000B1;</mi>", "<mo>&#x000B1;</mo>")
    return made.replace("<mo>&#x0002F;</mo>", '<mo lspace="0" rspace="0">&#x0002F;</mo>')


def _inline(writer: Any, node: Any) -> None:
    writer.body.append(mathml(node.astext()))
    raise nodes.SkipNode


def _block(writer: Any, node: Any) -> None:
    writer.body.append(f'<div class="math">{mathml(node.astext(), "block")}</div>\n')
    raise nodes.SkipNode


def _nothing(writer: Any, node: Any) -> None:
    """Formulas are written whole on the way in."""
