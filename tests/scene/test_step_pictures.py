"""Step pictures: tools that are closed bodies, colours that can be told apart, faces on their side, words that fit."""

from __future__ import annotations

import io
import itertools
from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest
import trimesh
from PIL import Image, ImageDraw

from fidpath.geometry import rods
from fidpath.meshing.meshes import Mesh, open_edges, part_strands, volume
from fidpath.methods.method import Step, worded, worded_way
from fidpath.methods.method_file import method
from fidpath.outputs.pictures.composition import compose, png
from fidpath.outputs.pictures.contact_sheet import Entry, contact_sheet, thumbnail
from fidpath.outputs.pictures.labels import faults
from fidpath.outputs.pictures.offscreen import render
from fidpath.outputs.pictures.overlays import SIZES, _set, chip_shows, contrasting
from fidpath.outputs.pictures.pen import Pen
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.scene.captions import CAUTION, seen_from, sights, turn_words
from fidpath.scene.mistake_picture import wrong_scene
from fidpath.scene.paint import chips, face_dots, face_rings, fanned, hole_axes, key_of, model_of, opened, rope_colours
from fidpath.scene.panels import ARROW, looked_at
from fidpath.scene.scene import PALETTE, Camera, Colour, Label, Panel, Scene, Section, Solid, Words, aimed, project
from fidpath.scene.stage import staged
from fidpath.scene.step_picture import AREA, step_scene
from fidpath.scene.tools import (
    TOOLS,
    Placed,
    arrow,
    ball,
    bent,
    fid,
    measuring_tape,
    ribbon,
    ring_tube,
    sleeve,
    stitches,
    tool_parts,
    tube,
    turned,
)
from fidpath.settling.settled_states import SettledState, settled_state
from jobs import a_job

GREY = np.array([0.2126, 0.7152, 0.0722])

PROTAN = np.array([[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]])
DEUTAN = np.array([[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]])
"""What a person without long- or middle-wave cones sees, in linear RGB: Machado, Oliveira & Fernandes, IEEE Trans. Vis.
Comput. Graph. 15 (2009) 1291, from memory."""

SIGHTS = {"common": np.eye(3), "protan": PROTAN, "deutan": DEUTAN}


@lru_cache
def _plan() -> Plan:
    return make_plan(a_job(bury=18.0, bearing=4.0))


@lru_cache
def _made(kind: str) -> SettledState:
    return settled_state(_plan(), kind)


@lru_cache
def _step(kind: str) -> Step:
    return worded(method("locked-captive").step(kind), _plan())


def _scene(kind: str, before: str | None = None) -> Scene:
    return step_scene(_step(kind), _made(kind), _made(before) if before else None, _plan())


def _body(mesh: Mesh) -> trimesh.Trimesh:
    return trimesh.Trimesh(mesh.points, mesh.faces, process=True)


def _is_solid(mesh: Mesh) -> bool:
    body = _body(mesh)
    return bool(open_edges(mesh) == 0 and body.is_watertight and body.is_winding_consistent and volume(mesh) > 0)


def _words(scene: Scene) -> str:
    return " ".join(text for block in scene.words for part in block.sections for _, text in part.paragraphs)


# Tools


@pytest.mark.parametrize("kind", sorted(TOOLS))
@pytest.mark.parametrize("way", [(1.0, 0.0, 0.0), (0.0, 0.0, -1.0), (0.48, -0.6, 0.64)])
def test_tools_are_closed_bodies(kind: str, way: tuple[float, float, float]) -> None:
    for part in tool_parts(kind, Placed((1.0, 2.0, 3.0), way, 4.0, 120.0, 10.0, 0.6, 10.0)):
        assert _is_solid(part.mesh), part.name


