"""Pictures of a small finished splice: words off the rope, same bytes, cut views that show the tail, crevices dark."""

from __future__ import annotations

import io
from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from fidpath.arrays import Floats
from fidpath.cautions import BESIDE_PICTURES
from fidpath.geometry.parts import Part
from fidpath.meshing.meshes import Mesh
from fidpath.meshing.sections import sections_of
from fidpath.outputs.pictures.composition import compose, on_paper, png
from fidpath.outputs.pictures.raster import seen
from fidpath.outputs.pictures.rendering import render
from fidpath.outputs.pictures.shading import crevices, ink_rows
from fidpath.planning.planner import make_plan
from fidpath.scene.colours import PALETTE, colours_of
from fidpath.scene.finished_views import FINISHED, finished_scene, rope_coats
from fidpath.scene.scene import Callout, Camera, Panel, Scene, Solid, aimed, project, tilted
from fidpath.settling import settle
from fidpath.settling.thin_start import clearest
from fidpath.states.kinds import state_of
from jobs import a_job
from scenes.label_faults import label_faults
from scenes.layout_faults import layout_faults

NAMES = ["1-whole-splice", "2-throat", "3-entry-cut-open", "4-taper-end-cut-open"]


@pytest.fixture(scope="module")
def splice():  # type: ignore[no-untyped-def]
    plan = make_plan(a_job(bury=18.0, bearing=4.0))
    strands = settle(clearest(state_of(plan, "buried"))).strands
    sections = sections_of(strands)
    return plan, strands, {name: finished_scene(name, plan, strands, sections) for name in FINISHED}


@pytest.fixture(scope="module")
def pages(splice):  # type: ignore[no-untyped-def]
    plan, _, scenes = splice
    return {name: compose(scene, plan.braid.thickness) for name, scene in scenes.items()}


def _square(size: float, z: float = 0.0) -> Mesh:
    corners = np.array([[-1, -1, 0], [1, -1, 0], [1, 1, 0], [-1, 1, 0]]) * size / 2 + [0, 0, z]
    return Mesh(corners, np.array([[0, 1, 2], [0, 2, 3]]))


def _like(image: np.ndarray, colour: tuple[int, int, int]) -> float:
    """Share of pixels of a colour's hue, whatever their lightness."""
    pixels = image.reshape(-1, 3).astype(float)
    want = np.array(colour) / np.linalg.norm(colour)
    return float((pixels @ want / np.maximum(np.linalg.norm(pixels, axis=1), 1) > 0.995).mean())


def test_every_picture_is_there(splice) -> None:  # type: ignore[no-untyped-def]
    assert list(splice[2]) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_words_lie_off_the_rope_and_off_one_another(splice, pages, name: str) -> None:  # type: ignore[no-untyped-def]
    page, scene = pages[name], splice[2][name]
    assert label_faults(page.placed, page.solid) == []
    assert layout_faults(page.layout, scene, page.solid) == []
    wanted = sum(len(p.labels) + len(p.dimensions) for p in scene.panels)
    assert len(page.placed) + len(page.layout.left_out) == wanted


@pytest.mark.parametrize("name", NAMES)
def test_pictures_show_rope_and_leave_paper(splice, pages, name: str) -> None:  # type: ignore[no-untyped-def]
    page = pages[name]
    assert page.image.size == splice[2][name].size
    assert 0.04 < page.solid.mean() < 0.7
    assert (np.asarray(page.image)[~page.solid] == 255).mean() > 0.9
    assert BESIDE_PICTURES in splice[2][name].notes


def test_same_splice_same_bytes(splice) -> None:  # type: ignore[no-untyped-def]
    plan, _, scenes = splice
    scene = scenes["4-taper-end-cut-open"]
    content = png(scene, plan.braid.thickness)
    assert content.startswith(b"\x89PNG")
    assert content == png(scene, plan.braid.thickness)


def test_the_cut_shows_the_tail_that_the_cover_hides(splice) -> None:  # type: ignore[no-untyped-def]
    plan, _, scenes = splice
    panel = scenes["3-entry-cut-open"].panels[0]
    tail, cover, caps = panel.solids
    assert (
        Part.TAIL in tail.parts
        and Part.COVER in cover.parts
        and (tail.cap, cover.cap, caps.cap) == (False, False, True)
    )
    small = replace(panel, box=(0, 0, 400, 160))
    covered = replace(small, solids=(cover, caps))
    shown, hidden = (_like(render(seen(view), plan.braid.thickness), PALETTE.tail[0]) for view in (small, covered))
    assert shown > 0.05
    assert hidden < 0.01


