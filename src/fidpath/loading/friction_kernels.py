"""Compiled loops of contact between strands, with friction that holds.

A contact gives a little, across and along the surface. So a contact that sticks keeps its friction from sweep to sweep;
hard contact would let it leak away. `normal` `(pairs,)` and `tangent` `(pairs, 3)` are the contacts' multipliers.
"""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Floats, Ints
from fidpath.machine.compiled import jit, jit_part
from fidpath.settling import closest

Triple = tuple[float, float, float]


@jit_part
def _toward(x: Floats, i: int, j: int, a: float, b: float) -> Triple:
    """From the place at share b of segment j to the place at share a of segment i."""
    return (
        (1 - a) * x[i, 0] + a * x[i + 1, 0] - (1 - b) * x[j, 0] - b * x[j + 1, 0],
        (1 - a) * x[i, 1] + a * x[i + 1, 1] - (1 - b) * x[j, 1] - b * x[j + 1, 1],
        (1 - a) * x[i, 2] + a * x[i + 1, 2] - (1 - b) * x[j, 2] - b * x[j + 1, 2],
    )


@jit_part
def _weight(mobility: Floats, i: int, j: int, a: float, b: float, n: Triple) -> float:
    """How far the two places part along n for a unit of push between them."""
    total = 0.0
    for c in range(3):
        total += (
            n[c]
            * n[c]
            * (
                (1 - a) ** 2 * mobility[i, c]
                + a * a * mobility[i + 1, c]
                + (1 - b) ** 2 * mobility[j, c]
                + b * b * mobility[j + 1, c]
            )
        )
    return total


@jit_part
def _push(x: Floats, mobility: Floats, i: int, j: int, a: float, b: float, f: Triple) -> None:
    """Moves segment i by a push f at share a, and segment j the other way at share b."""
    for c in range(3):
        x[i, c] += (1 - a) * mobility[i, c] * f[c]
        x[i + 1, c] += a * mobility[i + 1, c] * f[c]
        x[j, c] -= (1 - b) * mobility[j, c] * f[c]
        x[j + 1, c] -= b * mobility[j + 1, c] * f[c]


@jit_part
def across(v: Triple, n: Triple) -> Triple:
    """The part of v that lies across n."""
    along = v[0] * n[0] + v[1] * n[1] + v[2] * n[2]
    return v[0] - along * n[0], v[1] - along * n[1], v[2] - along * n[2]


@jit_part
def within(v: Triple, most: float) -> Triple:
    """v, shortened to `most` where it is longer: Coulomb's limit."""
    length = np.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2])
    share = most / length if length > most else 1.0
    return share * v[0], share * v[1], share * v[2]


@jit
def look(
    x: Floats,
    pairs: Ints,
    thick: Floats,
    margin: float,
    apart_until: Floats,
    closed: float,
    active: Ints,
    normal: Floats,
    tangent: Floats,
    out: Floats,
) -> int:
    """Lists in `active` the pairs nearer than `margin` beyond contact; the others forget their multipliers.

    `closed`: the most by which any gap can have closed since the pairs were listed; `apart_until` `(pairs,)`: a pair's
    gap when last looked at plus `closed` then, -inf before. A pair that they show to be farther apart isn't looked at.
    Returns how many there are; `out[0]` takes the least distance of any of them.
    """
    count, least = 0, 1e300
    for m in range(len(pairs)):
        if apart_until[m] > margin + closed:
            continue
        i, j = pairs[m, 0], pairs[m, 1]
        _, _, squared = closest(x, i, j)
        own = 0.5 * (thick[i] + thick[j])
        apart_until[m] = np.sqrt(squared) - own + closed
        if squared < (own + margin) ** 2:
            active[count] = m
            count += 1
            least = min(least, squared)
        else:
            normal[m] = 0.0
            tangent[m, 0] = tangent[m, 1] = tangent[m, 2] = 0.0
    out[0] = np.sqrt(least)
    return count


@jit
def carry_contacts(
    x: Floats,
    before: Floats,
    mobility: Floats,
    pairs: Ints,
    active: Ints,
    count: int,
    normal: Floats,
    tangent: Floats,
) -> None:
    """Pushes nodes by the last sweep's multipliers, turned to how the contacts lie at the beginning of this one."""
    for q in range(count):
        m = active[q]
        if normal[m] <= 0.0:
            continue
        i, j = pairs[m, 0], pairs[m, 1]
        a, b, squared = closest(before, i, j)
        gap, distance = _toward(before, i, j, a, b), np.sqrt(squared)
        n = (gap[0] / distance, gap[1] / distance, gap[2] / distance)
        t = across((tangent[m, 0], tangent[m, 1], tangent[m, 2]), n)
        tangent[m, 0], tangent[m, 1], tangent[m, 2] = t
        p = normal[m]
        _push(x, mobility, i, j, a, b, (p * n[0] + t[0], p * n[1] + t[1], p * n[2] + t[2]))


@jit_part
def rubbed(held: Triple, slip: Triple, n: Triple, soft: float, most: float) -> Triple:
    """A contact's friction after a slip in this sweep, `held` before; `soft`: the slip that a unit of it stands for."""
    u = across(slip, n)
    t = (held[0] - u[0] / soft, held[1] - u[1] / soft, held[2] - u[2] / soft)
    return within(across(t, n), most)


@jit
def press(
    x: Floats,
    before: Floats,
    mobility: Floats,
    pairs: Ints,
    active: Ints,
    count: int,
    thick: Floats,
    friction: float,
    normal: Floats,
    tangent: Floats,
    give: float,
    slip_give: float,
) -> None:
    """One pass over the contacts, one after another: each is brought to its balance of press, friction and gap."""
    for q in range(count):
        m = active[q]
        i, j = pairs[m, 0], pairs[m, 1]
        a, b, squared = closest(x, i, j)
        thickness, distance = 0.5 * (thick[i] + thick[j]), np.sqrt(squared)
        if (distance >= thickness and normal[m] <= 0.0) or distance < 1e-12:
            continue
        gap = _toward(x, i, j, a, b)
        n = (gap[0] / distance, gap[1] / distance, gap[2] / distance)
        weight = _weight(mobility, i, j, a, b, n)
        if weight < 1e-9:
            continue
        new = max(0.0, normal[m] + (thickness - distance - give * normal[m]) / (weight + give))
        p = new - normal[m]
        normal[m] = new
        f = (p * n[0], p * n[1], p * n[2])
        if friction > 0:
            was = _toward(before, i, j, a, b)
            slip = (gap[0] - was[0], gap[1] - was[1], gap[2] - was[2])
            held = (tangent[m, 0], tangent[m, 1], tangent[m, 2])
            t = rubbed(held, slip, n, weight + slip_give, friction * new)
            tangent[m, 0], tangent[m, 1], tangent[m, 2] = t
            f = (f[0] + t[0] - held[0], f[1] + t[1] - held[1], f[2] + t[2] - held[2])
        _push(x, mobility, i, j, a, b, f)
