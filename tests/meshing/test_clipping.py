"""Clipped rays against the law itself, written out for every neighbour without cells, in one strand that tapers."""

from __future__ import annotations

import numpy as np

from fidpath.meshing.clipping import BEYOND, EXPONENT, ROUNDING, SELF_REACH, FreeSections, clipped

N, RAYS, STEP = 30, 8, 0.7


def _model() -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray, FreeSections]:
    """Three wavy strands of two ropes, the last one shorter and its rope tapering, one of them bent back on itself."""
    along = STEP * np.arange(N)
    rng = np.random.default_rng(5)
    centres = np.stack([np.column_stack([along, np.full(N, y), np.zeros(N)]) for y in (0.0, 1.3, -1.1)])
    centres[1, 15:, 0] = centres[1, 15, 0] - 0.5 * (centres[1, 15:, 0] - centres[1, 15, 0])
    centres[1, 15:, 2] += np.minimum(0.4 * np.arange(15), 1.6)
    centres += 0.1 * rng.normal(size=centres.shape)
    tangents = np.gradient(centres, axis=1)
    tangents /= np.linalg.norm(tangents, axis=2)[..., None]
    flat = np.cross(tangents, [0.0, 0.6, 0.8])
    flat /= np.linalg.norm(flat, axis=2)[..., None]
    thickness = np.stack([np.full(N, 1.0), np.concatenate([np.full(N // 2, 1.0), np.linspace(1.0, 0.5, N - N // 2)])])
    angles = 2 * np.pi * np.arange(RAYS) / RAYS
    free = FreeSections(1.2 * thickness, 0.7 * thickness, thickness, angles, np.array([0, 1, 1]))
    return centres, tangents, flat, np.array([N, N, N - 4]), free


def _by_the_law(  # type: ignore[no-untyped-def]
    centres, tangents, count, free, directions
) -> np.ndarray:
    cos, sin = np.abs(np.cos(free.angles)), np.abs(np.sin(free.angles))
    weight = free.thickness[free.rope] ** 2 / 4
    slack = int(np.ceil(SELF_REACH * free.thickness.max() / _usual_step(centres, count)))
    radii = np.zeros(directions.shape[:3])
    for k, i in ((strand, at) for strand in range(3) for at in range(count[strand])):
        own = free.rope[k]
        longest = ((cos / free.width[own, i]) ** EXPONENT + (sin / free.height[own, i]) ** EXPONENT) ** (-1 / EXPONENT)
        size = longest.max()
        reach = BEYOND * (size + np.sqrt(size**2 + weight.max() - weight[k, i]))
        planes = [np.zeros(3)]
        for other, j in ((strand, at) for strand in range(3) for at in range(count[strand] - 1)):
            if other == k and abs(j - i) < slack:
                continue
            begin, end = centres[other, j] - centres[k, i], centres[other, j + 1] - centres[k, i]
            step = end - begin
            nearest = -(begin @ step) / (step @ step)
            for place in (0.0, 0.5, 1.0, *([nearest] if 0 <= nearest <= 1 else [])):
                q = begin + place * step
                if np.linalg.norm(q) < reach and np.linalg.norm(begin) <= reach + np.linalg.norm(step):
                    planes.append(2 * q / max(q @ q + weight[k, i] - weight[other, j], 0.1 * q @ q))
        for j in (i - 1, i + 1):
            if 0 <= j < count[k]:
                normal = tangents[k, i] + tangents[k, j]
                planes.append(2 * normal / ((centres[k, j] - centres[k, i]) @ normal))
        most = np.maximum((np.array(planes) @ directions[k, i].T).max(axis=0), 0)
        radii[k, i] = longest / (1 + (longest * most) ** ROUNDING) ** (1 / ROUNDING)
    return radii


def _usual_step(centres: np.ndarray, count: np.ndarray) -> float:
    steps = np.linalg.norm(np.diff(centres, axis=1), axis=2)
    return float(np.median(np.concatenate([steps[k, : count[k] - 1] for k in range(3)])))


def test_rays_are_clipped_as_the_law_says() -> None:
    centres, tangents, flat, count, free = _model()
    radii, directions = clipped(centres, tangents, flat, count, free, np.ones(N, dtype=bool))
    wanted = _by_the_law(centres, tangents, count, free, directions)
    assert np.abs(radii - wanted).max() < 1e-9
    assert (wanted < 0.7).any() and (wanted[2, : N - 4] > 0.9 * free.height[1, : N - 4, None].min()).any()