def test_lines_and_rings_are_closed_bodies() -> None:
    line = bent(np.zeros(3), np.array([50.0, 20.0, 5.0]), 0.2)
    angle = 2 * np.pi * np.arange(40) / 40
    ring = np.column_stack([6 * np.cos(angle), np.zeros(40), 3 * np.sin(angle)])
    bodies = [
        tube(line, 2.0),
        arrow(line, 2.0),
        ribbon(line, 5.0, 0.5),
        ring_tube(ring, 0.5),
        ball(np.ones(3), 2.0),
        stitches(np.linspace([0.0, 0, 0], [40, 0, 0], 20), np.array([0.0, 0, 6]), 0.5),
        *(part.mesh for part in measuring_tape(line, 5.0, 10.0)),
    ]
    assert [_is_solid(body) for body in bodies] == [True] * len(bodies)


def test_turned_bodies_have_the_volume_of_cone_and_ring() -> None:
    place, way = np.array([3.0, 1.0, 2.0]), np.array([0.0, 0.6, 0.8])
    cone = turned(np.array([[0.0, 0.0], [0.0, 4.0], [9.0, 0.0]]), place, way, 400)
    assert volume(cone) == pytest.approx(np.pi * 16 * 9 / 3, rel=1e-3)
    ring = sleeve(np.array([[0.0, 6.0], [10.0, 6.0], [10.0, 5.0], [0.0, 5.0]]), place, way, 400)
    assert volume(ring) == pytest.approx(np.pi * 11 * 10, rel=1e-3)


def test_a_fid_is_as_thick_as_the_rod_its_strands_part_round() -> None:
    state = _made("h1-second-fid").state
    tool, rod = state.tools[0], state.rods[0]
    (part,) = tool_parts(tool.kind, Placed(tool.place, tool.direction, tool.radius, tool.length, 10.0))
    behind = -(part.mesh.points - np.array(rod.tip)) @ np.array(rod.direction)
    outer = (behind > 0.3 * rod.radius) & (behind < 0.5 * rod.length)
    off = rods.clearance(rod, part.mesh.points[outer])
    assert off.max() < 1e-9 and off.min() > -0.02 * rod.radius


def test_a_fid_is_hollow_behind() -> None:
    profile = fid(3.0, 90.0)
    bore = profile[(profile[:, 0] < -50) & (profile[:, 1] > 0), 1]
    assert profile[:, 0].max() == pytest.approx(0.0)
    assert bore.min() < 0.8 * 3.0 <= bore.max() <= 3.0


def test_drawn_strands_stay_clear_of_the_fid() -> None:
    found = _made("h1-second-fid")
    rings = found.sections.rings.reshape(-1, 3)
    assert rods.clearance(found.state.rods[0], rings).min() > -1e-3


def test_an_arrow_ends_where_its_line_ends_and_is_widest_at_its_head() -> None:
    line = np.linspace([0.0, 0, 0], [60, 0, 0], 30)
    points = arrow(line, 2.0).points
    assert points[:, 0].max() == pytest.approx(60.0, abs=0.1)
    widest = points[np.abs(points[:, 1]).argmax()]
    assert widest[0] == pytest.approx(50.0, abs=1.0) and abs(widest[1]) == pytest.approx(6.4, rel=0.05)
    with pytest.raises(ValueError, match="length"):
        arrow(np.zeros((4, 3)), 1.0)


def test_the_whipping_holds_the_tails_end() -> None:
    found = _made("tail-entering")
    (whipping,) = (s for s in _scene("tail-entering").panels[0].solids if s.name == "whipping")
    tip = model_of(found).at(found.state.tip or 0.0)
    assert np.linalg.norm(whipping.mesh.points - tip, axis=1).max() < 2.5 * 10
    last = found.settled.strands.points[:, -3]
    spread = np.linalg.norm(whipping.mesh.points.mean(axis=0) - last, axis=1)
    assert spread.max() < 12.0


# Colours


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


def test_numbers_are_set_in_the_ink_that_shows() -> None:
    assert contrasting(PALETTE.top_group) == contrasting(PALETTE.bottom_group) == PALETTE.ink
    assert contrasting(PALETTE.dotted_face) == PALETTE.paper


