"""Small figures for the handout: everything a scene's panels showed is still shown, in one low row."""

from __future__ import annotations

import itertools
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from fidpath.geometry.parts import Part
from fidpath.meshing.meshes import Mesh
from fidpath.outputs.handout.compact_scenes import HEAD, compact
from fidpath.scene.scene import Camera, Chip, Panel, Scene, Section, Solid, Words, project


def cloud(seed: int, spread: tuple[float, float, float]) -> NDArray[np.float64]:
    return np.random.default_rng(seed).uniform(-1, 1, (60, 3)) * np.array(spread)


def a_panel(seed: int, box: tuple[int, int, int, int], spread: tuple[float, float, float], cut: bool = False) -> Panel:
    mesh = Mesh(cloud(seed, spread), np.zeros((0, 3), dtype=np.int64))
    rows = [(x, y) for x in (-6.0, 0.0, 6.0) for y in (-8.0, 8.0)]
    chips = tuple(Chip("1", (x, y, 0.0), Part.TOP_GROUP, (x, 0.0, 0.0)) for x, y in rows) if cut else ()
    camera = Camera((3.0, -2.0, 0.0), 120.0, (0.8, 0.6, 0.0), (-0.6, 0.8, 0.0))
    return Panel(box, camera, (Solid(mesh, Part.EYE),), letter="A", chips=chips, across=cut)


def a_scene(count: int) -> Scene:
    tall = [a_panel(i, (400 * i, 0, 390, 800), (40.0, 20.0 + 5 * i, 5.0), i == 2) for i in range(count)]
    words = Words((0, 0, 9, 9), (Section("Do", ()),))
    return Scene("s", "title", tuple(tall), notes=("n",), words=(words,))


def test_all_that_was_seen_is_seen_from_the_same_side() -> None:
    scene = a_scene(3)
    small = compact(scene)
    for before, after in zip(scene.panels, small.panels, strict=True):
        cut = np.array([chip.at for chip in before.chips])
        points = cut if len(cut) else before.solids[0].mesh.points
        x, y, width, height = before.box
        was = project(before, points)
        seen = (was[:, 0] > x) & (was[:, 0] < x + width) & (was[:, 1] > y) & (was[:, 1] < y + height)
        assert seen.sum() > (5 if len(cut) else 20)
        x, y, width, height = after.box
        spots = project(after, points[seen])
        assert (spots[:, 0] > x).all() and (spots[:, 0] < x + width).all()
        assert (spots[:, 1] > y).all() and (spots[:, 1] < y + height).all()
        assert (after.camera.right, after.camera.up) == (before.camera.right, before.camera.up)
        assert after.solids is before.solids and after.letter == before.letter


def test_one_low_row_that_fills_its_width() -> None:
    for count in (1, 2, 3):
        small = compact(a_scene(count))
        boxes = [panel.box for panel in small.panels]
        assert all(a[0] + a[2] <= b[0] for a, b in itertools.pairwise(boxes))
        assert {(box[1], box[3]) for box in boxes} == {(HEAD, small.size[1] - HEAD)}
        assert {panel.head for panel in small.panels} == {HEAD}
        assert boxes[0][0] == 0 and boxes[-1][0] + boxes[-1][2] == small.size[0]
        assert small.size[0] > 3 * small.size[1]
        assert not small.words and not small.notes and not small.key


def test_many_panels_of_a_step_stand_in_two_rows_or_in_a_higher_one_and_a_mistakes_in_one_low_row() -> None:
    step, mistake = a_scene(4), replace(a_scene(4), words=(a_scene(4).words[0],) * 2)
    many, low = compact(step), compact(mistake)
    assert many.size[1] > 0.45 * many.size[0] > low.size[1]
    assert len({panel.box[1] for panel in low.panels}) == 1
    for a, b in itertools.combinations([panel.box for panel in many.panels], 2):
        assert a[0] + a[2] <= b[0] or b[0] + b[2] <= a[0] or a[1] + a[3] <= b[1] or b[1] + b[3] <= a[1]
    assert sum(panel.scale for panel in many.panels) > 1.1 * sum(panel.scale for panel in low.panels)


def test_what_was_shown_in_one_scale_still_is() -> None:
    one, other, cut = compact(a_scene(3)).panels
    assert one.scale == other.scale != cut.scale


def test_a_cut_is_as_large_as_its_numbers_allow() -> None:
    """Its strands are what is counted: the numbers' rows fill most of the panel's height."""
    cut = compact(a_scene(3)).panels[2]
    spots = project(cut, np.array([chip.at for chip in cut.chips]))
    assert np.ptp(spots[:, 1]) > 0.6 * cut.box[3]
