"""What the page draws: every entry, sections, colours, labels, cuts, parts."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from fidpath.meshing.meshes import part_strands
from fidpath.meshing.sections import middle, sections_of
from fidpath.methods.registry import method_of
from fidpath.outputs.page.encoding import packed
from fidpath.outputs.pictures.raster import seen
from fidpath.outputs.pictures.rendering import render
from fidpath.scene.colours import PALETTE
from fidpath.scene.paint import rope_solid
from fidpath.scene.scene import Camera, Panel
from fidpath.scene.stage import staged
from fidpath.settling.settled_states import SettledState
from pages import FAULTS_OF_WORDS, SMALL_PHONE, WIDE, Tab, drawn
from readback.page import unpacked

WAY = method_of("locked-captive")
Floats = NDArray[np.float64]


def test_entries_are_drawn_and_differ(phone: Tab) -> None:
    tab, before = phone, None
    for key in tab.ask("() => window.fidpathPage.entries()")[1::3]:
        tab.ask("key => { const { drawn, go } = window.fidpathPage, there = drawn(); go(key); return there; }", key)
        assert tab.shown()["key"] == key
        assert all(tab.shown()["drawn"])
        now = tab.picture(fine=False)
        assert drawn(now).mean() > 0.002, key
        if before is not None:
            high = min(len(now), len(before))
            assert np.abs(now[:high] - before[:high]).mean() > 0.2, key
        before = now


def test_sections_are_those_of_the_check(tab: Tab, demo: Any) -> None:
    strands = demo[1]["h1-first-fid"].settled.strands
    points = strands.points.copy()
    for k, line in enumerate(unpacked(packed(strands), strands.count)):
        points[k, : strands.count[k]] = line
    ask = """async ([kind, rays, refine]) => {
        const found = await window.fidpathPage.sections(kind, rays, refine);
        return Array.from(found.rings);
    }"""
    found = np.array(tab.ask(ask, ["h1-first-fid", 12, 1])).reshape(*points.shape[:2], 12, 3)
    same = sections_of(_moved(strands, points), rays=12, refine=1).rings
    settled = sections_of(strands, rays=12, refine=1).rings
    assert np.linalg.norm(found - same, axis=3).max() < 0.02
    assert np.linalg.norm(found - settled, axis=3).max() < 0.2
    assert np.quantile(np.linalg.norm(found - settled, axis=3), 0.99) < 0.04


def _moved(strands: Any, points: Floats) -> Any:
    from dataclasses import replace

    return replace(strands, points=points)


@pytest.mark.parametrize(("key", "kind"), [("step-8b", "h2-inside-out"), ("step-11", "locked")])
def test_the_page_shows_what_the_picture_shows(tab: Tab, demo: Any, key: str, kind: str) -> None:
    """Colours of the page against those of the pictures, drawn from the strands that the check measured."""
    plan, made = demo
    tab.go(key)
    for name in ("tools", "arrow"):
        tab.page.locator(f"#show-{name}").dispatch_event("click")
    page = tab.picture()
    height, width = page.shape[:2]
    seen = tab.camera()
    before = made[WAY.steps[[step.state for step in WAY.steps].index(kind) - 1].state]
    camera = Camera(tuple(seen["centre"]), width / seen["scale"], tuple(seen["right"]), tuple(seen["up"]))
    picture, solid = _rendered(plan, made[kind], before, camera, (width, height))
    there = solid | drawn(page)
    agreement = 1 - np.abs(page - picture)[there].mean() / 255
    assert agreement > 0.95
    assert (solid == drawn(page)).mean() > 0.99


def _rendered(
    plan: Any, made: SettledState, before: SettledState, camera: Camera, size: tuple[int, int]
) -> tuple[Floats, Any]:
    from fidpath.scene.paint import model_of

    stage = staged(made, model_of(before), plan, ("H1", "H2"), True)
    station = made.settled.strands.station
    meshes = part_strands(made.sections, station[0], station[-1], weld=False)
    rope = rope_solid(stage.model, meshes, stage.toned, stage.inked, stage.dots)
    view = seen(Panel((0, 0, *size), camera, (rope, *stage.props)))
    return render(view, plan.braid.thickness).astype(float), view.solid


SHOWN = ("step-3b", "wrong-no-tail-pass", "step-8b", "step-13", "step-14")


@pytest.mark.parametrize("size", ["wide", "phone"])
def test_labels_lie_off_the_rope_and_off_one_another(browser: Any, page: Path, held: Tab, size: str) -> None:
    ratio, keys = (1, SHOWN[:1]) if size == "wide" else (2, SHOWN)
    found = Tab(browser, page, keys[0], **WIDE) if size == "wide" else held
    boxes_of = """() => [...document.querySelectorAll("#labels .label")].map((label) => {
        const box = label.getBoundingClientRect(), origin = document.getElementById("canvas").getBoundingClientRect();
        return [box.left - origin.left, box.top - origin.top, box.right - origin.left, box.bottom - origin.top];
    })"""
    seen = 0
    for key in keys:
        found.go(key)
        boxes = found.ask(boxes_of)
        if key == "step-3b":
            _assert_numbered(found)
        assert not _crossed(found.ask(LEADERS)), key
        there = drawn(found.picture())
        for i, (left, top, right, bottom) in enumerate(boxes):
            seen += 1
            rows = slice(int(top * ratio), int(np.ceil(bottom * ratio)))
            assert not there[rows, int(left * ratio) : int(np.ceil(right * ratio))].any(), (key, i)
            assert left >= 0
            assert right * ratio <= there.shape[1]
            for a, b, c, d in boxes[:i]:
                assert right <= a or c <= left or bottom <= b or d <= top, key
    assert seen >= 3 * len(keys)
    if size == "wide":
        found.close()


PANELS = ("words", "look", "measure", "marks", "wrongs", "care")


@pytest.fixture(scope="module")
def small_phone(browser: Any, page: Path):  # type: ignore[no-untyped-def]
    found = Tab(browser, page, **SMALL_PHONE)
    yield found
    found.close()


@pytest.mark.parametrize("key", [*SHOWN, "step-5", "step-10a", "wrong-bight-other-face"])
def test_no_words_run_over_on_a_small_phone(small_phone: Tab, key: str) -> None:
    small_phone.go(key)
    assert small_phone.ask(FAULTS_OF_WORDS) == []


@pytest.mark.parametrize("panel", PANELS)
def test_no_panel_is_wider_than_a_small_phone(small_phone: Tab, panel: str) -> None:
    small_phone.page.click(f"#tab-{panel}")
    assert small_phone.page.locator(f"#{panel}").is_visible()
    assert small_phone.ask(FAULTS_OF_WORDS) == []


UNDER_BUTTONS = """() => {
    const box = (node) => node.getBoundingClientRect();
    const buttons = [...document.querySelectorAll("#corner button")].filter((one) => one.offsetParent !== null);
    const top = Math.min(...buttons.map((one) => box(one).top));
    const boxes = window.fidpathPage.boxes();
    return [box(document.getElementById("picture")).top + Math.max(...boxes.map(([, y, , height]) => y + height)) - top,
        Math.min(...boxes.map(([, , , height]) => height))];
}"""


@pytest.mark.parametrize("key", ["wrong-bight-other-face", "wrong-eye-loose"])
def test_mistakes_lie_clear_of_buttons_on_a_small_phone(small_phone: Tab, key: str) -> None:
    small_phone.go(key)
    under, height = small_phone.ask(UNDER_BUTTONS)
    assert under <= 0
    assert height >= 100


def test_faults_of_words_are_found(small_phone: Tab) -> None:
    """What the two tests before ask finds words that are over one another, and a word that is wider than the phone."""
    small_phone.page.click("#tab-words")
    small_phone.go("step-9a")
    small_phone.ask("""() => {
        const [one, other] = document.querySelectorAll("#labels .label");
        other.style.left = one.style.left;
        other.style.top = one.style.top;
        document.getElementById("words").append("unbreakable".repeat(20));
    }""")
    found = small_phone.ask(FAULTS_OF_WORDS)
    assert any("overlap" in fault for fault in found)
    assert "words is wider than its room" in found
    small_phone.go("step-12")


LEADERS = """() => [...document.querySelectorAll("#over line.leader")].map((line) =>
    ["x1", "y1", "x2", "y2"].map((name) => Number(line.getAttribute(name))))"""


def _crossed(lines: list[list[float]]) -> bool:
    """Whether any two of some lines from and to places `[x1, y1, x2, y2]` cross."""

    def turn(a: list[float], b: list[float], c: list[float]) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    ends = [(line[:2], line[2:]) for line in lines]
    return any(
        turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0
        for i, (a, b) in enumerate(ends)
        for c, d in ends[:i]
    )


def _assert_numbered(tab: Tab) -> None:
    """At a fid through a hole most strands of the group on top can be counted, no two numbers over one another."""
    places = """() => [...document.querySelectorAll("#over .chip")].map((chip) =>
        [...["cx", "cy", "r"].map((name) => Number(chip.getAttribute(name))), chip.getAttribute("fill")])"""
    chips = tab.ask(places)
    top = f"rgb({' '.join(map(str, PALETTE.top_group))})"
    assert sum(fill == top for *_, fill in chips) >= 3
    for i, (x, y, r, _) in enumerate(chips):
        assert all(np.hypot(x - u, y - v) > 2 * r for u, v, *_ in chips[:i])


def test_marks_have_their_letters_and_the_plans_numbers(tab: Tab) -> None:
    tab.go("step-2")
    words = tab.page.locator("#labels").inner_text()
    assert "H1" in words
    assert "1060 mm from the tail's end" in words
    tab.page.locator("#show-letters").dispatch_event("click")
    tab.rest()
    assert "H1" not in tab.page.locator("#labels").inner_text()


def _share_like(picture: Floats, colour: tuple[int, int, int]) -> float:
    """Share of pixels of a colour's hue, whatever their lightness."""
    pixels = picture.reshape(-1, 3)
    want = np.array(colour) / np.linalg.norm(colour)
    near = pixels @ want / np.maximum(np.linalg.norm(pixels, axis=1), 1)
    return float((near > 0.985).mean())


