"""Any text of the user's made fit to print with the handout's typeface.

A character that the typeface lacks is printed as its number, such as ‹U+8239›.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from fidpath.outputs.font import font_file

LONG, PIECE = 24, 8
"""Words longer than so many characters may be broken after every so many."""

BREAK = "\u200b"
"""A place where a word may be broken, without width."""

JOINERS = "\u200c\u200d"
"""Invisible characters that Arabic and Indic words need."""


@lru_cache(maxsize=1)
def characters() -> frozenset[int]:
    """Code points that the type has."""
    from matplotlib.ft2font import FT2Font

    return frozenset(FT2Font(str(font_file())).get_charmap())


def printable(text: str) -> str:
    """A text on one line, every character one that the type has, long words breakable; nothing of it is lost."""
    line = re.sub(r"\s+", " ", text).strip()
    return re.sub(rf"\S{{{LONG + 1},}}", _breakable, "".join(_shown(c) for c in line))


@lru_cache(maxsize=4096)
def _shown(character: str) -> str:
    """A character as itself, or as its number where it can't be seen, would turn the line round, or is lacking."""
    hidden = unicodedata.category(character)[0] == "C" and character not in JOINERS
    return f"‹U+{ord(character):04X}›" if hidden or ord(character) not in characters() else character


def _breakable(word: re.Match[str]) -> str:
    """A long word with places to break it, none before a mark that sits on the character before."""
    whole = word.group()
    pieces = [whole[i : i + PIECE] for i in range(0, len(whole), PIECE)]
    if any(unicodedata.combining(c) for c in whole):
        pieces = re.findall(rf"(?:.[\u0300-\u036f]*){{1,{PIECE}}}", whole)
    return BREAK.join(pieces)


def shortened(text: str, most: int) -> str:
    """A text of at most so many characters, an ellipsis where something is left out."""
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"
