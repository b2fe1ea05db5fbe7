"""Numbers, words and scale bars on line art."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from fidpath.geometry.parts import Part
from fidpath.outputs.lineart.annotations import round_length
from fidpath.outputs.lineart.ink import Area, Disc, Lines, TextLine
from fidpath.outputs.lineart.line_drawing import EDGE, FIGURE_MM, line_scene, pdf
from fidpath.scene.scene import Chip, Label, Scene, Section, Solid, Words
from fidpath.units import INCH_MM
from scenes.line_art import NAMESPACE, NASTY, POINT, drawing_of, flat_square, panel_of, scene_named, svg_root


def test_a_dark_groups_numbers_are_white_on_black() -> None:
    shown = [Chip("1", (0.0, 10.0, 0.0), Part.TOP_GROUP, (0.0, 2.0, 0.0))]
    shown.append(Chip("2", (0.0, -10.0, 0.0), Part.BOTTOM_GROUP, (0.0, -2.0, 0.0)))
    panel = replace(panel_of(Solid(flat_square(8.0), Part.TERMINATOR), chips=tuple(shown)), box=(0, 60, 300, 200))
    drawing = line_scene(Scene("s", "numbers", (panel,), size=(300, 300)), 1.0)
    pairs = {}
    for ink, after in pairwise(drawing.inks):
        if isinstance(ink, Disc) and isinstance(after, TextLine):
            pairs[after.text] = (ink.grey, after.grey)
    assert pairs == {"1": (1.0, 0.0), "2": (0.0, 1.0)}


def test_words_from_a_job_are_words() -> None:
    panel = replace(
        panel_of(Solid(flat_square(8.0), Part.TERMINATOR), labels=(Label(NASTY, (0.0, 0.0, 0.0)),)),
        box=(0, 60, 900, 300),
    )
    drawing = line_scene(Scene("s", NASTY, (panel,), notes=(NASTY,), size=(900, 420)), 1.0)
    root = svg_root(drawing)
    texts = [element.text for element in root.iter(f"{NAMESPACE}text")]
    assert texts.count(NASTY[:-1]) >= 2
    title = root.find(f"{NAMESPACE}title")
    assert title is not None and title.text == NASTY[:-1]
    assert pdf(drawing).startswith(b"%PDF")


@pytest.mark.parametrize(("unit", "most", "length"), [("mm", 37.0, 20.0), ("mm", 0.9, 0.5), ("in", 60.0, 2 * INCH_MM)])
def test_scale_bars_have_round_lengths(unit: str, most: float, length: float) -> None:
    assert round_length(most, unit) == pytest.approx(length)


def test_a_scale_bar_is_as_long_as_it_says() -> None:
    panel = replace(panel_of(Solid(flat_square(8.0), Part.TERMINATOR)), box=(0, 60, 800, 300))
    drawing = line_scene(Scene("s", "a bar", (panel,), size=(800, 420)), 1.0)
    half = next(ink for ink in drawing.inks if isinstance(ink, Area) and ink.name == "scale-bar")
    assert np.ptp(half.loops[0][:, 0]) / drawing.pixel * 2 / panel.scale == pytest.approx(10.0)
    assert "10 mm" in [ink.text for ink in drawing.inks if isinstance(ink, TextLine)]


def test_a_figure_has_its_panels_and_key_and_no_more() -> None:
    scene, figure = scene_named("h1-second-fid"), drawing_of("h1-second-fid", sheet=False)
    texts = {ink.text for ink in figure.inks if isinstance(ink, TextLine)}
    assert "top group" in texts and scene.title not in texts and not set(scene.notes) & texts
    assert figure.size[0] == FIGURE_MM
    places = np.concatenate([line for ink in figure.inks if isinstance(ink, Lines) for line in ink.lines])
    assert places.min() >= -1e-6 and (places.max(axis=0) <= np.array(figure.size) + 1e-6).all()
    assert max(ink.size for ink in figure.inks if isinstance(ink, TextLine)) >= 7 * POINT


def test_words_beside_panels_are_told_from_words_below_them() -> None:
    panel = replace(panel_of(Solid(flat_square(8.0), Part.TERMINATOR)), box=(0, 60, 400, 200))
    below = Words((24, 300, 350, 80), (Section("Below", ()),))
    drawing = line_scene(Scene("s", "t", (panel,), size=(400, 420), words=(below,)), 1.0, sheet=False)
    keyed = line_scene(
        Scene("s", "t", (panel,), size=(400, 420), words=(below,), key=(Part.EYE,)),
        1.0,
        sheet=False,
    )
    assert keyed.size[1] / keyed.size[0] == pytest.approx((200 + 46 + EDGE) / (400 + EDGE))
    assert drawing.size[1] / drawing.size[0] == pytest.approx((200 + EDGE) / (400 + EDGE))