def test_parts_on_and_off_and_the_cover_seen_through(tab: Tab) -> None:
    page = tab.page
    whole = tab.picture()
    page.click("#tab-look")
    page.select_option("#part-eye", "left out")
    without = tab.picture()
    assert drawn(without).mean() < 0.8 * drawn(whole).mean()
    assert _share_like(without, PALETTE.eye[1]) < 0.3 * _share_like(whole, PALETTE.eye[1])
    page.select_option("#part-eye", "shown")
    page.click("#see-through")
    clear = tab.picture()
    left = slice(0, whole.shape[1] // 4)
    assert _share_like(whole[:, left], PALETTE.tail[0]) < 0.001
    assert _share_like(clear[:, left], PALETTE.tail[0]) > 0.01
    assert page.locator("#see-through").get_attribute("aria-pressed") == "true"
    page.click("#see-through")
    assert np.abs(tab.picture() - whole).mean() < 0.5
    page.locator("#show-terminator").uncheck()
    assert drawn(tab.picture()).sum() < drawn(whole).sum()


@pytest.mark.parametrize(("key", "holes"), [("step-3b", ["H1"]), ("step-9b", ["H2", "H1"]), ("step-10a", ["H2", "H1"])])
def test_one_tap_looks_into_a_hole(tab: Tab, demo: Any, key: str, holes: list[str]) -> None:
    """The hole's middle stands in the picture's, large, and the group before it no longer hides the one behind."""
    tab.go(key)
    shut, home = tab.picture(), tab.camera()
    kind = WAY.steps[[found["name"] for found in _steps(tab)].index(key[5:])].state
    for hole in holes:
        tab.page.click("#into")
        picture, camera = tab.picture(), tab.camera()
        station = {"H1": 0.0, "H2": demo[0].station_h2}[hole]
        strands = demo[1][kind].settled.strands
        line, _ = middle(strands.points, strands.count)
        at = np.array([np.interp(station, strands.station, line[:, c]) for c in range(3)]) - camera["centre"]
        assert np.hypot(at @ camera["right"], at @ camera["up"]) < 1.2 * demo[0].braid.diameter, hole
        opening = next(found for found in demo[1][kind].state.openings if found.name == hole)
        assert 2 * opening.half * camera["scale"] > 0.6 * min(picture.shape[:2]), hole
        if hole == holes[0] and key != "step-3b":  # there the fid hides the group behind
            assert _share_like(picture, PALETTE.bottom_group) > 1.5 * _share_like(shut, PALETTE.bottom_group) + 0.005
    tab.page.click("#into")
    assert np.allclose(tab.camera()["toward"], home["toward"])
    assert np.abs(tab.picture() - shut).mean() < 0.5


def _steps(tab: Tab) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = tab.ask("() => JSON.parse(document.getElementById('data').textContent).steps")
    return found


def test_every_step_with_an_open_hole_has_its_tap(tab: Tab) -> None:
    seen = {}
    for key in tab.ask("() => window.fidpathPage.entries()"):
        tab.ask("key => window.fidpathPage.go(key)", key)
        seen[key] = tab.page.locator("#into").is_visible()
    named = [key for key, there in seen.items() if there and key.startswith("step")]
    first, last = (tab.ask("() => window.fidpathPage.entries()").index(key) for key in ("step-3a", "step-10c"))
    assert named == list(seen)[first : last + 1]
    assert not seen["aim"]
    assert seen["wrong-bight-other-face"]


def test_what_is_not_seen_through_is_drawn_as_before(tab: Tab) -> None:
    """Eye and terminator without specks while the standing part beside them is seen through."""
    whole = tab.picture()
    tab.page.click("#see-through")
    clear = tab.picture()
    there = drawn(whole)
    columns = np.flatnonzero(there.any(axis=0))
    eye = slice(int(0.3 * columns[0] + 0.7 * columns[-1]), int(columns[-1]))
    changed = np.abs(clear - whole)[:, eye].sum(axis=2) > 60
    assert changed.sum() <= 0.001 * there[:, eye].sum()


def _pale(picture: Floats) -> float:
    """Share of pixels in the colours of cut faces: a strand's own with so much white in them."""
    hands = (*PALETTE.standing, *PALETTE.tail, *PALETTE.eye)
    pale = [np.array(hand) + 0.45 * (255 - np.array(hand)) for hand in hands]
    return sum(float((np.abs(picture - colour).max(axis=2) <= 10).mean()) for colour in pale)


def test_cuts_show_faces_where_the_plane_is(tab: Tab) -> None:
    tab.page.click("#tab-look")
    before = tab.picture()
    for way in ("flat", "upright", "across"):
        tab.page.select_option("#cut-way", way)
        after = tab.picture()
        assert np.abs(after - before).mean() > 1, way
        assert _pale(after) > 3 * _pale(before) + 0.001, way
    tab.page.locator("#cut-place").fill("0.3")
    assert np.abs(tab.picture() - after).mean() > 0.2
    tab.page.select_option("#cut-way", "off")
    assert np.abs(tab.picture() - before).mean() < 0.5
