r"""The plan's formulas are plain text. Here their symbols become LaTeX: "squeeze x d" is `squeeze $\times d$`.

Words stay text, so that a long formula can break at the end of a line; a browser doesn't break MathML.
"""

from __future__ import annotations

import re

NAMES = {"x": r"\times", "pi": r"\pi", "cos": r"\cos\,", "sin": r"\sin\,", "tan": r"\tan\,"}
SYMBOL = re.compile(
    r"(?<= )[x+=-](?= )|\b(?:pi|cos|sin|tan)\b|(?<=cos |sin |tan )a\d?\b|(?<![\w'-])[dDNP](?![\w'-])"
    r"|\^\d|(?<![\w.])\d+(?:\.\d+)?(?![\w.%])|[()/]"
)
"""A sign, a function, an angle, a letter, a power, a number, a bracket or a stroke."""


def typeset(text: str) -> str:
    """A formula for a page: runs of symbols become LaTeX between dollar signs, words stay as they are."""
    if not re.search(r" [x+=-] |\d/|/[\d(]|/pi|[dDNP]/|\^|\d d\b|^[dDNP]$", text):
        return text
    each = SYMBOL.sub(lambda symbol: f"${_latex(symbol[0])}$", text)
    joined = re.sub(r"\$( ?)\$", " ", each).replace(r"\, (", "(")
    return re.sub(r"([-+=]|\\times)(?=\$)", r"\1 {}", re.sub(r"(?<=\$)(?=[-+=][ $]|\\times)", "{} ", joined))


def _latex(symbol: str) -> str:
    """A symbol's LaTeX. The letter a, with or without a number, is the braid's angle."""
    angle = re.fullmatch(r"a(\d?)", symbol)
    if angle:
        return r"\alpha" + (f"_{angle[1]}" if angle[1] else "")
    return NAMES.get(symbol, symbol)
