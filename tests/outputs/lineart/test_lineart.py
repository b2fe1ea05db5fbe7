"""Line art: what its SVG and PDF hold, parsed again and held against a rendered silhouette; tones, labels, borders."""

from __future__ import annotations

import io
import re
import sys
from dataclasses import replace
from functools import lru_cache
from itertools import combinations, pairwise
from xml.etree import ElementTree

import numpy as np
import pikepdf
import pytest
from PIL import Image, ImageDraw

from fidpath.errors import EnvironmentProblem
from fidpath.meshing.meshes import Mesh
from fidpath.methods.method import worded
from fidpath.methods.method_file import method
from fidpath.outputs.lineart.annotations import round_length
from fidpath.outputs.lineart.ink import Area, Disc, LineDrawing, Lines, Text
from fidpath.outputs.lineart.line_drawing import FIGURE_MM, line_scene, pdf, svg
from fidpath.outputs.lineart.panel_lines import CONTOUR, FINE, PanelArt, panel_art, traced_panel
from fidpath.outputs.lineart.regions import EDGE, regions, surface
from fidpath.outputs.lineart.tones import LOOKS, Tone, luminance, vertex_tones
from fidpath.outputs.lineart.trace import borders, loops
from fidpath.outputs.pictures.labels import faults
from fidpath.outputs.pictures.offscreen import render
from fidpath.outputs.pictures.raster import visible
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.scene.finished_views import finished_scene
from fidpath.scene.scene import PALETTE, Camera, Chip, Ghost, Label, Panel, Scene, Section, Solid, Words
from fidpath.scene.step_picture import step_scene
from fidpath.settling.settled_states import settled_state
from fidpath.units import INCH_MM
from jobs import a_job

NAMESPACE = "{http://www.w3.org/2000/svg}"
POINT = 25.4 / 72
NASTY = "</script><img onerror='x'> & \"eye\" \x07"


@lru_cache
def _plan() -> Plan:
    return make_plan(a_job(bury=18.0, bearing=4.0))


@lru_cache
def _scene(name: str) -> Scene:
    if name.startswith("1-") or name.startswith("3-"):
        made_ = settled_state(_plan(), "buried")
        return finished_scene(name, _plan(), made_.settled.strands, made_.sections)
    step = worded(method("locked-captive").step(name), _plan())
    return step_scene(step, settled_state(_plan(), name), settled_state(_plan(), "locked"), _plan(), 14)


@lru_cache
def _drawing(name: str, sheet: bool = True) -> LineDrawing:
    return line_scene(_scene(name), _plan().braid.thickness, sheet=sheet)


SCENES = ["1-whole-splice", "3-entry-cut-open", "h1-second-fid", "on-terminator"]


def art_of(panel: Panel, reach: float, page_mm: float) -> PanelArt:
    return panel_art(panel, traced_panel(panel, reach), reach, page_mm)


def _square(size: float, z: float = 0.0, x: float = 0.0) -> Mesh:
    corners = np.array([[-1, -1, 0], [1, -1, 0], [1, 1, 0], [-1, 1, 0]]) * size / 2 + [x, 0, z]
    return Mesh(corners, np.array([[0, 1, 2], [0, 2, 3]]))


def _bar(wide: float, high: float, z: float) -> Mesh:
    square = _square(2.0, z)
    return Mesh(square.points * [wide / 2, high / 2, 1.0], square.faces)


def _panel(*solids: Solid, **more) -> Panel:  # type: ignore[no-untyped-def]
    return Panel((0, 0, 300, 200), Camera((0.0, 0.0, 0.0), 60.0), solids, **more)


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


def _root(drawing: LineDrawing) -> ElementTree.Element:
    return ElementTree.fromstring(svg(drawing).encode())


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
    scene, drawing = _scene(name), _drawing(name)
    size = (scene.size[0], scene.size[1])
    skipped = {"key", "scale-bar"}
    shown = [
        _filled(found, 0.01 / drawing.pixel, size) for kind, found in _areas(_root(drawing)) if kind not in skipped
    ]
    filled = np.logical_or.reduce(shown)
    for panel in scene.panels:
        x, y, width, height = panel.box
        there = render(replace(panel, box=(0, 0, width, height)), _plan().braid.thickness).solid
        high, wide = there.shape
        assert (filled[y : y + high, x : x + wide] == there).mean() > 0.99
        assert there.mean() > 0.02


