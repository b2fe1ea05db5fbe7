"""Linking, writhe, thickness and frames of closed polygons: what a splice is judged by, tested on closed-form curves.

Linking and writhe: the exact sum of signed solid angles of segment pairs (polygon form of the Gauss integral; Klenin &
Langowski for the writhe). Thickness: half the least distance between curves, or the least radius of curvature.
Frames: double reflection, Wang, Juttler, Zheng & Liu, ACM Trans. Graph. 27(1) (2008) art. 2.
"""

from __future__ import annotations

import numpy as np

from fidpath.arrays import Bools, Floats
from fidpath.checking.segments import closest


def _unit(v: Floats) -> Floats:
    size = np.linalg.norm(v, axis=-1, keepdims=True)
    return np.asarray(np.divide(v, size, out=np.zeros_like(v), where=size > 1e-300))


def _solid_angles(a: Floats, b: Floats) -> Floats:
    """Signed area/(4 pi) that each pair of segments of closed polygons a `(n, 3)` and b `(m, 3)` spans, `(n, m)`."""
    p, q = a[:, None], np.roll(a, -1, axis=0)[:, None]
    r, s = b[None], np.roll(b, -1, axis=0)[None]
    pr, ps, qr, qs = r - p, s - p, r - q, s - q
    faces = [_unit(np.cross(x, y)) for x, y in ((pr, ps), (ps, qs), (qs, qr), (qr, pr))]
    total = np.zeros(np.broadcast_shapes(p.shape, r.shape)[:2])
    for here, after in zip(faces, [*faces[1:], faces[0]], strict=True):
        total += np.arcsin(np.clip((here * after).sum(axis=-1), -1, 1))
    sign = np.sign((np.cross(s - r, q - p) * pr).sum(axis=-1))
    return np.asarray(total * sign / (4 * np.pi))


def linking(a: Floats, b: Floats) -> float:
    """Linking number of two closed polygons `(n, 3)` and `(m, 3)`; a whole number up to rounding (Gauss)."""
    return float(_solid_angles(a, b).sum())


def writhe(a: Floats) -> float:
    """Writhe of a closed polygon `(n, 3)` (Klenin & Langowski's sum over pairs of segments)."""
    angles = _solid_angles(a, a)
    n = len(a)
    i, j = np.indices(angles.shape)
    apart = (i != j) & ((i - j) % n != 1) & ((j - i) % n != 1)
    return float(angles[apart].sum())


def distance(a: Floats, b: Floats) -> float:
    """Least distance of two closed polygons `(n, 3)` and `(m, 3)`, in their own unit."""
    return _least(a, b, np.ones((len(a), len(b)), dtype=bool))


def _least(a: Floats, b: Floats, picked: Bools) -> float:
    """Least distance of the segments of two closed polygons over the pairs picked, `(n, m) bool`; inf if none is."""
    i, j = np.nonzero(picked)
    after_a, after_b = np.roll(a, -1, axis=0), np.roll(b, -1, axis=0)
    return float(closest(a[i], after_a[i], b[j], after_b[j])[2].min(initial=np.inf))


def least_radius(a: Floats) -> float:
    """Least radius of the circles through three consecutive points of a closed polygon."""
    u, v = a - np.roll(a, 1, axis=0), np.roll(a, -1, axis=0) - a
    area = np.linalg.norm(np.cross(u, v), axis=1)
    sides = np.linalg.norm(u, axis=1) * np.linalg.norm(v, axis=1) * np.linalg.norm(u + v, axis=1)
    return float((sides / np.maximum(2 * area, 1e-300)).min())


def tube_radius(curves: list[Floats]) -> float:
    """Greatest radius of tubes round a link's components `(n, 3)` that neither overlap nor fold: its thickness.

    Distances of a component from itself count where the chord is square to it at both ends. Between such ends it
    turns by half a turn or more, so they lie at least half a turn of its tightest bend apart along it; and of pairs
    that far apart the nearest is either such a chord or no shorter than that bend's diameter.
    """
    radius = min(least_radius(curve) for curve in curves)
    for i, a in enumerate(curves):
        radius = min([radius, _own_distance(a) / 2, *(distance(a, b) / 2 for b in curves[:i])])
    return radius


def _own_distance(a: Floats) -> float:
    """Least distance between segments of one closed polygon half a turn of its tightest bend apart or more."""
    step = np.linalg.norm(np.roll(a, -1, axis=0) - a, axis=1)
    along = np.concatenate([[0.0], np.cumsum(step)[:-1]])
    whole = float(step.sum())
    apart = np.abs(along[:, None] - along[None])
    apart = np.minimum(apart, whole - apart)
    return _least(a, a, np.triu(apart > np.pi * least_radius(a) * 0.999))


def double_reflection(points: Floats, tangents: Floats, first: Floats) -> Floats:
    """Rotation-minimising frame vectors `(n, 3)` along points with unit tangents `(n, 3)`, starting from `first`."""
    frame = np.empty_like(points)
    frame[0] = first
    for i in range(len(points) - 1):
        step = points[i + 1] - points[i]
        square = step @ step
        turned = frame[i] - 2 / square * (step @ frame[i]) * step
        tangent = tangents[i] - 2 / square * (step @ tangents[i]) * step
        mirror = tangents[i + 1] - tangent
        size = mirror @ mirror
        frame[i + 1] = turned if size < 1e-300 else turned - 2 / size * (mirror @ turned) * mirror
    return frame
