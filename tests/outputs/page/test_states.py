"""The page while it loads, draws, refines, and when the graphics card is taken away."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from pages import PHONE, SMALL, Tab, drawn

AT_ONCE = """document.addEventListener("DOMContentLoaded", () => setTimeout(() =>
    window.fidpathLoad(document.getElementById("data").textContent), 0))"""


@pytest.fixture
def anew(browser: Any, page: Path) -> Iterator[Tab]:
    """A page that nothing has been made of yet."""
    found = Tab(browser, page, **PHONE)
    yield found
    found.close()


def test_data_that_come_before_the_first_picture_are_drawn(browser: Any, page: Path) -> None:
    context = browser.new_context(**SMALL)
    context.add_init_script(AT_ONCE)
    tab = context.new_page()
    tab.goto(page.as_uri())
    tab.wait_for_selector("html[data-drawn]", timeout=30_000)
    tab.wait_for_function("() => window.fidpathPage.idle()", polling=100, timeout=30_000)
    assert tab.evaluate("() => window.fidpathPage.shown().drawn") == [True]
    context.close()


@pytest.mark.parametrize(("key", "slower"), [("step-9b", 1), ("step-9b", 8), ("wrong-bight-other-face", 1)])
def test_one_fine_picture_is_drawn_when_all_of_it_is_there(anew: Tab, key: str, slower: int) -> None:
    if slower > 1:  # then edges are smoothed later, which counts as the same picture
        anew.context.new_cdp_session(anew.page).send("Emulation.setCPUThrottlingRate", {"rate": slower})
        anew.page.reload()
        anew.page.wait_for_selector("html[data-drawn]", timeout=60_000)
        assert anew.ask("() => window.fidpathPage.timing().slow")
    anew.rest()
    before = anew.ask("() => window.fidpathPage.fine()")
    anew.go(key)
    anew.page.wait_for_timeout(500)
    anew.rest()
    anew.page.wait_for_timeout(900 if slower > 1 else 0)
    assert anew.ask("() => window.fidpathPage.fine()") == before + 1
    assert anew.page.locator("#labels .label").count() > 2


LOSE = """() => {
    window.card = document.getElementById("canvas").getContext("webgl2").getExtension("WEBGL_lose_context");
    window.card.loseContext();
}"""


def test_a_lost_card_says_so_leaves_no_words_and_comes_back(browser: Any, page: Path) -> None:
    tab = Tab(browser, page)
    tab.go("step-9b")
    before = tab.picture()
    tab.ask(LOSE)
    tab.page.wait_for_selector("#note:not([hidden])")
    for key in ("step-9b", "step-10a"):
        tab.ask("key => window.fidpathPage.go(key)", key)
        tab.page.wait_for_timeout(400)
        assert "graphics card" in tab.page.locator("#note").inner_text()
        assert tab.page.locator("#labels *, #over *, #under *").count() == 0
    tab.ask("() => window.fidpathPage.go('step-9b')")
    tab.ask("() => window.card.restoreContext()")
    tab.page.wait_for_selector("#note", state="hidden")
    again = tab.picture()
    assert drawn(again).mean() > 0.01
    assert np.abs(again - before).mean() < 0.5
    tab.faults.clear()  # the browser itself warns of the lost card
    tab.close()
