"""The braid's law, exactly: lift, lines of strands, fitted sections."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fidpath.geometry import braid as law
from fidpath.geometry.braid import Braid, braid_of, fitted, lift, straight, strand_offsets
from jobs import a_job

ROOT2 = np.sqrt(2.0)


def test_lift_is_one_at_every_crossing_in_the_weaves_order() -> None:
    crossings = 2 * np.pi * np.arange(6) / 12
    angle = np.tile(crossings, (12, 1))
    over = lift(12, "over-two", 7.0, np.zeros(6), angle)
    assert over[0] == pytest.approx([1, 1, -1, -1, 1, 1])
    assert over[1] == pytest.approx(-over[0])
    assert lift(12, "over-two", 7.0, np.zeros(1), np.full((12, 1), np.pi / 12))[4] == pytest.approx([ROOT2])
    plain = lift(8, "over-one", 40.0, np.array([0.0, 5.0, 10.0, 12.5]), np.zeros((8, 4)))
    assert plain[:2] == pytest.approx(np.array([[1, -1, 1, 0], [-1, 1, -1, 0]]), abs=1e-12)


def test_strands_of_straight_rope_lie_at_mean_radius_and_their_wave() -> None:
    braid = Braid(8, "over-one", 10.0, 40.0, 2.0, 3.5, 0.5)
    radius, angle = strand_offsets(braid, np.array([0.0, 5.0]))
    assert radius[:2] == pytest.approx(np.array([[4.0, 3.0], [3.0, 4.0]]))
    assert angle[:2, 1] == pytest.approx([np.pi / 4, -np.pi / 4])
    assert straight(braid, np.array([10.0]))[0, 0] == pytest.approx([10.0, 0.0, 4.0])
    swollen, _ = strand_offsets(braid, np.array([0.0, 5.0]), radius=np.array([6.0, 7.0]))
    assert swollen[0] == pytest.approx([6.5, 6.5])
    pressed, _ = strand_offsets(braid, np.array([0.0, 5.0]), undulation=np.array([0.25, 0.125]))
    assert pressed[0] == pytest.approx([3.75, 3.375])


@pytest.mark.parametrize("foot", [0.7, 1.0, 1.3, 2.4, 4.0, 4.45])
def test_valley_of_a_parabola_is_its_foot(foot: float) -> None:
    samples = (np.arange(6.0) - foot) ** 2 + 0.25
    assert law._valley(samples) == pytest.approx(0.25)
    assert law._valley(np.stack([samples, samples + 1])) == pytest.approx([0.25, 1.25])


def test_valley_at_an_end_and_of_flat_ground_stands_as_it_is() -> None:
    slope = np.array([1.0, 1.5, 3.0, 5.0])
    assert law._valley(slope) == 1.0
    assert law._valley(slope[::-1]) == 1.0
    assert law._valley(np.full(5, 2.0)) == 2.0


def test_a_ropes_braid_is_the_fitted_one_in_its_own_size() -> None:
    rope = replace(a_job(d=8.0).rope, pitch_mm=8.0 * 7.1234564)
    thickness, radius, undulation = fitted(12, "over-two", 7.123456)
    assert braid_of(rope) == Braid(12, "over-two", 8.0, rope.pitch_mm, 8 * thickness, 8 * radius, 8 * undulation)