def _colours_at(kind: str, places: list[float], **options) -> dict[int, list[tuple[int, ...]]]:  # type: ignore[no-untyped-def]
    """Colours of a strand of either hand at some stations."""
    model = model_of(_made(kind))
    found = {}
    for hand in (1, -1):
        k = int(np.flatnonzero(model.strands.hand == hand)[0])
        mesh = Mesh(np.zeros((len(places), 3)), np.zeros((0, 3), int), None, np.array(places), np.full(len(places), k))
        found[hand] = [tuple(int(c) for c in colour) for colour in rope_colours(model, mesh, **options)]
    return found


@pytest.mark.parametrize("kind", ["laid-out", "bight-in-h2", "locked", "buried"])
def test_stretches_keep_their_colours_through_all_steps(kind: str) -> None:
    plan = _plan()
    places = [-50.0, 60.0, plan.station_h2 - 0.5 * plan.rope_between_holes, plan.station_h2 + 60.0]
    found = _colours_at(kind, places)
    expected = (PALETTE.standing, PALETTE.eye, PALETTE.between, PALETTE.tail)
    assert found[1] == [pair[0] for pair in expected]
    assert found[-1] == [pair[1] for pair in expected]
    assert [colours for _, *colours in key_of(model_of(_made(kind)))] == [list(pair) for pair in expected]


def test_groups_are_toned_at_the_opened_place_alone() -> None:
    model = model_of(_made("h1-second-fid"))
    toned = opened(model)
    assert [o.name for o in toned] == ["H1"]
    top = hole_axes(model, toned[0]).top
    for k in range(12):
        mesh = Mesh(np.zeros((2, 3)), np.zeros((0, 3), int), None, np.array([0.0, -80.0]), np.full(2, k))
        there, beyond = (tuple(int(c) for c in row) for row in rope_colours(model, mesh, toned))
        assert there == (PALETTE.top_group if top[k] else PALETTE.bottom_group)
        assert beyond in PALETTE.standing


def test_a_pen_mark_is_black_and_narrow() -> None:
    found = _colours_at("laid-out", [30.0, 33.0], inked=(30.0,))
    assert found[1] == [PALETTE.ink, PALETTE.eye[0]]


# Faces, numbers, turns


@pytest.mark.parametrize(("kind", "hole"), [("tail-entering", "H1"), ("tail-end-in-h2", "H2"), ("bight-in-h2", "H2")])
def test_the_guest_goes_in_at_the_dotted_ring(kind: str, hole: str) -> None:
    model = model_of(_made(kind))
    opening = model.state.opening(hole)
    rings = {solid.name: solid.mesh.points.mean(axis=0) for solid in face_rings(model, opening)}
    guest = next(p.guest for p in model.state.passes if p.hole == hole)
    before, after = model.at(guest - 12.0), model.at(guest + 12.0)
    dotted, plain = rings["dotted face"], rings["plain face"]
    assert np.linalg.norm(before - dotted) < np.linalg.norm(before - plain)
    assert np.linalg.norm(after - plain) < np.linalg.norm(after - dotted)


def test_dots_lie_on_the_dotted_ring_alone() -> None:
    model = model_of(_made("tail-entering"))
    rings = {solid.name: solid.mesh.points.mean(axis=0) for solid in face_rings(model, model.state.opening("H1"))}
    assert np.linalg.norm(rings["dots"] - rings["dotted face"]) < 1.0
    assert np.linalg.norm(rings["dots"] - rings["plain face"]) > 8.0


def test_the_face_turns_with_a_rope_that_is_rolled() -> None:
    right, rolled = (model_of(_made(kind)) for kind in ("locked", "both-other-face"))
    left = [hole_axes(m, m.state.opening("H2")).left for m in (right, rolled)]
    assert float(left[0] @ left[1]) < -0.9


