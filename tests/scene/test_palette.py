"""Colours that every eye, and print in grey, can tell apart."""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from fidpath.scene.colours import PALETTE, Colour

PROTAN = np.array([[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]])
DEUTAN = np.array([[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]])
"""What a person without long- or middle-wave cones sees, in linear RGB: Machado, Oliveira & Fernandes, IEEE Trans. Vis.
Comput. Graph. 15 (2009) 1291, from memory."""


SIGHTS = {"common": np.eye(3), "protan": PROTAN, "deutan": DEUTAN}


def _lab(colour: Colour, sight: np.ndarray) -> np.ndarray:
    """CIE L*a*b* (CIE 15) of an sRGB colour as somebody sees it."""
    c = np.array(colour) / 255
    linear = np.clip(sight @ np.where(c <= 0.04045, c / 12.92, ((c + 0.055) / 1.055) ** 2.4), 0, 1)
    to_xyz = np.array(
        [[0.4124564, 0.3575761, 0.1804375], [0.2126729, 0.7151522, 0.0721750], [0.0193339, 0.1191920, 0.9503041]]
    )
    share = (to_xyz @ linear) / to_xyz.sum(axis=1)
    f = np.where(share > (6 / 29) ** 3, np.cbrt(share), share / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def test_the_colour_space_gives_what_is_known() -> None:
    assert _lab((255, 255, 255), np.eye(3)) == pytest.approx([100, 0, 0], abs=0.05)
    assert _lab((255, 0, 0), np.eye(3)) == pytest.approx([53.24, 80.09, 67.20], abs=0.1)
    red, green = (np.linalg.norm(_lab((200, 60, 40), s) - _lab((110, 130, 40), s)) for s in (np.eye(3), DEUTAN))
    assert red > 3 * green


@pytest.mark.parametrize("sight", SIGHTS)
def test_stretches_groups_and_faces_are_told_apart_by_every_eye(sight: str) -> None:
    stretches = (PALETTE.standing, PALETTE.eye, PALETTE.between, PALETTE.tail)
    for one, other in itertools.combinations(stretches, 2):
        for a, b in zip(one, other, strict=True):
            assert np.linalg.norm(_lab(a, SIGHTS[sight]) - _lab(b, SIGHTS[sight])) > 20
    marked = (PALETTE.top_group, PALETTE.bottom_group, PALETTE.dotted_face, PALETTE.plain_face)
    for one, other in itertools.combinations(marked, 2):
        assert np.linalg.norm(_lab(one, SIGHTS[sight]) - _lab(other, SIGHTS[sight])) > 30
    for tone, pair in itertools.product(marked, stretches):
        assert min(np.linalg.norm(_lab(tone, SIGHTS[sight]) - _lab(c, SIGHTS[sight])) for c in pair) > 17


def test_print_in_grey_tells_stretches_groups_and_faces_apart() -> None:
    lights = {name: [_lab(c, np.eye(3))[0] for c in getattr(PALETTE, name)] for name in ("standing", "eye", "tail")}
    assert min(lights["standing"]) > max(lights["eye"]) + 3 > min(lights["eye"]) > max(lights["tail"]) + 3
    chequered = [_lab(c, np.eye(3))[0] for c in PALETTE.between]
    assert chequered[0] - chequered[1] > 2 * max(pair[0] - pair[1] for pair in lights.values())
    for one, other in ((PALETTE.top_group, PALETTE.bottom_group), (PALETTE.plain_face, PALETTE.dotted_face)):
        assert _lab(one, np.eye(3))[0] - _lab(other, np.eye(3))[0] > 35
