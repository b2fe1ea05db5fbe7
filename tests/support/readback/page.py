"""The page's texts read back as the page itself reads them: the opposite of outputs/page/encoding.py."""

from __future__ import annotations

import base64
import zlib

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.outputs.page.encoding import Packed


def unpacked(found: Packed, count: Ints) -> list[Floats]:
    """Every strand's centre line `(count[k], 3) float` mm, as a page makes it again."""
    steps = unplaned(found.text, found.planes)
    lines: list[Floats] = []
    start = 0
    for k, nodes in enumerate(count):
        length = int(nodes) - 3
        table = steps[start : start + 3 * length].reshape(3, length)
        lines.append(np.asarray(_summed(found.first[k], table).T * found.quantum, dtype=np.float64))
        start += 3 * length
    return lines


def _summed(first: Ints, steps: Ints) -> Ints:
    """Values `(3, n)` from their first three `(3, 3)` and third differences `(3, n - 3)`."""
    values = steps
    for order in (2, 1, 0):
        start = np.diff(first, n=order, axis=1)[:, :1]
        values = np.concatenate([start, start + np.cumsum(values, axis=1)], axis=1)
    return values


def unplaned(text: str, planes: int) -> Ints:
    """The whole numbers of `planed`."""
    content = np.frombuffer(zlib.decompress(base64.b64decode(text)), dtype=np.uint8).reshape(planes, -1)
    zigzag = sum((content[plane].astype(np.int64) << (8 * plane)) for plane in range(planes))
    found = np.asarray(zigzag)
    return np.where(found % 2 == 0, found // 2, -(found + 1) // 2)