def test_a_drawn_up_hole_has_its_dot_on_the_hosts_left() -> None:
    model = model_of(_made("locked"))
    for opening, dot in zip(model.state.openings, face_dots(model, model.state.openings), strict=True):
        axes = hole_axes(model, opening)
        assert 3.0 < float((np.array(dot) - axes.middle) @ axes.left) < 12.0


@pytest.mark.parametrize(("kind", "counts"), [("snug", (6, 6)), ("split-5-7", (5, 7))])
def test_strands_are_numbered_from_the_dotted_face_in_each_group(kind: str, counts: tuple[int, int]) -> None:
    model = model_of(_made(kind))
    opening = model.state.opening("H1")
    left = hole_axes(model, opening).left
    for numbers in (chips(model, opening), fanned(model, opening)):
        for colour, count in zip((PALETTE.top_group, PALETTE.bottom_group), counts, strict=True):
            group = [chip for chip in numbers if chip.colour == colour]
            assert [chip.text for chip in group] == [str(i + 1) for i in range(count)]
            ends = [float(np.array(chip.to or chip.at) @ left) for chip in group]
            assert ends[0] == max(ends) and ends[-1] == min(ends)


def test_a_number_is_left_out_where_its_strand_is_hidden() -> None:
    model = model_of(_made("h1-second-fid"))
    opening = model.state.opening("H1")
    box = (0, 0, 500, 400)
    camera = aimed(box, model.line[60:-60], np.array([0.0, 0.0, 1.0]), np.array([0.0, 1.0, 0.0]))
    rope = Solid("rope", _rope(model.sections), PALETTE.metal)
    view = Panel(box, camera, (rope,))
    front = render(view, model.braid.thickness).front
    shown = [chip for chip in chips(model, opening) if chip_shows(view, chip, front, model.braid.thickness)]
    assert 1 <= len(shown) <= 6
    assert {chip.colour for chip in shown} == {PALETTE.top_group}


def _rope(sections) -> Mesh:  # type: ignore[no-untyped-def]
    from fidpath.meshing.meshes import joined

    return joined(part_strands(sections, -60.0, 60.0, weld=False))


def test_turns_are_counted_with_their_hands() -> None:
    assert [turn_words(turns) for turns in (0, 1, -1, 2)] == [
        "no turn",
        "1 turn right-handed",
        "1 turn left-handed",
        "2 turns right-handed",
    ]
    labels = [label.text for label in staged(_made("h2-inside-out"), None, _plan(), (), turns=True).labels]
    assert labels == ["top group:\n1 turn left-handed", "bottom group:\n1 turn right-handed"]
    (h2,) = staged(_made("locked"), None, _plan(), ("H2",), turns=True).labels
    assert h2.text.endswith("no turn in either group")


def test_where_a_view_is_seen_from_is_said() -> None:
    views = [view for kind in ("h1-second-fid", "bight-in-h2", "locked") for view in sights(_step(kind), ())]
    assert [seen_from(view) for view in views] == [
        "from the standing part's left",
        "from above",
        "from above",
        "from the captive end's side",
        "from above",
        "from the standing part's right",
    ]


# The pictures


@pytest.mark.parametrize("kind", ["wrapped", "tail-entering", "bight-in-h2", "locked"])
def test_every_view_holds_what_it_names(kind: str) -> None:
    step, scene = _step(kind), _scene(kind)
    stage = staged(_made(kind), None, _plan(), step.marks, step.turns)
    for view, found in zip(sights(step, stage.inked), scene.panels, strict=False):
        spots = project(found, looked_at(stage, view.look))
        x, y, width, height = found.box
        assert spots[:, 0].min() > x and spots[:, 0].max() < x + width
        assert spots[:, 1].min() > y and spots[:, 1].max() < y + height
        assert max(np.ptp(spots[:, 0]) / width, np.ptp(spots[:, 1]) / height) > 0.35


