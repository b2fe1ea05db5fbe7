"""The place at the bench: kept when the page is loaded again, and by Back and Forward; checks that are ticked."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from pages import Tab


@pytest.fixture
def anew(browser: Any, page: Path) -> Iterator[Tab]:
    """A page of its own, with a history of its own."""
    found = Tab(browser, page)
    yield found
    found.close()


def _again(tab: Tab) -> None:
    tab.page.reload()
    tab.page.wait_for_selector("html[data-drawn]", timeout=60_000)


def _steps_on(tab: Tab, selector: str) -> None:
    """Presses a button as a person would: not at once after the one before."""
    tab.page.wait_for_timeout(900)
    tab.page.click(selector)


def test_place_and_bench_are_kept_when_the_page_is_loaded_again(anew: Tab) -> None:
    anew.ask("() => window.fidpathPage.go('step-8b')")
    anew.page.click("#bench")
    assert anew.page.url.endswith("#at=step-8b&bench")
    _again(anew)
    assert anew.shown()["key"] == "step-8b"
    assert anew.page.locator("#bench").get_attribute("aria-pressed") == "true"
    anew.page.click("#bench")
    _again(anew)
    assert anew.shown()["key"] == "step-8b"
    assert anew.page.locator("#bench").get_attribute("aria-pressed") == "false"


def test_back_and_forward_go_through_what_was_shown(anew: Tab) -> None:
    page = anew.page
    _steps_on(anew, "#after")
    _steps_on(anew, "#after")
    _steps_on(anew, "#tab-wrongs")
    page.click("text=The bight went in at the other face of H2")
    assert anew.shown()["key"] == "wrong-bight-other-face"
    for key in ("step-2", "step-1", "aim"):
        page.go_back()
        assert anew.shown()["key"] == key
        assert page.locator("#place").inner_text() == ("Aim" if key == "aim" else f"Step {key[5:]}")
    page.go_forward()
    assert anew.shown()["key"] == "step-1"
    _steps_on(anew, "#practise")
    assert "Question 1" in page.locator("#words").inner_text()
    page.go_back()
    assert anew.shown()["key"] == "step-1"
    assert page.locator("#practise").get_attribute("aria-pressed") == "false"
    assert page.locator("#tabs").is_visible()


QUICKLY = """() => {
    const slider = document.getElementById("slider");
    for (let at = 1; at < 9; at++) {
        slider.value = at;
        slider.dispatchEvent(new Event("input", { bubbles: true }));
    }
}"""
"""In one go: on a slow machine what a driver sends one by one comes slowly."""


def test_steps_gone_over_quickly_are_one_place(anew: Tab) -> None:
    before = anew.ask("() => history.length")
    anew.ask(QUICKLY)
    assert anew.ask("() => history.length") == before + 1
    anew.page.go_back()
    assert anew.shown()["key"] == "aim"


@pytest.mark.parametrize("fragment", ["#at=step-3b", "#step-3b", "#bench&at=step-3b", "#at=no-such-step"])
def test_links_to_a_step(browser: Any, page: Path, fragment: str) -> None:
    found = Tab(browser, page, fragment[1:])
    assert found.shown()["key"] == ("aim" if "no-such" in fragment else "step-3b")
    assert found.page.locator("#bench").get_attribute("aria-pressed") == str("bench" in fragment).lower()
    found.close()


def test_ticked_checks_are_kept_until_they_are_cleared(anew: Tab) -> None:
    page = anew.page
    for key in ("step-1", "step-2"):
        anew.ask("key => window.fidpathPage.go(key)", key)
        page.locator("#words .check input").check()
    _again(anew)
    assert page.locator("#words .check input").is_checked()
    page.keyboard.press("ArrowRight")
    assert not page.locator("#words .check input").is_checked()
    anew.ask("() => window.fidpathPage.go('aim')")
    assert "2 of 19 checks are ticked" in page.locator("#words").inner_text()
    page.click("text=Go on at step 3a")
    assert anew.shown()["key"] == "step-3a"
    anew.ask("() => window.fidpathPage.go('aim')")
    page.click("text=Clear the ticks")
    anew.ask("() => window.fidpathPage.go('step-1')")
    assert not page.locator("#words .check input").is_checked()