@pytest.mark.parametrize("name", SCENES)
def test_svg_is_small_grey_and_plain(name: str) -> None:
    text = svg(_drawing(name))
    assert len(text.encode()) <= 400_000
    assert len(pdf(_drawing(name))) <= 400_000
    assert {c for c in re.findall(r"#([0-9a-fA-F]+)", text) if len({*re.findall("..", c)}) > 1} == set()
    kinds = {element.tag.removeprefix(NAMESPACE) for element in _root(_drawing(name)).iter()}
    assert kinds <= {"svg", "title", "g", "path", "circle", "text"}
    assert not re.search(r"rgb|hsl|style|href|url|on\w+=", text)


@pytest.mark.parametrize("name", SCENES)
def test_a_drawing_has_many_regions_and_every_label(name: str) -> None:
    scene, drawing = _scene(name), _drawing(name)
    assert faults(drawing.placed, drawing.drawn) == []
    wanted = sum(label.near is None for panel in scene.panels for label in panel.labels)
    assert len(drawing.placed) >= max(wanted, 2)
    assert len(drawing.regions) == len(scene.panels)
    assert all(number > 25 for number in drawing.regions)


def test_labels_are_where_the_drawing_says() -> None:
    drawing = _drawing("h1-second-fid")
    words = {ink.text: ink.at for ink in drawing.inks if isinstance(ink, Text)}
    boxes = [np.array(placed.box) * drawing.pixel for placed in drawing.placed]
    x, y = words["dotted face"]
    assert any(left - 0.1 <= x <= right and top <= y <= bottom + 0.1 for left, top, right, bottom in boxes)


def test_the_view_box_is_the_sheet_in_millimetres() -> None:
    figure = _drawing("on-terminator", sheet=False)
    root = _root(figure)
    assert root.get("viewBox") == f"0 0 {FIGURE_MM:g} {figure.size[1]:g}"
    assert root.get("width") == f"{FIGURE_MM:g}mm"


@pytest.mark.parametrize("sheet", [True, False])
def test_no_line_is_thinner_than_a_quarter_point_in_print(sheet: bool) -> None:
    drawing = _drawing("h1-second-fid", sheet)
    widths = [ink.width for ink in drawing.inks if isinstance(ink, Lines)]
    assert min(widths) * FIGURE_MM / drawing.size[0] >= 0.25 * POINT


def test_legs_are_told_apart_without_colour() -> None:
    legs = (Tone.STANDING, Tone.EYE, Tone.BETWEEN, Tone.TAIL)
    for a, b in combinations(legs, 2):
        one, other = (luminance((round(255 * LOOKS[t].grey),) * 3) for t in (a, b))
        assert abs(one - other) >= 0.25 or LOOKS[a].hatch != LOOKS[b].hatch
    groups = [(LOOKS[t].grey, LOOKS[t].hatch, LOOKS[t].dash) for t in (*legs, Tone.TOP, Tone.BOTTOM, Tone.CUT)]
    assert len(set(groups)) == len(groups)


def test_only_what_shows_stands_in_the_key() -> None:
    texts = {ink.text for ink in _drawing("on-terminator").inks if isinstance(ink, Text)}
    assert {"standing part", "eye", "between the holes", "tail"} <= texts
    assert not {"top group", "bottom group", "cut strands"} & texts
    opened = {ink.text for ink in _drawing("h1-second-fid").inks if isinstance(ink, Text)}
    assert {"top group", "bottom group"} <= opened and not {"between the holes", "tail"} & opened
    assert "cut strands" in {t.text for t in _drawing("3-entry-cut-open").inks if isinstance(t, Text)}


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
    rope = Solid("rope", _square(1.0), np.tile(np.array(colour, dtype=np.uint8), (4, 1)))
    assert vertex_tones(rope).tolist() == [tone] * 4


