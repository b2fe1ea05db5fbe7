"""Braid geometry: Brunschweiler, J. Text. Inst. 44 (1953) T666 (exact); crossings by counting (exact)."""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest
from numpy.typing import NDArray

from fidpath.geometry.braid import Braid, fitted, lift, straight, strand_angles
from fidpath.job.job import Weave, closes

Floats = NDArray[np.float64]
CLOSED: list[tuple[int, Weave]] = [
    *((strands, "over-two") for strands in (8, 12, 16)),
    *((strands, "over-one") for strands in (8, 10, 12, 16)),
]
CROSSINGS = {8: 32, 10: 50, 12: 72, 16: 128}


def test_braid_angle_and_strand_path_per_pitch() -> None:
    braid = Braid(12, "over-two", 9.0, 80.0, 1.0, 4.0, 0.0)
    assert np.degrees(braid.angle) == pytest.approx(17.440594, abs=1e-6)
    station = np.linspace(0, 80, 200001)
    path = np.linalg.norm(np.diff(straight(braid, station)[0], axis=0), axis=1).sum()
    assert path == pytest.approx(83.854962, abs=1e-5)


@pytest.mark.parametrize(("strands", "fits"), [(8, True), (10, False), (12, True), (14, False), (16, True)])
def test_over_two_closes_only_for_multiples_of_four(strands: int, fits: bool) -> None:
    assert closes(strands, "over-two") is fits
    assert closes(strands, "over-one")
    turn = np.array([0.3])
    angle = strand_angles(strands, 7.0, turn)
    again = lift(strands, "over-two", 7.0, turn, angle + 2 * np.pi)
    assert np.allclose(again, lift(strands, "over-two", 7.0, turn, angle)) is fits


def _laid(strands: int, weave: Weave, pitch: float, station: Floats) -> Floats:
    """Strands of straight rope of diameter 1, `(strands, n, 3)`, as thick as they fit."""
    return straight(Braid(strands, weave, 1.0, pitch, *fitted(strands, weave, pitch)), station)


def _crossings(strands: int, weave: Weave) -> list[list[tuple[float, int, bool]]]:
    """For each strand, its crossings over one pitch in order: station, other strand, whether it runs over.

    Read from the laid centre lines alone: two strands cross where they lie at one angle round the axis.
    """
    pitch, n = 7.0, 4200
    station = (np.arange(n + 1) + 0.37) * pitch / n
    lines = _laid(strands, weave, pitch, station)
    out, angle = np.hypot(lines[..., 1], lines[..., 2]), np.arctan2(lines[..., 2], lines[..., 1])
    found: list[list[tuple[float, int, bool]]] = [[] for _ in range(strands)]
    for a, b in permutations(range(strands), 2):
        apart = angle[a] - angle[b]
        meet = (np.sign(np.sin(apart[1:])) != np.sign(np.sin(apart[:-1]))) & (np.cos(apart[1:]) > 0)
        found[a] += [(float(station[i]), b, bool(out[a, i] > out[b, i])) for i in np.flatnonzero(meet)]
    return [sorted(row) for row in found]


@pytest.mark.parametrize(("strands", "weave"), CLOSED)
def test_crossings_per_pitch_and_their_order(strands: int, weave: Weave) -> None:
    found = _crossings(strands, weave)
    assert [len(row) for row in found] == [strands] * strands
    assert sum(len(row) for row in found) / 2 == strands**2 / 2 == CROSSINGS[strands]
    for row in found:
        assert np.diff([at for at, _, _ in row]) == pytest.approx(7.0 / strands, abs=0.01)
        over = [above for _, _, above in row]
        run = 2 if weave == "over-two" else 1
        assert all(over[i] != over[(i + run) % strands] for i in range(strands))


FITTED = [(*braid, pitch) for braid in CLOSED for pitch in (5.0, 7.0, 8.0, 10.0, 12.0)]


@pytest.mark.parametrize(("strands", "weave", "pitch"), FITTED)
def test_fitted_strands_just_clear_one_another(strands: int, weave: Weave, pitch: float) -> None:
    # A strand of either hand against all others over two picks either way, the weave's whole period.
    station = np.arange(0, 1.5 * pitch, 0.02)
    lines = _laid(strands, weave, pitch, station)
    middle = np.abs(station - 0.75 * pitch) < 2.2 * pitch / strands
    thickness, radius, undulation = fitted(strands, weave, pitch)
    for a in (0, 1):
        others = np.delete(lines, a, axis=0).reshape(-1, 3)
        gap = np.sqrt(((lines[a, middle, None] - others) ** 2).sum(axis=-1)).min()
        assert gap == pytest.approx(thickness, rel=0.003)
    peak = np.sqrt(2) if weave == "over-two" else 1.0
    assert radius + peak * undulation + thickness / 2 == pytest.approx(0.5)