def test_light_and_dark_tell_stretches_and_hands_apart_in_grey() -> None:
    weights = np.array([0.2126, 0.7152, 0.0722])
    grey = {
        name: [float(np.array(c) @ weights) for c in getattr(PALETTE, name)] for name in ("standing", "eye", "tail")
    }
    for light, dark in grey.values():
        assert light - dark > 25
    assert min(grey["standing"]) > max(grey["eye"]) > min(grey["eye"]) > max(grey["tail"])


def test_colours_follow_the_stretches_of_rope(splice) -> None:  # type: ignore[no-untyped-def]
    plan, strands, _ = splice
    between = plan.station_h2 - plan.rope_between_holes / 2
    places = np.array([-5 * plan.braid.diameter, plan.eye_length / 2, between, plan.station_tip - 1.0])
    for shade, hand in enumerate((1, -1)):
        strand = int(np.flatnonzero(strands.hand == hand)[0])
        mesh = Mesh(np.zeros((4, 3)), np.zeros((0, 3), dtype=int), None, places, np.full(4, strand))
        solid = Solid(mesh, strands.parts[0].part, rope_coats(strands, mesh), None, np.full(4, hand < 0))
        assert solid.parts.tolist() == [Part.COVER, Part.EYE, Part.TAIL_LOCK_LEG, Part.TAIL]
        found = [tuple(map(int, colour)) for colour in colours_of(solid)]
        assert found == [getattr(PALETTE, name)[shade] for name in ("standing", "eye", "between", "tail")]


def test_projection_keeps_lengths_along_the_load_line_true() -> None:
    panel = Panel((100, 50, 800, 400), tilted((0.0, 0.0, 0.0), 40.0, 24.0), ())
    a, b, middle = project(panel, np.array([[-10.0, 0, 0], [10.0, 0, 0], [0, 0, 0]]))
    assert middle == pytest.approx([500, 250])
    assert b - a == pytest.approx([20 * 800 / 40, 0])


def test_an_aimed_camera_holds_every_point() -> None:
    points = np.random.default_rng(3).uniform(-1, 1, (50, 3)) * [30, 9, 4]
    box = (10, 20, 300, 200)
    camera = aimed(points, np.array([0.0, -0.34, 0.94]), np.array([0.0, 0.94, 0.34])).camera(box, 0.06, 0.0)
    spots = project(Panel(box, camera, ()), points)
    assert spots.min(axis=0)[0] >= 10 and spots.max(axis=0)[0] <= 310
    assert spots.min(axis=0)[1] >= 20 and spots.max(axis=0)[1] <= 220
    assert np.ptp(spots[:, 0]) > 0.85 * 300 or np.ptp(spots[:, 1]) > 0.85 * 200


def test_a_rendered_square_covers_the_pixels_its_camera_says() -> None:
    panel = Panel((0, 0, 120, 80), Camera((0.0, 0.0, 0.0), 60.0), (Solid(_square(20.0), Part.TERMINATOR),))
    solid = seen(panel).solid
    rows, columns = np.flatnonzero(solid.any(axis=1)), np.flatnonzero(solid.any(axis=0))
    assert abs(np.ptp(columns) + 1 - 40) <= 1 and abs(np.ptp(rows) + 1 - 40) <= 1
    assert abs(columns.mean() - 59.5) <= 0.5 and abs(rows.mean() - 39.5) <= 0.5


def test_a_nearer_square_hides_a_farther_one() -> None:
    near = Solid(_square(20.0, 5.0), Part.LOCK_STITCH)
    far = Solid(_square(40.0, -5.0), Part.TERMINATOR)
    colour = render(seen(Panel((0, 0, 120, 120), Camera((0.0, 0.0, 0.0), 60.0), (far, near))), 1.0)
    assert colour[60, 60, 0] > 2.0 * colour[60, 60, 2], "red twine"
    assert colour[60, 30, 0] < colour[60, 30, 2], "metal"


