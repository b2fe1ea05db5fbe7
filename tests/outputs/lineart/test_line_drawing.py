"""Whole line drawings: what the SVG holds, held against a rendered silhouette; labels, key, lines."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree

import numpy as np
import pytest
from PIL import Image, ImageDraw

from fidpath.outputs.lineart.ink import Lines, TextLine
from fidpath.outputs.lineart.line_drawing import FIGURE_MM, line_scene, pdf, svg
from fidpath.outputs.pictures.raster import seen
from scenes.label_faults import label_faults
from scenes.line_art import NAMESPACE, POINT, drawing_of, scene_named, svg_root
from scenes.steps import small_plan

SCENES = ["1-whole-splice", "3-entry-cut-open", "h1-second-fid", "on-terminator"]


def _loops(path: str) -> list[np.ndarray]:
    """Sub-paths of an SVG path, absolute points `(n, 2)`; only the commands that may occur are understood."""
    found = []
    for part in re.findall(r"M[^M]*", path):
        start, _, steps = part.rstrip("z").partition("l")
        numbers = [int(n) for n in re.findall(r"-?\d+", steps)]
        assert re.fullmatch(r"M-?\d+ -?\d+", start) and not re.search(r"[^\d\s-]", steps)
        first = np.array([[int(n) for n in start[1:].split()]])
        found.append(np.concatenate([first, first + np.cumsum(np.array(numbers).reshape(-1, 2), axis=0)]))
    return found


def _areas(root: ElementTree.Element) -> list[tuple[str, list[np.ndarray]]]:
    paths = root.iter(f"{NAMESPACE}path")
    return [(p.get("class", ""), _loops(p.get("d", ""))) for p in paths if p.get("fill") != "none"]


def _filled(found: list[np.ndarray], scale: float, size: tuple[int, int]) -> np.ndarray:
    """Pixels `(h, w) bool` of a picture of size (w, h) inside an odd number of loops."""
    total = np.zeros((size[1] + 2, size[0] + 2), dtype=bool)
    for loop in found:
        places = loop * scale - 0.5
        low, high = np.floor(places.min(axis=0)).astype(int), np.ceil(places.max(axis=0)).astype(int)
        one = Image.new("1", (int(high[0] - low[0]) + 1, int(high[1] - low[1]) + 1))
        ImageDraw.Draw(one).polygon([(float(x), float(y)) for x, y in places - low], fill=1)
        total[low[1] + 1 : high[1] + 2, low[0] + 1 : high[0] + 2] ^= np.asarray(one)
    return total[1:-1, 1:-1]


@pytest.mark.parametrize("name", SCENES)
def test_filled_areas_are_the_rendered_silhouette(name: str) -> None:
    scene, drawing = scene_named(name), drawing_of(name)
    size = (scene.size[0], scene.size[1])
    skipped = {"key", "scale-bar"}
    shown = [
        _filled(found, 0.01 / drawing.pixel, size) for kind, found in _areas(svg_root(drawing)) if kind not in skipped
    ]
    filled = np.logical_or.reduce(shown)
    for panel in scene.panels:
        x, y, width, height = panel.box
        there = seen(replace(panel, box=(0, 0, width, height))).solid
        high, wide = there.shape
        assert (filled[y : y + high, x : x + wide] == there).mean() > 0.99
        assert there.mean() > 0.02


@pytest.mark.parametrize("name", SCENES)
def test_svg_is_small_grey_and_plain(name: str) -> None:
    text = svg(drawing_of(name))
    assert len(text.encode()) <= 400_000
    assert len(pdf(drawing_of(name))) <= 400_000
    assert {c for c in re.findall(r"#([0-9a-fA-F]+)", text) if len({*re.findall("..", c)}) > 1} == set()
    kinds = {element.tag.removeprefix(NAMESPACE) for element in svg_root(drawing_of(name)).iter()}
    assert kinds <= {"svg", "title", "g", "path", "circle", "text"}
    assert not re.search(r"rgb|hsl|style|href|url|on\w+=", text)


@pytest.mark.parametrize("name", SCENES)
def test_a_drawing_has_many_regions_and_every_label(name: str) -> None:
    scene, drawing = scene_named(name), drawing_of(name)
    assert label_faults(drawing.placed, drawing.drawn) == []
    wanted = sum(label.near is None for panel in scene.panels for label in panel.labels)
    assert len(drawing.placed) >= max(wanted, 2)
    assert len(drawing.regions) == len(scene.panels)
    assert all(number > 25 for number in drawing.regions)


def test_labels_are_where_the_drawing_says() -> None:
    drawing = drawing_of("h1-second-fid")
    words = {ink.text: ink.at for ink in drawing.inks if isinstance(ink, TextLine)}
    boxes = [np.array(placed.box) * drawing.pixel for placed in drawing.placed]
    x, y = words["dotted face"]
    assert any(left - 0.1 <= x <= right and top <= y <= bottom + 0.1 for left, top, right, bottom in boxes)


def test_the_view_box_is_the_sheet_in_millimetres() -> None:
    figure = drawing_of("on-terminator", sheet=False)
    root = svg_root(figure)
    assert root.get("viewBox") == f"0 0 {FIGURE_MM:g} {figure.size[1]:g}"
    assert root.get("width") == f"{FIGURE_MM:g}mm"


@pytest.mark.parametrize("sheet", [True, False])
def test_no_line_is_thinner_than_a_quarter_point_in_print(sheet: bool) -> None:
    drawing = drawing_of("h1-second-fid", sheet)
    widths = [ink.width for ink in drawing.inks if isinstance(ink, Lines)]
    assert min(widths) * FIGURE_MM / drawing.size[0] >= 0.25 * POINT


def test_only_what_shows_stands_in_the_key() -> None:
    texts = {ink.text for ink in drawing_of("on-terminator").inks if isinstance(ink, TextLine)}
    assert {"standing part", "eye", "between the holes", "tail"} <= texts
    assert not {"top group", "bottom group", "cut strands"} & texts
    opened = {ink.text for ink in drawing_of("h1-second-fid").inks if isinstance(ink, TextLine)}
    assert {"top group", "bottom group"} <= opened and not {"between the holes", "tail"} & opened
    assert "cut strands" in {t.text for t in drawing_of("3-entry-cut-open").inks if isinstance(t, TextLine)}


def test_the_key_tells_a_tick_from_a_dot_and_from_a_followed_strand() -> None:
    words = {"tick of ink", "dot of ink", "one strand of the group"}
    marked, turned = (
        words & {ink.text for ink in drawing_of(kind).inks if isinstance(ink, TextLine)}
        for kind in ("wrapped", "h2-inside-out")
    )
    assert marked == {"tick of ink", "dot of ink"}
    assert turned == {"dot of ink", "one strand of the group"}


@pytest.mark.parametrize("write", [svg, pdf])
def test_same_scene_same_bytes(write) -> None:  # type: ignore[no-untyped-def]
    again = line_scene(scene_named("on-terminator"), small_plan().braid.thickness)
    assert write(again) == write(drawing_of("on-terminator"))