def test_mixed_colours_go_to_the_nearer_stretch_of_their_strand() -> None:
    eye, tail = np.array(PALETTE.eye[0], dtype=float), np.array(PALETTE.between[0], dtype=float)
    share = np.array([0.0, 0.0, 0.3, 0.8, 1.0, 1.0])[:, None]
    station, strand = np.array([0.0, 1.0, 2.0, 3.0, 4.0, 5.0]), np.zeros(6, dtype=np.int64)
    mesh = Mesh(np.zeros((6, 3)), np.zeros((0, 3), dtype=np.int64), None, station, strand)
    tones = vertex_tones(Solid("rope", mesh, (eye * (1 - share) + tail * share).round().astype(np.uint8)))
    assert tones.tolist() == [Tone.EYE] * 3 + [Tone.BETWEEN] * 3


def test_things_are_white_or_black_and_cut_strands_hatched() -> None:
    assert vertex_tones(Solid("fid", _square(1.0), PALETTE.metal))[0] == Tone.THING
    assert vertex_tones(Solid("arrow", _square(1.0), PALETTE.arrow))[0] == Tone.BLACK
    cut = Solid("cut faces", _square(1.0), np.zeros((4, 3), dtype=np.uint8), flat=True)
    assert vertex_tones(cut)[0] == Tone.CUT


def test_regions_are_counted_and_hidden_lines_left_out() -> None:
    across, along = Solid("far", _bar(50.0, 8.0, 0.0), PALETTE.metal), Solid("near", _bar(8.0, 30.0, 5.0), PALETTE.wood)
    art = art_of(_panel(across, along), 1.0, 0.1)
    assert art.regions == 4, "the near bar, the far one's two ends, and the paper round them"
    contours = next(ink for ink in art.inks if isinstance(ink, Lines) and ink.name == "contours")
    places = np.concatenate([np.linspace(a, b, 9) for line in contours.lines for a, b in pairwise(line)])
    inside = (np.abs(places[:, 0] - 150) < 18) & (np.abs(places[:, 1] - 100) < 70)
    assert not inside.any()


def test_neighbouring_strands_are_parted_by_a_line_of_their_own_weight() -> None:
    left, right = _square(10.0, x=-5.0), _square(10.0, x=5.0)
    points = np.concatenate([left.points, right.points])
    mesh = Mesh(points, np.concatenate([left.faces, right.faces + 4]), np.tile([0.0, 0.0, 1.0], (8, 1)))
    rope = Solid("rope", mesh, np.tile(np.array(PALETTE.eye[0], dtype=np.uint8), (8, 1)))
    art = art_of(_panel(rope), 4.0, 0.1)
    names = {ink.name: ink for ink in art.inks if isinstance(ink, Lines)}
    assert art.regions == 3
    middle = np.concatenate(names["strands"].lines)
    assert np.abs(middle[:, 0] - 150).max() < 1
    assert names["strands"].width < names["contours"].width == CONTOUR
    assert "strands" not in {i.name for i in art_of(_panel(rope), 0.5, 0.1).inks if isinstance(i, Lines)}, "crowded"


def test_a_step_back_within_one_surface_is_drawn() -> None:
    low, high = _square(20.0), _square(10.0, 6.0)
    points = np.concatenate([low.points, high.points, [[0.0, 0.0, 3.0]]])
    faces = np.concatenate([low.faces, high.faces + 4, [[0, 1, 8], [4, 5, 8]]])
    solid = Solid("bent", Mesh(points, faces, np.tile([0.0, 0.0, 1.0], (9, 1))), PALETTE.metal)
    panel = _panel(solid)
    found = regions(visible(panel, FINE), surface(panel), panel)
    assert len(found.tone) == 3


def test_specks_are_given_to_a_neighbour() -> None:
    panel = _panel(Solid("big", _square(20.0), PALETTE.metal), Solid("speck", _square(0.2, 3.0), PALETTE.arrow))
    assert len(regions(visible(panel, FINE), surface(panel), panel).tone) == 2


def test_borders_have_each_regions_area_and_close_round_it() -> None:
    rng = np.random.default_rng(7)
    label = np.kron(rng.integers(0, 5, (7, 9)), np.ones((12, 10), dtype=int)).astype(np.int32)
    found = borders(label, EDGE)
    for region in range(5):
        outward = np.flatnonzero((found.left == region) & (found.right != region))
        inward = np.flatnonzero((found.right == region) & (found.left != region))
        closed = loops(found, outward.tolist(), inward.tolist())
        area = 0.0
        for loop in closed:
            line = np.concatenate([found.lines[n][::-1] if back else found.lines[n] for n, back in loop])
            assert np.array_equal(line[0], line[-1])
            x, y = line.T
            area -= float(x[:-1] @ y[1:] - x[1:] @ y[:-1]) / 2
        assert area == pytest.approx(float((label == region).sum()), rel=0.02)
        assert sum(len(loop) for loop in closed) == len(outward) + len(inward)