def test_crevices_are_darker_than_flats_level_or_leaning() -> None:
    front = np.full((80, 80), 5.0, dtype=np.float32)
    front[:, 38:42] = 4.0
    open_to_light = crevices(front, 1.0, 0.1)
    assert open_to_light[40, 39] < 0.8
    assert np.all(open_to_light[30:50, :20] == 1.0)
    slope = np.tile(np.linspace(5, 11, 80, dtype=np.float32), (80, 1))
    assert crevices(slope, 1.0, 0.1)[20:60, 20:60].min() > 0.99


def test_outlines_run_where_bodies_meet_and_nowhere_else() -> None:
    front = np.full((40, 40), 5.0, dtype=np.float32)
    face = np.tile(np.repeat([0, 1, 2, 3], 10), (40, 1)).astype(np.int32)
    front[:, 20:], front[:, 39], face[:, 39] = 1.0, -np.inf, -1
    group = np.array([0, 0, 1, 1], dtype=np.int32)
    line = _inked(face, front, group)[:39]
    assert line[19] > 0.9 and line[38] > 0.9
    assert 0.5 < line[20] < 0.6, "the farther side"
    assert line[:19].max() == line[21:38].max() == 0.0
    front[:, 10:20] = 4.9
    assert 0.05 < _inked(face, front, group)[9] < 0.1, "a step within a group"


def test_outlines_are_the_same_whichever_columns_are_asked_for() -> None:
    rng = np.random.default_rng(4)
    face, front = rng.integers(0, 3, (40, 40)).astype(np.int32), rng.random((40, 40)).astype(np.float32)
    group = np.array([0, 0, 1], dtype=np.int32)
    whole = _inked(face, front, group, wide=3)
    for low, high in ((0, 2), (1, 40), (5, 30), (38, 40), (20, 20)):
        np.testing.assert_array_equal(_inked(face, front, group, (low, high), 3)[low:high], whole[low:high])


def _inked(
    face: NDArray[np.int32],
    front: NDArray[np.float32],
    group: NDArray[np.int32],
    span: tuple[int, int] = (0, 40),
    wide: int = 1,
) -> Floats:
    """Outlines in the middle row of a picture 40 pixels wide."""
    kin, ink = np.empty((2 * wide + 1, 40), dtype=np.int32), np.zeros((1, 40))
    ink_rows(face, front, group, 20, span, (wide, 0.5, 1.0), kin, ink)
    return ink[0]


def test_a_scene_without_rope_is_blank_paper_with_words() -> None:
    spot = Callout("A", (0.0, 0.0, 0.0), (10.0, 10.0))
    panel = Panel(
        (0, 60, 300, 200), Camera((0.0, 0.0, 0.0), 60.0), (Solid(_square(4.0), Part.TERMINATOR),), callouts=(spot,)
    )
    page = compose(Scene("s", "a square", (panel,), size=(300, 320)), 1.0)
    assert "A" in [line.text for line in page.layout.written]
    assert np.asarray(page.image)[:50].min() < 100


def test_the_look_for_print_is_lighter_flatter_and_says_its_size(splice) -> None:  # type: ignore[no-untyped-def]
    scene, reach = splice[2]["2-throat"], splice[0].braid.thickness
    screen, paper = (Image.open(io.BytesIO(png(scene, reach, look))) for look in ("screen", "print"))
    assert paper.info["dpi"] == pytest.approx((230, 230), abs=0.1)
    assert "dpi" not in screen.info
    there = compose(scene, reach).solid
    shown = [np.asarray(image.convert("RGB"), dtype=float)[there] for image in (screen, paper)]
    assert shown[1].mean() > shown[0].mean() + 5
    assert png(scene, reach, "print") == png(scene, reach, "print")


def test_a_picture_without_paper_is_the_same_on_white(splice) -> None:  # type: ignore[no-untyped-def]
    scene, reach = splice[2]["2-throat"], splice[0].braid.thickness
    clear = Image.open(io.BytesIO(png(scene, reach, transparent=True)))
    assert clear.mode == "RGBA"
    alpha = np.asarray(clear)[..., 3]
    page = compose(scene, reach)
    assert (alpha[page.solid] == 255).all()
    assert (alpha == 0).mean() > 0.2
    off = np.asarray(on_paper(clear), dtype=int) - np.asarray(page.image, dtype=int)
    assert np.abs(off).max() <= 2
