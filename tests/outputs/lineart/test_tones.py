"""Greys and hatches by what a surface is."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest

from fidpath.meshing.meshes import Mesh
from fidpath.outputs.lineart.tones import LOOKS, Tone, luminance, vertex_tones
from fidpath.scene.scene import PALETTE, Solid
from scenes.line_art import flat_square


def test_legs_are_told_apart_without_colour() -> None:
    legs = (Tone.STANDING, Tone.EYE, Tone.BETWEEN, Tone.TAIL)
    for a, b in combinations(legs, 2):
        one, other = (luminance((round(255 * LOOKS[t].grey),) * 3) for t in (a, b))
        assert abs(one - other) >= 0.25 or LOOKS[a].hatch != LOOKS[b].hatch
    groups = [(LOOKS[t].grey, LOOKS[t].hatch, LOOKS[t].dash) for t in (*legs, Tone.TOP, Tone.BOTTOM, Tone.CUT)]
    assert len(set(groups)) == len(groups)


@pytest.mark.parametrize(
    ("colour", "tone"),
    [
        (PALETTE.standing[1], Tone.STANDING),
        (PALETTE.eye[0], Tone.EYE),
        (PALETTE.between[1], Tone.BETWEEN),
        (PALETTE.tail[0], Tone.TAIL),
        (PALETTE.top_group, Tone.TOP),
        (PALETTE.bottom_group, Tone.BOTTOM),
        (PALETTE.ink, Tone.MARK),
        (PALETTE.dotted_face, Tone.BLACK),
    ],
)
def test_a_vertex_has_the_tone_of_its_colour(colour: tuple[int, int, int], tone: Tone) -> None:
    rope = Solid("rope", flat_square(1.0), np.tile(np.array(colour, dtype=np.uint8), (4, 1)))
    assert vertex_tones(rope).tolist() == [tone] * 4


def test_mixed_colours_go_to_the_nearer_stretch_of_their_strand() -> None:
    eye, tail = np.array(PALETTE.eye[0], dtype=float), np.array(PALETTE.between[0], dtype=float)
    share = np.array([0.0, 0.0, 0.3, 0.8, 1.0, 1.0])[:, None]
    station, strand = np.array([0.0, 1.0, 2.0, 3.0, 4.0, 5.0]), np.zeros(6, dtype=np.int64)
    mesh = Mesh(np.zeros((6, 3)), np.zeros((0, 3), dtype=np.int64), None, station, strand)
    tones = vertex_tones(Solid("rope", mesh, (eye * (1 - share) + tail * share).round().astype(np.uint8)))
    assert tones.tolist() == [Tone.EYE] * 3 + [Tone.BETWEEN] * 3


def test_things_are_white_or_black_and_cut_strands_hatched() -> None:
    assert vertex_tones(Solid("fid", flat_square(1.0), PALETTE.metal))[0] == Tone.THING
    assert vertex_tones(Solid("arrow", flat_square(1.0), PALETTE.arrow))[0] == Tone.BLACK
    cut = Solid("cut faces", flat_square(1.0), np.zeros((4, 3), dtype=np.uint8), flat=True)
    assert vertex_tones(cut)[0] == Tone.CUT
