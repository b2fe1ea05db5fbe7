"""Greys and hatches by what a surface is, whatever its colour."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations

import numpy as np
import pytest

from fidpath.geometry.parts import Part
from fidpath.meshing.meshes import Mesh
from fidpath.outputs.lineart.line_drawing import line_scene, pdf, svg
from fidpath.outputs.lineart.tones import TONE_STYLES, TONES, Tone, vertex_tones
from fidpath.outputs.pictures.raster import seen
from fidpath.outputs.pictures.rendering import render
from fidpath.scene import colours
from fidpath.scene.colours import Material, colours_of, pair_of
from fidpath.scene.scene import Coat, Solid
from scenes.line_art import flat_square, scene_named
from scenes.steps import small_plan


def test_legs_are_told_apart_without_colour() -> None:
    legs = (Tone.STANDING, Tone.EYE, Tone.BETWEEN, Tone.TAIL)
    for a, b in combinations(legs, 2):
        one, other = ((round(255 * TONE_STYLES[t].grey) / 255) ** 2.2 for t in (a, b))
        assert abs(one - other) >= 0.25 or TONE_STYLES[a].hatch != TONE_STYLES[b].hatch
    styles = [TONE_STYLES[t] for t in (*legs, Tone.TOP, Tone.BOTTOM, Tone.CUT)]
    assert len({(style.grey, style.hatch, style.dash) for style in styles}) == len(styles)


def test_every_part_has_a_tone_and_every_tone_is_printed() -> None:
    assert set(TONES) == set(Part) - {Part.FACE_DOT_RIM}
    assert set(TONES.values()) <= set(TONE_STYLES)


@pytest.mark.parametrize(
    ("part", "tone"),
    [
        (Part.COVER, Tone.STANDING),
        (Part.EYE, Tone.EYE),
        (Part.TAIL_LOCK_LEG, Tone.BETWEEN),
        (Part.TAIL, Tone.TAIL),
        (Part.TOP_GROUP, Tone.TOP),
        (Part.BOTTOM_GROUP, Tone.BOTTOM),
        (Part.PEN_MARK, Tone.MARK),
        (Part.FACE_DOT, Tone.DOT),
        (Part.FOLLOWED_STRAND, Tone.FOLLOWED),
        (Part.FID, Tone.THING),
        (Part.ARROW, Tone.BLACK),
    ],
)
def test_a_vertex_has_the_tone_of_its_part(part: Part, tone: Tone) -> None:
    assert vertex_tones(Solid(flat_square(1.0), part)).tolist() == [tone] * 4
    assert vertex_tones(Solid(flat_square(1.0), part, cap=True)).tolist() == [Tone.CUT] * 4


def test_a_mixed_vertex_goes_to_the_part_that_shows_most() -> None:
    mesh = Mesh(np.zeros((6, 3)), np.zeros((0, 3), dtype=np.int64))
    between = Coat(Part.BETWEEN_THE_HOLES, np.array([0.0, 0.0, 0.3, 0.8, 1.0, 1.0], dtype=np.float32))
    group = np.array([Part.TOP_GROUP, Part.BOTTOM_GROUP] * 3, dtype=np.uint8)
    toned = Coat(group, np.array([0.9, 0.9, 0.2, 0.0, 0.0, 0.0], dtype=np.float32))
    tones = vertex_tones(Solid(mesh, Part.EYE, (between, toned)))
    assert tones.tolist() == [Tone.TOP, Tone.BOTTOM, Tone.EYE, Tone.BETWEEN, Tone.BETWEEN, Tone.BETWEEN]


def test_a_dots_pale_rim_shows_what_lies_below_it() -> None:
    mesh = Mesh(np.zeros((3, 3)), np.zeros((0, 3), dtype=np.int64))
    rim = Coat(Part.FACE_DOT_RIM, np.array([0.0, 1.0, 1.0], dtype=np.float32))
    dot = Coat(Part.FACE_DOT, np.array([0.0, 0.0, 1.0], dtype=np.float32))
    assert vertex_tones(Solid(mesh, Part.EYE, (rim, dot))).tolist() == [Tone.EYE, Tone.EYE, Tone.DOT]


def test_parts_of_one_colour_can_have_two_tones() -> None:
    assert pair_of(Part.TICKS) == pair_of(Part.PEN_MARK)
    assert TONES[Part.TICKS] != TONES[Part.PEN_MARK]


@pytest.mark.parametrize("name", ["h1-second-fid", "3-entry-cut-open"])
def test_another_palette_changes_nothing_in_line_art(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    reach = small_plan().braid.thickness
    panel, before = scene_named(name).panels[0], line_scene(scene_named(name), reach)
    picture = render(seen(panel), reach)

    def alike(_palette: object = None) -> Mapping[Part, Material]:
        return {part: Material(((90, 90, 90), (90, 90, 90))) for part in Part}

    monkeypatch.setattr(colours, "materials", alike)
    colours._table.cache_clear()
    scene_named.cache_clear()
    try:
        assert {tuple(c) for c in colours_of(Solid(flat_square(1.0), Part.EYE)).tolist()} == {(90, 90, 90)}
        after = line_scene(scene_named(name), reach)
        assert svg(after) == svg(before)
        assert pdf(after) == pdf(before)
        assert (render(seen(panel), reach) != picture).any()
    finally:
        colours._table.cache_clear()
        scene_named.cache_clear()
