"""Braid geometry: Brunschweiler, J. Text. Inst. 44 (1953) T666 (exact); crossings by counting (exact)."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.braid import Braid, closes, fitted, hands, lift, straight, strand_angles
from fidpath.job import Weave

CLOSED = [(8, "over-two"), (12, "over-two"), (16, "over-two"), (8, "over-one"), (10, "over-one"), (12, "over-one")]


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


def _crossings(strands: int, weave: Weave) -> list[list[tuple[float, int, bool]]]:
    """For each strand, its crossings over one pitch in order: station, other strand, whether it runs over."""
    pitch, n = 7.0, 4200
    station = (np.arange(n + 1) + 0.37) * pitch / n
    angle = strand_angles(strands, pitch, station)
    over = lift(strands, weave, pitch, station, angle)
    found: list[list[tuple[float, int, bool]]] = [[] for _ in range(strands)]
    for a in range(strands):
        for b in range(strands):
            if hands(strands)[a] == hands(strands)[b]:
                continue
            apart = np.sin((angle[a] - angle[b]) / 2)
            at = np.flatnonzero(np.sign(apart[1:]) != np.sign(apart[:-1]))
            found[a] += [(float(station[i]), b, bool(over[a, i] > over[b, i])) for i in at]
    return [sorted(row) for row in found]


@pytest.mark.parametrize(("strands", "weave"), CLOSED)
def test_crossings_per_pitch_and_their_order(strands: int, weave: Weave) -> None:
    found = _crossings(strands, weave)
    assert [len(row) for row in found] == [strands] * strands
    assert sum(len(row) for row in found) / 2 == strands**2 / 2
    for row in found:
        assert np.diff([at for at, _, _ in row]) == pytest.approx(7.0 / strands, abs=0.01)
        over = [above for _, _, above in row]
        run = 2 if weave == "over-two" else 1
        assert all(over[i] != over[(i + run) % strands] for i in range(strands))


def test_known_numbers_of_crossings() -> None:
    assert {n: n**2 // 2 for n in (8, 12, 16)} == {8: 32, 12: 72, 16: 128}


@pytest.mark.parametrize(("strands", "weave"), CLOSED)
@pytest.mark.parametrize("pitch", [5.0, 7.0, 10.0])
def test_fitted_strands_just_clear_one_another(strands: int, weave: Weave, pitch: float) -> None:
    thickness, radius, undulation = fitted(strands, weave, pitch)
    braid = Braid(strands, weave, 1.0, pitch, thickness, radius, undulation)
    station = np.arange(0, 1.5 * pitch, 0.02)
    lines = straight(braid, station)
    middle = np.abs(station - 0.75 * pitch) < 0.3 * pitch
    gap = min(
        float(np.linalg.norm(lines[0][middle][:, None] - lines[k][None], axis=2).min()) for k in range(1, strands)
    )
    assert gap == pytest.approx(thickness, rel=0.015)
    peak = np.sqrt(2) if weave == "over-two" else 1.0
    assert radius + peak * undulation + thickness / 2 == pytest.approx(0.5)
