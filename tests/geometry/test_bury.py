"""The bury: lengths of strand kept, the cover's swelling, the taper."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fidpath.errors import CannotBeMade
from fidpath.geometry.braid import braid_of, straight, strand_offsets
from fidpath.geometry.bury import cover, shortening, strand_per_rope, tail_share, taper
from jobs import a_job


def _braid(**changes: object):  # type: ignore[no-untyped-def]
    return braid_of(a_job(**changes).rope)  # type: ignore[arg-type]


@pytest.mark.parametrize("weave", ["over-two", "over-one"])
def test_strand_per_rope_is_the_length_of_the_strand_as_laid(weave: str) -> None:
    braid = _braid(weave=weave)
    station = np.linspace(0, 2 * braid.pitch, 4001)
    length = np.linalg.norm(np.diff(straight(braid, station), axis=1), axis=2).sum(axis=1)
    assert length / station[-1] == pytest.approx(strand_per_rope(braid), rel=1e-5)


@given(st.floats(1.0, 2.2))
@settings(max_examples=20, deadline=None)
def test_a_swollen_braid_keeps_its_strands_length(swelling: float) -> None:
    braid = _braid()
    radius = braid.radius * swelling
    rate = float(shortening(braid, np.array([radius]))[0])
    station = np.linspace(0, braid.pitch, 4001)
    r, angle = strand_offsets(braid, station, radius)
    laid = np.stack([np.broadcast_to(rate * station, r.shape), r * np.cos(angle), r * np.sin(angle)], axis=-1)
    length = np.linalg.norm(np.diff(laid, axis=1), axis=2).sum(axis=1)
    assert length / braid.pitch == pytest.approx(strand_per_rope(braid), rel=1e-4)


def test_a_braid_asked_to_swell_beyond_its_strands_is_refused() -> None:
    braid = _braid()
    with pytest.raises(CannotBeMade, match="can't swell"):
        shortening(braid, np.array([braid.radius * 5]))


def test_cover_swells_less_and_takes_up_less_the_harder_the_tail_is_squeezed() -> None:
    braid = _braid()
    cut = taper(12, 72 * 10.0, 1 / 3, 5, 10.0)
    soft, middle, hard = (cover(braid, squeeze, cut) for squeeze in (1.0, 0.85, 0.7))
    assert soft.swollen_diameter > middle.swollen_diameter > hard.swollen_diameter > braid.diameter
    assert soft.take_up > middle.take_up > hard.take_up > 0


def test_take_up_is_the_rope_swallowed_beyond_the_cover_span() -> None:
    braid = _braid()
    swallowed = cover(braid, 0.75, taper(12, 720.0, 1 / 3, 5, 10.0))
    assert swallowed.take_up == pytest.approx(np.ptp(swallowed.host) - np.ptp(swallowed.axial), rel=1e-4)


def test_tail_loses_two_strands_a_drop() -> None:
    cut = taper(12, 720.0, 1 / 3, 5, 10.0)
    assert cut.start == pytest.approx(480.0)
    assert np.diff(cut.drops) == pytest.approx(48.0)
    at = tail_share(12, cut, np.array([0.0, 450.0, 720.0]))
    assert at == pytest.approx([1.0, 1.0, 2 / 12])


def test_no_taper_keeps_every_strand_to_the_tip() -> None:
    cut = taper(12, 720.0, 1 / 3, 0, 10.0)
    assert tail_share(12, cut, np.array([0.0, 719.0])) == pytest.approx([1.0, 1.0])


def test_more_drops_than_pairs_are_refused() -> None:
    with pytest.raises(CannotBeMade, match="at most 5"):
        taper(12, 720.0, 1 / 3, 6, 10.0)


def test_a_taper_drops_two_strands_at_a_time_evenly_to_the_tip() -> None:
    cut = taper(12, 720.0, 1 / 3, 5, 10.0)
    assert cut.drops == pytest.approx((480.0, 528.0, 576.0, 624.0, 672.0))
    assert (cut.start, cut.tip, cut.stagger) == pytest.approx((480.0, 720.0, 5.0))
    blunt = taper(12, 720.0, 1 / 3, 0, 10.0)
    assert (blunt.drops, blunt.stagger) == ((720.0,), 0.0)
