"""Colours and words looked up from parts."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fidpath.geometry.parts import Part
from fidpath.meshing.meshes import Mesh
from fidpath.scene.colours import PALETTE, colour_of, colours_of, material_of, materials
from fidpath.scene.part_words import PART_WORDS
from fidpath.scene.scene import Coat, Solid


def _points(count: int) -> Mesh:
    return Mesh(np.zeros((count, 3)), np.zeros((0, 3), dtype=np.int64))


def test_every_part_has_a_look_words_of_its_own_and_fits_a_byte() -> None:
    assert set(materials()) == set(PART_WORDS) == set(Part)
    assert len(set(PART_WORDS.values())) == len(Part) == len({part.key for part in Part})
    assert min(Part) >= 0 and max(Part) < 256


def test_each_hand_has_its_colour_and_coats_are_mixed_in_their_order() -> None:
    half = Coat(Part.EYE, np.array([0.0, 0.0, 0.5, 1.0], dtype=np.float32))
    mark = Coat(Part.PEN_MARK, np.array([0.0, 0.0, 0.0, 1.0], dtype=np.float32))
    solid = Solid(_points(4), Part.TAIL, (half, mark), dark=np.array([False, True, False, False]))
    middle = np.round((np.array(PALETTE.tail[0]) + np.array(PALETTE.eye[0])) / 2)
    expected = [PALETTE.tail[0], PALETTE.tail[1], middle.tolist(), PALETTE.ink]
    assert colours_of(solid).tolist() == [list(colour) for colour in expected]


def test_cut_faces_are_paler_and_flat() -> None:
    whole, cap = Solid(_points(1), Part.TAIL), Solid(_points(1), Part.TAIL, cap=True)
    assert (colours_of(cap)[0] > colours_of(whole)[0]).all()
    assert material_of(cap).flat and material_of(cap).gloss == 0.0 and not material_of(whole).flat


def test_another_palette_is_another_colour() -> None:
    blue = replace(PALETTE, metal=(10, 20, 200))
    assert colour_of(Part.FID, blue) == (10, 20, 200) == tuple(colours_of(Solid(_points(1), Part.FID), blue)[0])
    assert colour_of(Part.FID) == PALETTE.metal
