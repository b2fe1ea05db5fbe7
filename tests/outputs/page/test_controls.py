"""Every control of the page, by mouse, keys and fingers."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest

from fidpath.methods.registry import method_of
from pages import Tab, drawn

WAY = method_of("locked-captive")


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


def test_mistakes_stand_beside_the_right_way(tab: Tab) -> None:
    page = tab.page
    page.click("#tab-wrongs")
    page.click("text=The bight went in at the other face of H2")
    assert tab.shown()["key"] == "wrong-bight-other-face"
    tab.rest()
    assert tab.shown()["drawn"] == [True, True]
    assert page.locator("#sides .side").all_inner_texts() == ["as it should be", "wrong"]
    assert "Two turns stay in each group" in page.locator("#words").inner_text()
    assert "Remedy" in page.locator("#words").inner_text()
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
        page.get_by_role("button", name="Go on", exact=True).click()
    assert "8 of 9 right at the first try" in page.locator("#words").inner_text()
    assert tab.ask("() => Object.values(localStorage).includes('8')")
    page.click("text=Back to the steps")
    assert tab.shown()["key"] == "aim"


def test_bench_view_goes_on_by_its_large_button_and_by_no_other_tap(phone: Tab) -> None:
    page = phone.page
    page.click("#bench")
    size = page.locator("#words").evaluate("words => parseFloat(getComputedStyle(words).fontSize)")
    assert size >= 22
    page.tap("#canvas")
    page.locator("#words h2").tap()
    assert phone.shown()["key"] == "aim"
    box = page.locator("#after").bounding_box()
    assert box is not None and box["height"] >= 60 and box["width"] >= 100
    page.tap("#after")
    assert phone.shown()["key"] == "step-1"


WAKE = """(() => {
    window.held = [];
    const request = async () => {
        const lock = { released: false, release() { lock.released = true; } };
        window.held.push(lock);
        return lock;
    };
    Object.defineProperty(navigator, "wakeLock", { value: { request } });
    window.see = (state) => {
        if (state === "hidden") window.held.forEach((lock) => lock.release());
        Object.defineProperty(document, "visibilityState", { configurable: true, value: state });
        document.dispatchEvent(new Event("visibilitychange"));
    };
    window.awake = () => window.held.filter(({ released }) => !released).length;
})()"""


def test_the_screen_stays_on_in_bench_alone(phone: Tab) -> None:
    page = phone.page
    phone.ask(WAKE)
    page.click("#bench")
    page.wait_for_function("() => window.awake() === 1")
    phone.ask("() => window.see('hidden')")
    assert phone.ask("() => window.awake()") == 0
    phone.ask("() => window.see('visible')")
    page.wait_for_function("() => window.awake() === 1")
    page.click("#bench")
    page.wait_for_function("() => window.awake() === 0")
    assert phone.ask("() => window.held.length") == 2


ORDER = ("R", "H1", "H2", "E", "B", "T1", "T2", "T3", "T4", "T5", "X")


def test_bench_shows_the_marks_of_its_step(phone: Tab) -> None:
    page = phone.page
    page.click("#bench")
    assert page.locator("#words table").count() == 0
    for key, letters in {"step-1": "R", "step-2": "H1 H2 E B", "step-13": "E B T1 T2 T3 T4 T5 X"}.items():
        phone.ask("key => window.fidpathPage.go(key)", key)
        rows = page.locator("#words table tbody tr")
        shown = [words.split(",")[0] for words in rows.locator("th").all_inner_texts()]
        assert shown == [letter for letter in ORDER if letter in letters.split()], key
    phone.ask("() => window.fidpathPage.go('step-2')")
    assert "280 mm" in rows.filter(has_text="H2").inner_text()
    page.click("#bench")
    assert not page.locator("#words table").is_visible()


def test_marks_are_a_card_first_and_their_formulas_folded(phone: Tab) -> None:
    page = phone.page
    page.click("#tab-marks")
    panel = page.locator("#marks")
    assert "1060 mm" in panel.inner_text()
    assert "24 crossings x 2P/N" not in panel.inner_text()
    height = panel.evaluate("panel => panel.scrollHeight")
    assert height < 1500
    page.click("text=Formulas and sources")
    assert "24 crossings x 2P/N" in panel.inner_text()
    page.click("summary:has-text('Lengths')")
    assert "tail to lay out before starting" in panel.inner_text()


NARROW_TARGETS = """() => [...document.querySelectorAll("button, select, input, summary, a")].map((control) => {
    const target = control.type === "checkbox" ? control.closest(".tick") : control;
    const { width, height } = target.getBoundingClientRect();
    return [control.id || control.textContent, width, height];
}).filter(([, width, height]) => width > 0 && (width < 44 || height < 44))"""


@pytest.mark.parametrize("key", ["aim", "step-9b", "wrong-bight-other-face"])
def test_whatever_is_pressed_is_as_large_as_a_finger(phone: Tab, key: str) -> None:
    phone.ask("key => window.fidpathPage.go(key)", key)
    for tab in ("look", "measure", "marks", "wrongs", "care", "words"):
        phone.page.click(f"#tab-{tab}")
        assert phone.ask(NARROW_TARGETS) == [], tab
    for mode in ("bench", "practise"):
        phone.page.click(f"#{mode}")
        assert phone.ask(NARROW_TARGETS) == [], mode


def test_keys_scroll_what_is_read_and_leave_practice(tab: Tab) -> None:
    page = tab.page
    tab.go("step-2")
    page.click("#tab-marks")
    for place in ("tab-marks", "marks", "canvas"):
        tab.ask("() => { document.getElementById('marks').scrollTop = 0; }")
        page.focus(f"#{place}")
        page.keyboard.press("PageDown")
        page.wait_for_function("() => document.getElementById('marks').scrollTop > 50")
        assert tab.shown()["key"] == "step-2", place
    page.click("#tab-words")
    page.focus("#canvas")
    page.keyboard.press("PageDown")
    assert tab.shown()["key"] == "step-3a"
    page.click("#practise")
    page.keyboard.press("Escape")
    assert page.locator("#practise").get_attribute("aria-pressed") == "false"
    assert tab.shown()["key"] == "step-3a"


def test_arrows_with_alt_are_the_browsers(tab: Tab) -> None:
    press = """(shift) => !document.getElementById("canvas").dispatchEvent(new KeyboardEvent("keydown",
        { key: "ArrowLeft", altKey: true, shiftKey: shift, bubbles: true, cancelable: true }))"""
    before = tab.camera()["centre"]
    assert not tab.ask(press, False)
    assert tab.camera()["centre"] == before
    assert tab.shown()["key"] == "aim"
    assert tab.ask(press, True)
    assert tab.camera()["centre"] != before


FOCUS = "() => document.activeElement.id || document.activeElement.tagName"


def test_focus_is_never_lost(tab: Tab) -> None:
    page = tab.page
    tab.go("step-13")
    page.focus("#after")
    page.keyboard.press("Enter")
    assert page.locator("#after").is_disabled()
    assert tab.ask(FOCUS) == "title"
    page.click("#tab-wrongs")
    page.click("text=The bight went in at the other face of H2")
    page.get_by_role("button", name="Back to the steps").focus()
    page.keyboard.press("Enter")
    assert tab.ask(FOCUS) == "title"
    tab.go("step-10c")
    page.focus("#into")
    tab.ask("() => window.fidpathPage.go('step-11')")
    tab.page.wait_for_timeout(100)
    assert tab.ask(FOCUS) == "canvas"
    page.click("#tab-look")
    page.focus("#part-eye")
    page.select_option("#part-eye", "left out")
    assert tab.ask(FOCUS) == "part-eye"


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


@pytest.mark.parametrize("size", [(820, 1180), (768, 1024), (600, 900)])
def test_a_page_higher_than_wide_has_its_words_below_the_picture(
    browser: Any, page: Path, size: tuple[int, int]
) -> None:
    width, height = size
    tab = Tab(browser, page, viewport={"width": width, "height": height})
    tab.go("step-8b")
    sides = """() => ["picture", "side", "note"].map((id) => {
        const { left, top, right, bottom } = document.getElementById(id).getBoundingClientRect();
        return { left, top, right, bottom };
    })"""
    picture, words, _ = tab.ask(sides)
    assert [(box["left"], box["right"]) for box in (picture, words)] == [(0, width)] * 2
    assert picture["bottom"] <= words["top"] and words["bottom"] == height
    assert picture["bottom"] - picture["top"] > 0.3 * height
    tab.ask("""() => {
        const way = document.getElementById("way");
        way.value = 0.3;
        way.dispatchEvent(new Event("input"));
    }""")
    _, _, note = tab.ask(sides)
    assert note["top"] > (picture["top"] + 2 * picture["bottom"]) / 3
    tab.close()


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