def test_the_sides_of_a_border_are_its_labels() -> None:
    label = np.kron(np.array([[0, 1, 2], [2, 0, 1]]), np.ones((6, 6), dtype=int)).astype(np.int32)
    found, framed = borders(label, EDGE), np.pad(label, 1, constant_values=EDGE)
    for side, labels in zip(found.beside, (found.left, found.right), strict=True):
        assert framed[tuple(side.T + 1)].tolist() == labels.tolist()


def test_a_disc_is_traced_round() -> None:
    row, column = np.indices((120, 120)) + 0.5
    found = borders((np.hypot(row - 60, column - 60) < 40).astype(np.int32), EDGE)
    ring = next(line for line in found.lines if np.abs(line - 60).max() < 50)
    assert np.abs(np.hypot(*(ring - 60).T) - 40).max() < 0.9
    assert 20 < len(ring) < 120


def test_what_was_before_is_a_faint_broken_line_on_paper_alone() -> None:
    ghost = Ghost(np.array([[-25.0, 0.0, 0.0], [25.0, 0.0, 0.0]]), 4.0)
    art = art_of(_panel(Solid("near", _square(16.0), PALETTE.metal), ghosts=(ghost,)), 1.0, 0.1)
    before = next(ink for ink in art.inks if isinstance(ink, Lines) and ink.name == "before")
    assert before.dash and before.grey > 0.3
    places = np.concatenate(before.lines)
    assert not ((np.abs(places[:, 0] - 150) < 38) & (np.abs(places[:, 1] - 100) < 38)).any()


def test_a_dark_groups_numbers_are_white_on_black() -> None:
    shown = [Chip("1", (0.0, 10.0, 0.0), PALETTE.top_group, (0.0, 2.0, 0.0))]
    shown.append(Chip("2", (0.0, -10.0, 0.0), PALETTE.bottom_group, (0.0, -2.0, 0.0)))
    panel = replace(_panel(Solid("s", _square(8.0), PALETTE.metal), chips=tuple(shown)), box=(0, 60, 300, 200))
    drawing = line_scene(Scene("s", "numbers", (panel,), size=(300, 300)), 1.0)
    pairs = {}
    for ink, after in pairwise(drawing.inks):
        if isinstance(ink, Disc) and isinstance(after, Text):
            pairs[after.text] = (ink.grey, after.grey)
    assert pairs == {"1": (1.0, 0.0), "2": (0.0, 1.0)}


def test_words_from_a_job_are_words() -> None:
    panel = replace(
        _panel(Solid("s", _square(8.0), PALETTE.metal), labels=(Label(NASTY, (0.0, 0.0, 0.0)),)), box=(0, 60, 900, 300)
    )
    drawing = line_scene(Scene("s", NASTY, (panel,), notes=(NASTY,), size=(900, 420)), 1.0)
    root = _root(drawing)
    texts = [element.text for element in root.iter(f"{NAMESPACE}text")]
    assert texts.count(NASTY[:-1]) >= 2
    title = root.find(f"{NAMESPACE}title")
    assert title is not None and title.text == NASTY[:-1]
    assert pdf(drawing).startswith(b"%PDF")


@pytest.mark.parametrize(("unit", "most", "length"), [("mm", 37.0, 20.0), ("mm", 0.9, 0.5), ("in", 60.0, 2 * INCH_MM)])
def test_scale_bars_have_round_lengths(unit: str, most: float, length: float) -> None:
    assert round_length(most, unit) == pytest.approx(length)


def test_a_scale_bar_is_as_long_as_it_says() -> None:
    panel = replace(_panel(Solid("s", _square(8.0), PALETTE.metal)), box=(0, 60, 800, 300))
    drawing = line_scene(Scene("s", "a bar", (panel,), size=(800, 420)), 1.0)
    half = next(ink for ink in drawing.inks if isinstance(ink, Area) and ink.name == "scale-bar")
    assert np.ptp(half.loops[0][:, 0]) / drawing.pixel * 2 / panel.scale == pytest.approx(10.0)
    assert "10 mm" in [ink.text for ink in drawing.inks if isinstance(ink, Text)]


