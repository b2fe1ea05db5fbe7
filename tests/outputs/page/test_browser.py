"""The page opened from disk in Chromium: every control, both sizes, touch, measuring, and the pictures themselves."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from fidpath.job.reader import read_job
from fidpath.meshing.meshes import part_strands
from fidpath.meshing.sections import middle, sections_of
from fidpath.methods.method_file import method
from fidpath.outputs.page import page_data, splice_page
from fidpath.outputs.page.document import BOUND
from fidpath.outputs.page.encoding import packed, unpacked
from fidpath.outputs.pictures.offscreen import render
from fidpath.planning.planner import make_plan
from fidpath.scene.paint import rope_solid
from fidpath.scene.scene import PALETTE, Camera, Panel
from fidpath.scene.stage import staged
from fidpath.settling.settled_states import SettledState, all_settled
from pages import PHONE, WIDE, Tab, browser_path, chromium, drawn

DEMO = Path(__file__).parents[3] / "scenes" / "demo.toml"
WAY = method("locked-captive")
STATES = list(dict.fromkeys([*(s.state for s in WAY.steps), *(w.name for w in WAY.wrong_ways)]))
Floats = NDArray[np.float64]


@pytest.fixture(scope="module")
def browser():  # type: ignore[no-untyped-def]
    with chromium() as found:
        yield found


@pytest.fixture(scope="module")
def demo(browser):  # type: ignore[no-untyped-def]
    plan = make_plan(read_job(DEMO))
    return plan, {made.kind: made for made in all_settled(plan, STATES)}


@pytest.fixture(scope="module")
def page(demo, tmp_path_factory):  # type: ignore[no-untyped-def]
    plan, made = demo
    target = tmp_path_factory.mktemp("page") / "splice.html"
    target.write_text(splice_page(plan, list(made.values()), WAY), encoding="utf-8")
    return target


@pytest.fixture(scope="module")
def opened(browser, page):  # type: ignore[no-untyped-def]
    found = Tab(browser, page)
    yield found
    found.close()


@pytest.fixture
def tab(opened):  # type: ignore[no-untyped-def]
    opened.fresh()
    return opened


@pytest.fixture(scope="module")
def held(browser, page):  # type: ignore[no-untyped-def]
    found = Tab(browser, page, **PHONE)
    yield found
    found.close()


@pytest.fixture
def phone(held):  # type: ignore[no-untyped-def]
    held.fresh()
    return held


def test_the_demo_with_all_steps_and_mistakes_is_within_its_bound(page: Path) -> None:
    assert len(page.read_bytes()) <= BOUND


def test_entries_are_drawn_and_differ(phone: Tab) -> None:
    tab, before = phone, None
    for key in tab.ask("() => window.fidpathPage.entries()")[1::3]:
        tab.ask("key => { const { drawn, go } = window.fidpathPage, there = drawn(); go(key); return there; }", key)
        assert tab.shown()["key"] == key
        assert all(tab.shown()["drawn"])
        now = tab.picture(fine=False)
        assert drawn(now).mean() > 0.002, key
        if before is not None:
            assert np.abs(now - before).mean() > 0.2, key
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
    raster = render(Panel((0, 0, *size), camera, (rope, *stage.props)), plan.braid.thickness)
    return raster.colour.astype(float), raster.solid


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
    assert "1061 mm from the tail's end" in words
    tab.page.locator("#show-letters").dispatch_event("click")
    tab.rest()
    assert "H1" not in tab.page.locator("#labels").inner_text()


def test_stepping_by_buttons_slider_and_keys(tab: Tab) -> None:
    page = tab.page
    assert page.locator("#before").is_disabled()
    page.click("#after")
    assert tab.shown()["key"] == "step-1"
    assert "Step 1 of 14" in page.locator("#title").inner_text()
    page.keyboard.press("ArrowRight")
    assert tab.shown()["key"] == "step-2"
    page.keyboard.press("ArrowLeft")
    assert tab.shown()["key"] == "step-1"
    page.locator("#slider").fill("4")
    assert tab.shown()["key"] == "step-3b"
    last = int(page.locator("#slider").get_attribute("max") or 0)
    page.locator("#slider").fill(str(last))
    assert page.locator("#after").is_disabled()
    assert "Step 14" in (page.locator("#slider").get_attribute("aria-valuetext") or "")


def test_turning_moving_and_coming_nearer(tab: Tab) -> None:
    page = tab.page
    tab.rest()
    box = page.locator("#canvas").bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    home = tab.camera()
    page.mouse.move(x, y)
    page.mouse.wheel(0, -300)
    assert tab.camera()["scale"] > 1.3 * home["scale"]
    page.mouse.down()
    page.mouse.move(x + 120, y + 40, steps=4)
    page.mouse.up()
    turned = tab.camera()
    assert float(np.dot(turned["toward"], home["toward"])) < 0.99
    axes = np.array([turned["right"], turned["up"], turned["toward"]])
    assert np.allclose(axes @ axes.T, np.eye(3), atol=1e-9)
    page.mouse.down(button="right")
    page.mouse.move(x + 160, y + 40, steps=4)
    page.mouse.up(button="right")
    assert np.linalg.norm(np.subtract(tab.camera()["centre"], turned["centre"])) > 1
    assert np.allclose(tab.camera()["toward"], turned["toward"])
    page.keyboard.press("0")
    assert np.allclose(tab.camera()["toward"], home["toward"])
    assert tab.camera()["scale"] == pytest.approx(home["scale"])
    page.keyboard.press("Shift+ArrowUp")
    assert not np.allclose(tab.camera()["toward"], home["toward"])
    page.keyboard.press("+")
    assert tab.camera()["scale"] > home["scale"]
    page.click("#home")
    assert np.allclose(tab.camera()["toward"], home["toward"])


def test_standard_views(tab: Tab) -> None:
    tab.page.click("#tab-look")
    for name, toward in {"above": [0, 0, 1], "below": [0, 0, -1], "captive": [-1, 0, 0], "left": [0, 1, 0]}.items():
        tab.page.select_option("#view", name)
        assert np.allclose(tab.camera()["toward"], toward, atol=0.01), name
    assert drawn(tab.picture()).mean() > 0.001
    tab.go("step-6")
    first = tab.camera()["toward"]
    tab.page.click("#other")
    assert not np.allclose(tab.camera()["toward"], first)
    tab.page.click("#other")
    assert np.allclose(tab.camera()["toward"], first)


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
        assert _pale(after) > 4 * _pale(before) + 0.001, way
    tab.page.locator("#cut-place").fill("0.3")
    assert np.abs(tab.picture() - after).mean() > 0.2
    tab.page.select_option("#cut-way", "off")
    assert np.abs(tab.picture() - before).mean() < 0.5


def test_measuring_agrees_with_the_strands(tab: Tab, demo: Any) -> None:
    """Two touched places: straight and along the rope as the meshes that the check measured have them, to 0.1 mm."""
    tab.go("step-11")
    tab.page.click("#tab-measure")
    box = tab.page.locator("#canvas").bounding_box()
    assert box is not None
    spots = [(0.12 * box["width"], 0.42 * box["height"]), (0.5 * box["width"], 0.5 * box["height"])]
    for x, y in spots:
        tab.page.mouse.click(box["x"] + x, box["y"] + y)
    found = tab.ask("() => window.fidpathPage.measured()")
    assert found is not None
    made = demo[1]["locked"]
    expected = [_hit(made, tab.camera(), spot) for spot in spots]
    straight = float(np.linalg.norm(expected[1][0] - expected[0][0]))
    along = abs(expected[1][1] - expected[0][1])
    assert straight > 5
    assert found["straight"] == pytest.approx(straight, abs=0.1)
    assert found["along"] == pytest.approx(along, abs=0.1)
    assert f"{found['straight']:.1f} mm" in tab.page.locator("#measured").inner_text()


def _hit(made: SettledState, camera: dict[str, Any], spot: tuple[float, float]) -> tuple[Floats, float]:
    """Place and station where a line of sight first meets the drawn strands."""
    axes = {name: np.array(camera[name]) for name in ("right", "up", "toward", "centre")}
    start = axes["centre"] + axes["right"] * (spot[0] - camera["width"] / 2) / camera["scale"]
    start = start + axes["up"] * (camera["height"] / 2 - spot[1]) / camera["scale"]
    best, found = -np.inf, (start, 0.0)
    station = made.settled.strands.station
    for mesh in part_strands(made.sections, station[0], station[-1], weld=False):
        assert mesh.station is not None
        a, b, c = (mesh.points[mesh.faces[:, i]] for i in range(3))
        across = np.cross(-axes["toward"], c - a)
        size = np.einsum("ij,ij->i", b - a, across)
        size = np.where(np.abs(size) < 1e-12, np.inf, size)
        away = start - a
        u = np.einsum("ij,ij->i", away, across) / size
        side = np.cross(away, b - a)
        v = side @ -axes["toward"] / size
        depth = np.einsum("ij,ij->i", c - a, side) / size
        hit = (u >= 0) & (v >= 0) & (u + v <= 1) & np.isfinite(size)
        if hit.any() and (-depth[hit]).max() > best:
            i = np.flatnonzero(hit)[int((-depth[hit]).argmax())]
            best = float(-depth[i])
            at = mesh.station[mesh.faces[i]]
            found = (start - axes["toward"] * depth[i], float(at @ [1 - u[i] - v[i], u[i], v[i]]))
    assert np.isfinite(best)
    return found


def test_measuring_between_marks(tab: Tab, demo: Any) -> None:
    plan, made = demo
    tab.go("step-5")
    tab.page.click("#tab-measure")
    tab.page.select_option("#mark-a", "H1")
    tab.page.select_option("#mark-b", "H2")
    found = tab.ask("() => window.fidpathPage.measured()")
    strands = made["snug"].settled.strands
    line, _ = middle(strands.points, strands.count)
    ends = [np.array([np.interp(u, strands.station, line[:, c]) for c in range(3)]) for u in (0.0, plan.station_h2)]
    assert found["along"] == pytest.approx(plan.station_h2, abs=0.01)
    assert found["straight"] == pytest.approx(float(np.linalg.norm(ends[1] - ends[0])), abs=0.1)
    assert "280.0 mm" in tab.page.locator("#measured").inner_text()
    tab.page.click("#measure-clear")
    assert tab.ask("() => window.fidpathPage.measured()") is None


def test_mistakes_stand_beside_the_right_way(tab: Tab) -> None:
    page = tab.page
    page.click("#tab-wrongs")
    page.click("text=The bight went in at the other face of H2")
    assert tab.shown()["key"] == "wrong-bight-other-face"
    tab.rest()
    assert tab.shown()["drawn"] == [True, True]
    assert page.locator("#sides .side").all_inner_texts() == ["as it should be", "wrong"]
    assert "Two turns stay in each group" in page.locator("#words").inner_text()
    assert "The way back" in page.locator("#words").inner_text()
    page.keyboard.press("Escape")
    assert tab.shown()["key"] == "aim"


def test_practice_shows_what_comes_of_a_choice_and_keeps_the_score(tab: Tab) -> None:
    page = tab.page
    data = tab.ask("() => JSON.parse(document.getElementById('data').textContent).practice")
    assert len(data) == 9
    page.click("#practise")
    for number, question in enumerate(data):
        words = page.locator("#words").inner_text()
        assert question["ask"] in words
        assert all(step.check[:40] not in words for step in WAY.steps)
        wrong = next(option for option in question["options"] if not option["right"])
        right = next(option for option in question["options"] if option["right"])
        if number == 0:
            page.get_by_role("button", name=wrong["words"], exact=True).click()
            assert tab.shown()["key"] == f"wrong-{wrong['shows']}"
            assert wrong["why"] in page.locator("#words").inner_text()
            page.click("text=Try again")
        page.get_by_role("button", name=right["words"], exact=True).click()
        assert right["why"] in page.locator("#words").inner_text()
        page.click("text=Go on")
    assert "8 of 9 right at the first try" in page.locator("#words").inner_text()
    assert tab.ask("() => Object.values(localStorage).includes('8')")
    page.click("text=Back to the steps")
    assert tab.shown()["key"] == "aim"


def test_bench_view_goes_on_at_a_tap(phone: Tab) -> None:
    page = phone.page
    page.click("#bench")
    size = page.locator("#words").evaluate("words => parseFloat(getComputedStyle(words).fontSize)")
    assert size >= 22
    page.tap("#canvas")
    assert phone.shown()["key"] == "step-1"
    page.locator("#words h2").tap()
    assert phone.shown()["key"] == "step-2"
    page.click("#bench")
    page.tap("#canvas")
    assert phone.shown()["key"] == "step-2"


def test_fingers_turn_pinch_and_swipe(phone: Tab) -> None:
    session = phone.context.new_cdp_session(phone.page)
    box = phone.page.locator("#canvas").bounding_box()
    words = phone.page.locator("#words").bounding_box()
    assert box is not None
    assert words is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2

    def stroke(*moves: list[tuple[float, float]]) -> None:
        """Fingers down at the first places, moved through the others, and up."""
        for i, places in enumerate(moves):
            points = [{"x": u, "y": v, "id": n} for n, (u, v) in enumerate(places)]
            session.send(
                "Input.dispatchTouchEvent", {"type": "touchMove" if i else "touchStart", "touchPoints": points}
            )
        session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})

    home = phone.camera()
    stroke([(x, y)], [(x + 30, y)], [(x + 60, y + 10)])
    assert not np.allclose(phone.camera()["toward"], home["toward"])
    turned = phone.camera()
    stroke([(x - 30, y), (x + 30, y)], [(x - 60, y), (x + 60, y)], [(x - 90, y), (x + 90, y)])
    assert phone.camera()["scale"] > 1.5 * turned["scale"]
    left, right, level = words["x"] + 60, words["x"] + 300, words["y"] + 120
    stroke([(right, level)], [(right - 100, level)], [(left, level)])
    assert phone.shown()["key"] == "step-1"
    stroke([(left, level)], [(left + 100, level)], [(right, level)])
    assert phone.shown()["key"] == "aim"


def test_nothing_overflows_on_a_phone(phone: Tab) -> None:
    for key in ("aim", "step-13", "wrong-no-lock-allowance"):
        phone.ask("key => window.fidpathPage.go(key)", key)
        assert phone.ask("() => document.documentElement.scrollWidth") <= 390
        assert phone.ask("() => document.documentElement.scrollHeight") <= 844


def test_light_and_dark(tab: Tab) -> None:
    tab.page.click("#light")
    assert tab.picture()[-8, -8].mean() < 60
    assert tab.page.locator("#light").inner_text() == "Light"
    tab.page.click("#light")
    assert tab.picture()[-8, -8].mean() > 240
    assert tab.page.locator("#light").inner_text() == "Dark"


def test_every_control_has_a_name_and_the_keyboard_reaches_it(tab: Tab) -> None:
    nameless = """() => [...document.querySelectorAll("button, select, input, canvas")].filter((control) => {
        const label = control.labels && control.labels.length > 0 && control.labels[0].textContent.trim();
        return !(label || control.getAttribute("aria-label") || control.textContent.trim());
    }).map((control) => control.outerHTML)"""
    assert tab.ask(nameless) == []
    reached = set()
    for _ in range(24):
        tab.page.keyboard.press("Tab")
        reached.add(tab.ask("() => document.activeElement.id"))
    assert {"bench", "practise", "light", "canvas", "home", "nearer", "see-through", "slider", "after"} <= reached
    assert {"tab-words", "words"} <= reached
    tab.page.focus("#tab-words")
    tab.page.keyboard.press("ArrowRight")
    assert tab.ask("() => document.activeElement.id") == "tab-look"
    assert tab.page.locator("#look").is_visible()
    assert tab.shown()["key"] == "aim"
    tab.page.click("#tab-marks")
    assert tab.page.locator("#marks table").count() == 3
    assert "H2, on the tail" in tab.page.locator("#marks").inner_text()
    tab.page.click("#tab-care")
    assert "qualified rigger" in tab.page.locator("#care").inner_text()


def test_a_page_cut_short_says_so(browser: Any, page: Path, tmp_path: Path) -> None:
    text = page.read_text(encoding="utf-8")
    start = text.index("</p>", text.index('class="partial"')) + 4
    last = text.index(".partial { display: none; }")
    short = tmp_path / "short.html"
    context = browser.new_context(reduced_motion="reduce")
    tab = context.new_page()
    for place in np.linspace(start, last, 20, dtype=int):
        short.write_text(text[:place], encoding="utf-8")
        tab.goto(short.as_uri())
        tab.wait_for_selector(".partial", state="visible", timeout=60_000)
        assert "cut short" in tab.locator(".partial").inner_text()
        assert not tab.locator("#live").is_visible(), place
        assert not tab.locator("#plain").is_visible(), place
    short.write_text(text[: start // 2], encoding="utf-8")
    tab.goto(short.as_uri())
    assert tab.locator("body").inner_text() == ""
    context.close()


@pytest.mark.parametrize("fault", ["shorter", "changed"])
def test_damaged_data_are_told(browser: Any, page: Path, tmp_path: Path, fault: str) -> None:
    text = page.read_text(encoding="utf-8")
    middle_of = text.index('"text":"') + 4000
    damaged = text[:middle_of] + ("" if fault == "shorter" else "AAAA") + text[middle_of + 4 :]
    bad = tmp_path / f"{fault}.html"
    bad.write_text(damaged, encoding="utf-8")
    tab = Tab(browser, bad)
    words = tab.page.locator(".broken").inner_text()
    assert ("cut short" if fault == "shorter" else "damaged") in words
    assert tab.page.locator("#live, #plain").count() == 0
    tab.close()


def test_without_webgl_there_are_pictures_words_and_a_reason(browser: Any, demo: Any, tmp_path: Path) -> None:
    plan, made = demo
    target = tmp_path / "splice.html"
    pictures = {"h1-first-fid": _picture()}
    target.write_text(splice_page(plan, [made["h1-first-fid"]], WAY, pictures), encoding="utf-8")
    other = browser.browser_type.launch(executable_path=browser_path(), args=["--no-sandbox", "--disable-3d-apis"])
    tab = Tab(other, target)
    words = tab.page.locator("#plain").inner_text()
    assert "can't be shown here: this browser has no WebGL2" in words
    assert tab.page.locator("#plain img").count() == 1
    assert tab.page.locator("#plain table").count() == 3
    assert tab.page.locator("#live").count() == 0
    other.close()


def _picture() -> bytes:
    import io

    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", (80, 60), (200, 180, 120)).save(out, format="PNG")
    return out.getvalue()


def test_without_script_there_are_pictures_and_words(browser: Any, page: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    tab = context.new_page()
    tab.goto(page.as_uri())
    assert tab.locator("#plain").is_visible()
    assert not tab.locator(".partial").is_visible()
    assert "Lay out the line and measure the tail" in tab.locator("#plain").inner_text()
    context.close()


def test_a_hostile_name_is_shown_as_text(browser: Any, demo: Any, tmp_path: Path) -> None:
    from dataclasses import replace

    plan, made = demo
    name = "</script><img src=x onerror=\"document.title='broken'\">"
    odd = replace(plan, job=replace(plan.job, name=name, terminator=replace(plan.job.terminator, name=name)))
    target = tmp_path / "splice.html"
    target.write_text(splice_page(odd, [made["wrapped"], made["h1-first-fid"]], WAY), encoding="utf-8")
    tab = Tab(browser, target, color_scheme="dark")
    assert tab.page.locator("html").get_attribute("data-light") == "dark"
    assert tab.page.locator("#job").inner_text() == name
    tab.go("step-2")
    assert name in tab.page.locator("#words").inner_text()
    assert tab.page.locator("img").count() == 0
    assert tab.page.title().startswith(name)
    tab.close()


def test_an_open_page_takes_other_data(browser: Any, page: Path, demo: Any) -> None:
    plan, made = demo
    tab = Tab(browser, page)
    tab.go("step-11")
    tab.page.keyboard.press("Shift+ArrowUp")
    tab.page.click("#see-through")
    before, seen = tab.picture(), tab.camera()
    text = page_data(plan, [made["locked"], made["buried"]], WAY)
    tab.ask("text => window.fidpathLoad(text)", text)
    tab.rest()
    assert tab.shown()["key"] == "step-11"
    assert np.allclose(tab.camera()["toward"], seen["toward"])
    assert np.abs(tab.picture() - before).mean() < 1
    assert tab.page.locator("#see-through").get_attribute("aria-pressed") == "true"
    tab.ask("() => window.fidpathPage.go('step-6')")
    assert "isn't settled yet" in tab.page.locator("#note").inner_text()
    assert "H2 drawn out" in tab.page.locator("#words").inner_text()
    refused = """text => { try { window.fidpathLoad(text); return ""; } catch (problem) { return problem.message; } }"""
    for broken in ("{", "null", '{"page": 1}', text[:5000]):
        assert re.search(r"data", tab.ask(refused, broken))
    assert tab.shown()["key"] == "step-6"
    tab.close()
