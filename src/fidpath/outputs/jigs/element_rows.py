"""Rows of numbers as the text of XML elements, all rows at once: a table of bytes, of which some are left out."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fidpath.arrays import Bools, Ints

MINUS, POINT, NOUGHT = b"-.0"

Columns = tuple[Ints, Bools]
"""Bytes `(n, w)` and whether each is written."""


def element_rows(between: Sequence[str], columns: Sequence[Ints], decimals: int = 0) -> bytes:
    """One element for each row: the texts `between`, one more than the columns, with a number after each but the last.

    columns: whole numbers `(n,)` of steps of `10**-decimals`, written without noughts at their ends.
    """
    size = len(columns[0])
    table = [_text(between[0], size)]
    for column, text in zip(columns, between[1:], strict=True):
        table += [_number(np.asarray(column, dtype=np.int64), decimals), _text(text, size)]
    chars, kept = (np.concatenate(part, axis=1) for part in zip(*table, strict=True))
    return bytes(chars[kept].astype(np.uint8).tobytes())


def _text(text: str, size: int) -> Columns:
    """The same text in every row."""
    own = np.frombuffer(text.encode("ascii"), dtype=np.uint8)
    return np.broadcast_to(own, (size, len(own))), np.ones((size, len(own)), dtype=bool)


def _number(steps: Ints, decimals: int) -> Columns:
    """A number a row: its sign, digits, point and decimals."""
    size = np.abs(steps)
    places = max(len(str(int(size.max(initial=0)))), decimals + 1)
    digits = size[:, None] // 10 ** np.arange(places - 1, -1, -1) % 10
    whole, part = digits[:, : places - decimals], digits[:, places - decimals :]
    begun = np.logical_or.accumulate(whole > 0, axis=1)
    begun[:, -1] = True
    last = np.logical_or.accumulate((part > 0)[:, ::-1], axis=1)[:, ::-1]
    signs, points = (np.full((len(steps), 1), sign) for sign in (MINUS, POINT))
    kept = [(steps < 0)[:, None], begun, last.any(axis=1, keepdims=True), last]
    return np.concatenate([signs, whole + NOUGHT, points, part + NOUGHT], axis=1), np.concatenate(kept, axis=1)