def test_views_fill_their_part_of_the_page_and_keep_off_the_words() -> None:
    scene = _scene("bight-in-h2")
    views, cut = scene.panels[:2], scene.panels[2]
    assert sum(p.box[2] * p.box[3] for p in views) == pytest.approx(AREA[2] * AREA[3])
    (block,) = scene.words
    assert block.box[0] > AREA[0] + AREA[2]
    assert cut.box[1] > block.box[1] + block.box[3]
    assert cut.box[1] + cut.box[3] <= AREA[1] + AREA[3]
    assert "H2 cut across" in cut.caption


def test_the_standing_part_heads_east_in_every_picture() -> None:
    for kind in ("snug", "bight-in-h2", "locked"):
        model, camera = model_of(_made(kind)), _scene(kind).panels[0].camera
        assert float(model.along(-40.0) @ np.array(camera.right)) > 0.95


def test_the_words_say_what_to_do_what_to_check_and_where_to_take_care() -> None:
    scene, step = _scene("bight-in-h2"), _step("bight-in-h2")
    for text in (*step.instructions, step.check, step.caution):
        assert text in _words(scene)
    assert scene.notes == (CAUTION,)
    assert "{" not in _words(scene)


def test_a_mark_is_measured_where_it_is_made_and_named_afterwards() -> None:
    label = next(found for found in _scene("wrapped").panels[0].labels if found.mark == "H1")
    assert "from the tail's end" in label.text and "mm" in label.text
    later = next(found for found in _scene("bight-in-h2").panels[0].labels if found.mark == "H1")
    assert later.text == "hole in the standing part"


def test_a_single_view_is_joined_by_its_mark_close_to() -> None:
    wide, close = _scene("laid-out").panels
    assert close.scale > 5 * wide.scale
    assert [label.mark for label in close.labels] == ["B"]


def test_the_state_before_is_a_ghost_in_the_first_view_alone() -> None:
    alone, after = _scene("bight-in-h2"), _scene("bight-in-h2", "tail-swung-round")
    assert [len(p.ghosts) for p in alone.panels] == [0, 0, 0]
    assert [len(p.ghosts) for p in after.panels] == [1, 0, 0]
    (ghost,) = after.panels[0].ghosts
    assert np.allclose(ghost.line, model_of(_made("tail-swung-round")).line)


def test_a_ghost_turns_so_that_the_standing_parts_lie_alike() -> None:
    (ghost,) = _scene("h2-drawn-out", "snug").panels[0].ghosts
    column = model_of(_made("snug")).column(-60.0)
    assert abs(ghost.line[column, 1]) < 3.0


def test_the_ghost_is_drawn_on_paper_and_never_over_the_rope() -> None:
    with_ghost = _scene("bight-in-h2", "tail-swung-round").panels[0]
    box = (0, 0, 560, 260)
    small = replace(with_ghost, box=box, labels=(), chips=(), caption="", letter="")
    scene = Scene("one", "", (small,), size=(560, 260))
    plain = replace(scene, panels=(replace(small, ghosts=()),))
    pages = [compose(s, _plan().braid.thickness) for s in (scene, plain)]
    images = [np.asarray(page.image).astype(int) for page in pages]
    changed = np.abs(images[0] - images[1]).max(axis=2) > 0
    assert changed.mean() > 0.01
    assert not (changed & pages[1].solid).any()
    assert images[0][changed].min() > 190


@pytest.mark.parametrize(("kind", "hole"), [("tail-entering", "H1"), ("tail-end-in-h2", "H2")])
def test_the_arrow_points_at_the_mouth_the_tails_end_goes_in_at(kind: str, hole: str) -> None:
    (body,) = (s.mesh for s in _scene(kind).panels[0].solids if s.name == "arrow")
    model = model_of(_made(kind))
    axes = hole_axes(model, model.state.opening(hole))
    start, tip = body.points[-2:]
    assert ((body.points - axes.middle) @ axes.left).min() > 0
    assert np.linalg.norm(tip - axes.middle) < 20
    assert np.linalg.norm(start - axes.middle) > 40


