"""The page for who has set the browser's text to twice its size, on phones."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from pages import ARGUMENTS, FAULTS_OF_WORDS, PHONE, SMALL_PHONE, Tab, browser_path

OFF = """() => {
    const wide = document.documentElement.clientWidth, found = [];
    for (const one of document.querySelectorAll("button, select, input, #words *, #marks *, #job, #method")) {
        const { left, right, width } = one.getBoundingClientRect();
        if (width > 0 && (left < -1 || right > wide + 1)) found.push(one.id || one.textContent.slice(0, 40));
    }
    return found;
}"""


@pytest.fixture(scope="module", params=["phone", "small phone"])
def large(browser: Any, page: Path, request: pytest.FixtureRequest) -> Iterator[Tab]:
    """A page in a browser whose text is set to 32 pixels."""
    arguments = [*ARGUMENTS, "--blink-settings=defaultFontSize=32"]
    other = browser.browser_type.launch(executable_path=browser_path(), args=arguments)
    found = Tab(other, page, **(PHONE if request.param == "phone" else SMALL_PHONE))
    yield found
    found.close()
    other.close()


def _size(tab: Tab, selector: str) -> float:
    size: float = tab.page.locator(selector).first.evaluate("one => parseFloat(getComputedStyle(one).fontSize)")
    return size


def test_instructions_are_as_large_as_the_text_is_set(large: Tab) -> None:
    large.go("step-2")
    assert _size(large, "#words li") >= 32
    assert _size(large, "#words .check") >= 32
    assert _size(large, "#after") >= 32


@pytest.mark.parametrize("key", ["aim", "step-9b", "wrong-bight-other-face"])
def test_nothing_leaves_the_edge_or_lies_over_words(large: Tab, key: str) -> None:
    large.go(key)
    for name in ("words", "look", "measure", "marks", "wrongs", "care"):
        large.page.click(f"#tab-{name}")
        assert large.ask(OFF) == [], name
        assert large.ask(FAULTS_OF_WORDS) == [], name
    large.page.click("#tab-words")
    large.page.click("#bench")
    assert large.ask(OFF) == []
    large.page.click("#bench")


def test_the_picture_keeps_its_room(large: Tab) -> None:
    large.go("step-9b")
    box = large.page.locator("#canvas").bounding_box()
    corner = large.page.locator("#corner").bounding_box()
    assert box is not None and corner is not None
    assert box["height"] > 300
    assert corner["y"] >= box["y"] + box["height"] - 1
    assert large.shown()["drawn"] == [True]


def test_words_can_be_pinched(large: Tab) -> None:
    action = large.page.locator("#words").evaluate("one => getComputedStyle(one).touchAction")
    assert "pinch-zoom" in action
