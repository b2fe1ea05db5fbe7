"""Where everything that is written on a page went, and what found no place: plain data, known without any pixels."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, auto

from fidpath.outputs.pictures.labels import Box, Line


class Reason(Enum):
    """Why a label is not on the page."""

    HIDDEN = auto()
    NO_ROOM = auto()


@dataclass(frozen=True)
class Written:
    """One line of type and the box of its ink, page pixels; a swatch of the key has no text."""

    text: str
    box: Box


@dataclass(frozen=True)
class LeftOut:
    """What a panel says that is not on the page: the panel's letter, the words, and why."""

    letter: str
    text: str
    why: Reason


@dataclass(frozen=True)
class Layout:
    """Everything written on a page.

    strokes: leaders, dimension lines and frames, which run through no words but those on plates, paper laid over them.
    All in page pixels.
    """

    written: tuple[Written, ...] = ()
    strokes: tuple[Line, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    plates: tuple[Box, ...] = ()
