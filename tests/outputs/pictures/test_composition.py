"""Step pictures composed: labels off the rope, words that fit, ghosts and numbers where they show."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from PIL import Image, ImageDraw

from fidpath.geometry.parts import Part
from fidpath.meshing.meshes import Mesh, part_strands
from fidpath.outputs.pictures.composition import Page, _swatch, compose, png
from fidpath.outputs.pictures.layout import Reason
from fidpath.outputs.pictures.overlays import SIZES, _set, chip_shows, contrasting, shown_chips
from fidpath.outputs.pictures.pen import Pen, Tint
from fidpath.outputs.pictures.raster import seen
from fidpath.scene.colours import PALETTE
from fidpath.scene.paint import chips, model_of
from fidpath.scene.scene import Camera, Chip, Label, Panel, Scene, Section, Solid, Words, aimed, project
from fidpath.scene.step_picture import AREA
from scenes.label_faults import label_faults
from scenes.steps import scene_of_step, settled_state, small_plan


def test_numbers_are_set_in_the_ink_that_shows() -> None:
    assert contrasting(PALETTE.top_group) == contrasting(PALETTE.bottom_group) == Tint.INK
    assert contrasting(PALETTE.dotted_face) == Tint.PAPER


def test_a_number_is_left_out_where_its_strand_is_hidden() -> None:
    model = model_of(settled_state("h1-second-fid"))
    opening = model.state.opening("H1")
    box = (0, 0, 500, 400)
    camera = aimed(model.line[60:-60], np.array([0.0, 0.0, 1.0]), np.array([0.0, 1.0, 0.0])).camera(box, 0.06, 0.0)
    rope = Solid(_rope(model.sections), Part.STANDING_PART)
    view = Panel(box, camera, (rope,))
    front = seen(view).coarse_front
    shown = [chip for chip in chips(model, opening) if chip_shows(view, chip, front, model.braid.thickness)]
    assert 1 <= len(shown) <= 6
    assert {chip.part for chip in shown} == {Part.TOP_GROUP}


def _rope(sections) -> Mesh:  # type: ignore[no-untyped-def]
    from fidpath.meshing.meshes import joined

    return joined(part_strands(sections, -60.0, 60.0, weld=False))


def test_the_ghost_is_drawn_on_paper_and_never_over_the_rope() -> None:
    with_ghost = scene_of_step("bight-in-h2", "tail-swung-round").panels[0]
    box = (0, 90, 560, 260)
    small = replace(with_ghost, box=box, labels=(), chips=(), caption="", letter="")
    scene = Scene("one", "", (small,), size=(560, 420))
    plain = replace(scene, panels=(replace(small, ghosts=()),))
    pages = [compose(s, small_plan().braid.thickness) for s in (scene, plain)]
    images = [np.asarray(page.image).astype(int) for page in pages]
    changed = np.abs(images[0] - images[1]).max(axis=2) > 0
    changed[: box[1]] = False
    assert changed.mean() > 0.01
    assert not (changed & pages[1].solid).any()
    assert images[0][changed].min() > 190


def test_marks_are_labelled_before_faces_where_there_is_room_for_few() -> None:
    scene = scene_of_step("marking", "tail-entering")
    close = scene.panels[1]
    ranks = {label.mark: label.rank for label in close.labels if label.mark}
    assert ranks["H2"] < ranks["H1"]
    spots = np.array([placed.leader[1] for placed in compose(scene, small_plan().braid.thickness).placed])
    label = next(label for label in close.labels if label.mark == "H2")
    assert np.hypot(*(spots - project(close, np.array([label.at]))[0]).T).min() < 30


@pytest.fixture(scope="module")
def page():  # type: ignore[no-untyped-def]
    return compose(scene_of_step("bight-in-h2", "tail-swung-round"), small_plan().braid.thickness)


def test_labels_lie_off_the_rope_and_off_one_another(page) -> None:  # type: ignore[no-untyped-def]
    assert label_faults(page.placed, page.solid) == []
    assert len(page.placed) >= 5
    assert page.image.size == (1600, 1200)
    assert 0.1 < page.solid.mean() < 0.7


def test_no_number_stands_across_its_panels_edge() -> None:
    camera = Camera((0.0, 0.0, 0.0), 60.0)
    square = Solid(Mesh(np.array([[-1.0, -1, 0], [1, -1, 0], [1, 1, 0]]), np.array([[0, 1, 2]])), Part.TERMINATOR)
    middle, edge = (0.0, 0.0, 0.0), (30.0, 0.0, 0.0)
    numbers = tuple(Chip(str(i), at, Part.TOP_GROUP, at) for i, at in enumerate((middle, edge)))
    view = seen(Panel((0, 60, 300, 200), camera, (square,), chips=numbers))
    assert [chip.text for chip in shown_chips(view, 1.0)] == ["0"]


def test_same_step_same_bytes() -> None:
    scene = scene_of_step("h1-second-fid")
    assert png(scene, small_plan().braid.thickness) == png(scene, small_plan().braid.thickness)


def _square_page(*labels: Label, high: float = 30.0) -> Page:
    corners = np.array([[-20.0, -high, 0], [20, -high, 0], [20, high, 0], [-20, high, 0]])
    square = Solid(Mesh(corners, np.array([[0, 1, 2], [0, 2, 3]])), Part.TERMINATOR)
    panel = Panel((0, 60, 300, 200), Camera((0.0, 0.0, 0.0), 60.0), (square,), labels=labels)
    return compose(Scene("s", "", (panel,), size=(300, 320)), 1.0)


def test_a_label_with_no_room_near_its_place_stands_farther_off() -> None:
    for near in (None, 60.0, 130.0):
        page = _square_page(Label("far", (0.0, 0.0, 0.0), near=near))
        assert [line.text for line in page.layout.written if line.text.strip()][:1] == ["far"]
        assert not page.layout.plates


def test_a_label_of_what_is_hidden_is_left_out_and_the_layout_says_so() -> None:
    page = _square_page(Label("behind", (0.0, 0.0, -30.0)), Label("before", (10.0, 0.0, 0.0)))
    assert [(one.text, one.why) for one in page.layout.left_out] == [("behind", Reason.HIDDEN)]
    assert len(page.placed) == 1


def test_words_with_no_room_beside_the_drawing_stand_on_paper_laid_over_it() -> None:
    corners = np.array([[-40.0, -40, 0], [40, -40, 0], [40, 40, 0], [-40, 40, 0]])
    square = Solid(Mesh(corners, np.array([[0, 1, 2], [0, 2, 3]])), Part.TERMINATOR)
    panel = Panel((0, 60, 300, 200), Camera((0.0, 0.0, 0.0), 60.0), (square,), labels=(Label("far", (0.0, 0.0, 0.0)),))
    page = compose(Scene("s", "", (panel,), size=(300, 320)), 1.0)
    (placed,) = page.placed
    assert placed.plated and len(page.layout.plates) == 1
    left, top, right, _ = (round(edge) for edge in page.layout.plates[0])
    assert (np.asarray(page.image)[top : top + 2, left:right] > 240).all()


def test_a_label_points_at_the_part_it_names() -> None:
    corners = np.array([[-20.0, -30, 0], [0, -30, 0], [0, 30, 0], [-20, 30, 0]])
    faces = np.array([[0, 1, 2], [0, 2, 3]])
    left, right = (Solid(Mesh(corners + [x, 0, 0], faces), part) for x, part in ((0, Part.EYE), (20, Part.TAIL)))
    label = Label("tail", (-0.5, 0.0, 0.0), part=Part.TAIL)
    panel = Panel((0, 60, 300, 200), Camera((0.0, 0.0, 0.0), 60.0), (left, right), labels=(label,))
    (placed,) = compose(Scene("s", "", (panel,), size=(300, 320)), 1.0).placed
    assert 150 <= placed.leader[1][0] < 160


def _pen() -> Pen:
    return Pen(ImageDraw.Draw(Image.new("RGB", (800, 800), "white")))


def test_text_is_broken_between_words_and_loses_none() -> None:
    text = "Draw the tail through until the curl turns over and runs straight again"
    lines = _pen().wrapped(text, 180.0, 20)
    assert " ".join(lines) == text and len(lines) > 3
    assert all(_pen().extent(line, 20)[0] <= 186 for line in lines)
    assert _pen().wrapped("unbreakable", 10.0, 20) == ["unbreakable"]


def test_long_words_are_set_small_enough_to_fit_their_column() -> None:
    short = Words((0, 0, 400, 500), (Section("Do", (("1", "Draw it through."),)),))
    long = replace(short, sections=(Section("Do", tuple((str(i), "Draw it through. " * 12) for i in range(4))),))
    assert _set(_pen(), short, SIZES[0], dry=True) < 500 < _set(_pen(), long, SIZES[0], dry=True)
    assert _set(_pen(), long, SIZES[-1], dry=True) < 500
    framed = replace(short, sections=(Section("Check", (("", "Six and six."),), framed=True),))
    assert _set(_pen(), framed, 20, dry=True) == _set(_pen(), framed, 20, dry=False)


def test_the_key_shows_a_tick_as_a_tick_and_a_dot_as_a_dot() -> None:
    swatches = []
    for part in (Part.PEN_MARK, Part.FACE_DOT):
        image = Image.new("RGB", (30, 30), "white")
        _swatch(Pen(ImageDraw.Draw(image), PALETTE), (5, 5, 23, 23), part, PALETTE.ink)
        swatches.append(np.asarray(image.convert("L"))[6:23, 6:23] < 128)
    tick, dot = swatches
    assert np.ptp(np.argwhere(tick), axis=0)[0] > 3 * np.ptp(np.argwhere(tick), axis=0)[1]
    assert np.ptp(np.argwhere(dot), axis=0)[0] == np.ptp(np.argwhere(dot), axis=0)[1] > 8
    assert not dot[2, 2] and not tick[8, 2]


def test_a_long_title_stays_off_the_key() -> None:
    scene = scene_of_step("h1-second-fid")
    blank = replace(scene, panels=(), words=(), notes=(), title="")
    long = replace(blank, title="Step 9 of 14: " + "the bight into the hole by the same face, leg by leg " * 2)
    pages = [np.asarray(compose(s, 1.0).image).astype(int) for s in (blank, long)]
    changed = np.argwhere(np.abs(pages[0] - pages[1]).max(axis=2) > 0)
    key = np.argwhere(pages[0].min(axis=2) < 250)
    assert changed[:, 1].max() < key[:, 1].min()
    assert changed[:, 0].max() < AREA[1]
