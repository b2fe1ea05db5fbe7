"""Compiled loops that draw ropes of given thickness tight without friction.

A closed strand's last node is its first once more: `twin` `(m,)` names a node's double, or the node itself.
"""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.machine.compiled import jit, jit_part
from fidpath.settling import closest


@jit_part
def _ahead(twin: Ints, i: int) -> int:
    """The node after the first node of a segment, or after a closed strand's last one."""
    return twin[i] + 1 if twin[i] < i else i + 1


@jit_part
def _behind(twin: Ints, i: int) -> int:
    return twin[i] - 1 if twin[i] > i else i - 1


@jit_part
def _copy_twin(x: Floats, twin: Ints, i: int) -> None:
    if twin[i] != i:
        for c in range(3):
            x[twin[i], c] = x[i, c]


@jit
def pull(x: Floats, velocity: Floats, twin: Ints, inner: Ints, mobility: Floats, momentum: float, step: float) -> None:
    """Moves every node by momentum and toward the middle of its neighbours, as equal tension would."""
    before = x.copy()
    for q in range(len(inner)):
        i = inner[q]
        ahead, behind = _ahead(twin, i), _behind(twin, i)
        for c in range(3):
            tension = before[behind, c] - 2 * before[i, c] + before[ahead, c]
            x[i, c] += mobility[i, c] * (momentum * velocity[i, c] + step * tension)
        _copy_twin(x, twin, i)


@jit
def push(x: Floats, twin: Ints, mobility: Floats, pairs: Ints, thick: float) -> float:
    """Moves touching segments apart to `thick`; returns the least distance met before."""
    least = 1e300
    for m in range(len(pairs)):
        i, j = pairs[m, 0], pairs[m, 1]
        a, b, squared = closest(x, i, j)
        least = min(least, squared)
        if squared >= thick * thick or squared < 1e-18:
            continue
        distance = np.sqrt(squared)
        weight = (1 - a) ** 2 + a**2 + (1 - b) ** 2 + b**2
        share = (thick - distance) / (distance * weight)
        for c in range(3):
            g = share * (x[i, c] + a * (x[i + 1, c] - x[i, c]) - x[j, c] - b * (x[j + 1, c] - x[j, c]))
            x[i, c] += mobility[i, c] * (1 - a) * g
            x[i + 1, c] += mobility[i + 1, c] * a * g
            x[j, c] -= mobility[j, c] * (1 - b) * g
            x[j + 1, c] -= mobility[j + 1, c] * b * g
        for node in (i, i + 1, j, j + 1):
            _copy_twin(x, twin, node)
    return float(np.sqrt(least))


@jit
def round_off(x: Floats, twin: Ints, inner: Ints, mobility: Floats, radius: float) -> None:
    """Straightens the strands wherever they bend more sharply than `radius`."""
    for q in range(len(inner)):
        i = inner[q]
        ahead, behind = _ahead(twin, i), _behind(twin, i)
        sharp, length = 0.0, 0.0
        for c in range(3):
            sharp += (x[behind, c] - 2 * x[i, c] + x[ahead, c]) ** 2
            length += 0.25 * (x[ahead, c] - x[behind, c]) ** 2
        most = length / radius
        if sharp <= most * most:
            continue
        share = (1 - most / np.sqrt(sharp)) / 1.5
        for c in range(3):
            off = share * (x[behind, c] - 2 * x[i, c] + x[ahead, c])
            x[i, c] += 0.5 * mobility[i, c] * off
            x[behind, c] -= 0.25 * mobility[behind, c] * off
            x[ahead, c] -= 0.25 * mobility[ahead, c] * off
        _copy_twin(x, twin, i)
        _copy_twin(x, twin, behind)
        _copy_twin(x, twin, ahead)