def test_a_figure_has_its_panels_and_key_and_no_more() -> None:
    scene, figure = _scene("h1-second-fid"), _drawing("h1-second-fid", sheet=False)
    texts = {ink.text for ink in figure.inks if isinstance(ink, Text)}
    assert "top group" in texts and scene.title not in texts and not set(scene.notes) & texts
    assert figure.size[0] == FIGURE_MM
    places = np.concatenate([line for ink in figure.inks if isinstance(ink, Lines) for line in ink.lines])
    assert places.min() >= -1e-6 and (places.max(axis=0) <= np.array(figure.size) + 1e-6).all()
    assert max(ink.size for ink in figure.inks if isinstance(ink, Text)) >= 7 * POINT


def test_words_beside_panels_are_told_from_words_below_them() -> None:
    panel = replace(_panel(Solid("s", _square(8.0), PALETTE.metal)), box=(0, 60, 400, 200))
    below = Words((24, 300, 350, 80), (Section("Below", ()),))
    drawing = line_scene(Scene("s", "t", (panel,), size=(400, 420), words=(below,)), 1.0, sheet=False)
    keyed = line_scene(
        Scene("s", "t", (panel,), size=(400, 420), words=(below,), key=(("rope", (200, 200, 200), (90, 90, 90)),)),
        1.0,
        sheet=False,
    )
    assert keyed.size[1] / keyed.size[0] == pytest.approx((200 + 46) / 400)
    assert drawing.size[1] / drawing.size[0] == pytest.approx(200 / 400)


def _streams(content: bytes) -> bytes:
    """All page content of a PDF, unpacked."""
    with pikepdf.open(io.BytesIO(content)) as document:
        return b"".join(pikepdf.unparse_content_stream(pikepdf.parse_content_stream(page)) for page in document.pages)


def test_the_pdf_has_one_page_of_the_sheets_size_in_grey_with_its_type() -> None:
    drawing = _drawing("on-terminator")
    content = pdf(drawing)
    box = re.search(rb"/MediaBox \[ 0 0 ([\d.]+) ([\d.]+) \]", content)
    assert box is not None
    assert [float(edge) * POINT for edge in box.groups()] == pytest.approx(drawing.size, abs=0.01)
    assert content.count(b"/Type /Page\n") == 1 and b"/FontFile2" in content
    page = _streams(content)
    assert re.search(rb"[\d.] g\b", page) and not re.search(rb"[\d.] (rg|RG|k|K)\b", page)


def test_what_is_turned_away_is_hidden_by_what_is_before_it() -> None:
    for panel in _scene("on-terminator").panels:
        double = [
            replace(s, mesh=replace(s.mesh, faces=np.concatenate([s.mesh.faces, s.mesh.faces[:, ::-1]])))
            for s in panel.solids
        ]
        once, twice = visible(panel, FINE), visible(replace(panel, solids=tuple(double)), FINE)
        np.testing.assert_array_equal(once.front, twice.front)


@pytest.mark.parametrize("write", [svg, pdf])
def test_same_scene_same_bytes(write) -> None:  # type: ignore[no-untyped-def]
    again = line_scene(_scene("on-terminator"), _plan().braid.thickness)
    assert write(again) == write(_drawing("on-terminator"))


def test_without_its_library_a_pdf_is_refused_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "reportlab.pdfgen.canvas", None)
    with pytest.raises(EnvironmentProblem, match="ReportLab"):
        pdf(_drawing("on-terminator"))


def test_faces_show_where_they_lie_and_nearer_ones_hide_others() -> None:
    near, far = Solid("near", _square(20.0, 5.0), PALETTE.wood), Solid("far", _square(40.0, -5.0), PALETTE.metal)
    seen = visible(_panel(far, near), FINE)
    number = {name: int(np.isin(seen.face, faces).sum()) for name, faces in (("far", [0, 1]), ("near", [2, 3]))}
    assert number == {"near": 200 * 200, "far": 400 * 400 - 200 * 200}
    assert seen.front[200, 300] == pytest.approx(5.0) and seen.front[200, 120] == pytest.approx(-5.0)
    assert np.isneginf(seen.front[0, 0])