def test_arrows_are_as_wide_in_a_close_view_as_in_a_wide_one() -> None:
    scene = _scene("on-terminator")
    widths = []
    for found in scene.panels[:2]:
        for solid in found.solids:
            if solid.name == "arrow":
                step = np.linalg.norm(solid.mesh.points[16:32] - solid.mesh.points[16:32].mean(axis=0), axis=1)
                widths.append(step.max() * found.scale)
    assert widths == pytest.approx([ARROW] * 2, rel=0.05)


def test_marks_are_labelled_before_faces_where_there_is_room_for_few() -> None:
    scene = _scene("snug", "tail-entering")
    ranks = {label.text.split(",")[0]: label.rank for label in scene.panels[0].labels}
    assert ranks["hole in the tail"] < ranks["hole in the standing part"] < ranks["dotted face"]
    spots = np.array([placed.leader[1] for placed in compose(scene, _plan().braid.thickness).placed])
    for found in scene.panels[:2]:
        label = next(label for label in found.labels if label.mark == "H2")
        assert np.hypot(*(spots - project(found, np.array([label.at]))[0]).T).min() < 1e-6
    corners = np.array([[-20.0, -30, 0], [20, -30, 0], [20, 10, 0], [-20, 10, 0]])
    square = Solid("square", Mesh(corners, np.array([[0, 1, 2], [0, 2, 3]])), PALETTE.metal)
    face, mark = Label("face", (-2.0, 6.0, 0.0), near=60.0, rank=1), Label("mark", (2.0, 6.0, 0.0), near=60.0)
    panel = Panel((0, 60, 200, 200), Camera((0.0, 0.0, 0.0), 42.0), (square,), labels=(face, mark))
    (first, *_) = compose(Scene("s", "", (panel,), size=(200, 320)), 1.0).placed
    assert first.leader[1] == tuple(project(panel, np.array([mark.at]))[0])


@pytest.fixture(scope="module")
def page():  # type: ignore[no-untyped-def]
    return compose(_scene("bight-in-h2", "tail-swung-round"), _plan().braid.thickness)


def test_labels_lie_off_the_rope_and_off_one_another(page) -> None:  # type: ignore[no-untyped-def]
    assert faults(page.placed, page.solid) == []
    assert len(page.placed) >= 6
    assert page.image.size == (1600, 1200)
    assert 0.1 < page.solid.mean() < 0.7


def test_same_step_same_bytes() -> None:
    scene = _scene("h1-second-fid")
    assert png(scene, _plan().braid.thickness) == png(scene, _plan().braid.thickness)


def test_a_label_is_left_out_rather_than_set_far_from_its_place() -> None:
    corners = np.array([[-20.0, -30, 0], [20, -30, 0], [20, 30, 0], [-20, 30, 0]])
    square = Solid("square", Mesh(corners, np.array([[0, 1, 2], [0, 2, 3]])), PALETTE.metal)
    for near, count in ((None, 1), (60.0, 0), (130.0, 1)):
        label = Label("far", (0.0, 0.0, 0.0), near=near)
        panel = Panel((0, 60, 300, 200), Camera((0.0, 0.0, 0.0), 60.0), (square,), labels=(label,))
        assert len(compose(Scene("s", "", (panel,), size=(300, 320)), 1.0).placed) == count


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


def test_a_long_title_stays_off_the_key() -> None:
    scene = _scene("h1-second-fid")
    blank = replace(scene, panels=(), words=(), notes=(), title="")
    long = replace(blank, title="Step 9 of 14: " + "the bight into the hole by the same face, leg by leg " * 2)
    pages = [np.asarray(compose(s, 1.0).image).astype(int) for s in (blank, long)]
    changed = np.argwhere(np.abs(pages[0] - pages[1]).max(axis=2) > 0)
    key = np.argwhere(pages[0].min(axis=2) < 250)
    assert changed[:, 1].max() < key[:, 1].min()
    assert changed[:, 0].max() < AREA[1]


# Wrong ways, the sheet


def _wrong(name: str) -> Scene:
    way = worded_way(method("locked-captive").wrong_way(name), _plan())
    return wrong_scene(way, _made(name), _made(way.beside), _plan())


@pytest.mark.parametrize("name", ["tail-other-face", "holes-too-far", "eye-loose"])
def test_right_and_wrong_stand_side_by_side_to_one_scale(name: str) -> None:
    scene = _wrong(name)
    for right, wrong in _pairs(scene):
        assert (right.caption, wrong.caption) == ("as it should be", "wrong")
        assert right.box[2:] == wrong.box[2:] and right.box[1] == wrong.box[1] and right.box[0] < wrong.box[0]
        assert right.scale == pytest.approx(wrong.scale)
    way = worded_way(method("locked-captive").wrong_way(name), _plan())
    for text in (*way.signs, *way.way_back, way.how_far_off):
        assert text in _words(scene)


def _pairs(scene: Scene) -> list[tuple[Panel, Panel]]:
    return list(zip(scene.panels[::2], scene.panels[1::2], strict=True))


def test_an_uneven_split_is_counted_in_the_cut() -> None:
    scene = _wrong("split-5-7")
    cuts = [p for p in scene.panels if "cut across" in p.caption]
    assert [len(p.chips) for p in cuts] == [12, 12]
    counts = [sum(chip.colour == PALETTE.top_group for chip in p.chips) for p in cuts]
    assert counts == [6, 5]


def test_both_ways_of_a_mistake_show_the_same_holes_groups() -> None:
    right, wrong = _wrong("tail-other-face").panels[:2]
    for found in (right, wrong):
        rope = next(s for s in found.solids if s.name == "rope")
        colours = {tuple(int(c) for c in row) for row in np.asarray(rope.colours)}
        assert PALETTE.top_group in colours and PALETTE.bottom_group in colours


def test_the_terminator_lies_beside_an_eye_it_does_not_go_into() -> None:
    right, wrong = _wrong("no-lock-allowance").panels[:2]
    assert "terminator" in {s.name for s in right.solids}
    (beside,) = (s for s in wrong.solids if s.name == "terminator aside")
    assert beside.mesh.points[:, 0].min() > model_of(_made("no-lock-allowance")).line[:, 0].max()
    spots = project(wrong, beside.mesh.points)
    assert spots[:, 0].max() < wrong.box[0] + wrong.box[2]


def test_the_pen_mark_shows_how_far_the_fid_has_slid() -> None:
    wrong = _wrong("mark-on-strand").panels[1]
    marks = {label.mark or label.text: np.array(label.at) for label in wrong.labels}
    assert np.linalg.norm(marks["H1"] - marks["the mark"]) == pytest.approx(_plan().pick, rel=0.35)


def _picture(colour: Colour) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (1600, 1200), colour).save(out, format="PNG")
    return out.getvalue()


def test_the_sheet_shows_every_picture_in_order() -> None:
    tones = [(200, 30 * i, 40) for i in range(6)]
    sheet = contact_sheet(
        "job", [Entry(str(i), f"step {i}", thumbnail(_picture(tone))) for i, tone in enumerate(tones)]
    )
    image = np.asarray(Image.open(io.BytesIO(sheet)))
    found = [tuple(int(c) for c in row) for row in image.reshape(-1, 3)[:: image.shape[1] // 60]]
    first = [found.index(tone) for tone in tones]
    assert all(tone in found for tone in tones)
    assert first == sorted(first)
    with pytest.raises(ValueError, match="at least one"):
        contact_sheet("job", [])


@pytest.mark.parametrize("name", ["locked-free", "plain"])
def test_other_methods_steps_have_pictures_too(name: str) -> None:
    for step in method(name).steps:
        if step.state not in ("laid-out", "free-end-in-h2", "plain-wrapped", "plain-entry-opened"):
            continue
        scene = step_scene(worded(step, _plan()), _made(step.state), None, _plan())
        assert scene.panels and _words(scene)
        if step.state == "free-end-in-h2":
            assert "whipping" in {s.name for s in scene.panels[0].solids}
