"""The live page itself, in a real browser."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from fidpath.job.reader import read_job
from live import Live, wait


def chromium() -> str | None:
    """A Chromium of this machine."""
    return next(
        (path for name in ("chromium", "chromium-browser", "google-chrome") if (path := shutil.which(name))), None
    )


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    playwright = pytest.importorskip("playwright.sync_api", reason="playwright is missing")
    path = chromium()
    if path is None:
        pytest.skip("no Chromium on this machine")
    flags = ["--no-sandbox", "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"]
    with playwright.sync_playwright() as play:
        opened = play.chromium.launch(executable_path=path, args=flags)
        yield opened
        opened.close()


DRAWN = "() => Number(document.querySelector('iframe')?.contentDocument?.documentElement?.dataset.drawn || 0)"
"""How often the splice's page has drawn."""


def test_the_live_page_in_a_browser(short: Path, tmp_path: Path, browser: Any) -> None:
    own = Live(short, tmp_path / "saved")
    try:
        with in_tab(browser, own.url) as (tab, faults, asked):
            first = wait(lambda: tab.evaluate(DRAWN))
            follow_a_change(tab)
            refuse_beside_the_field(tab)
            keep_the_last_picture_and_bring_the_next(tab, first)
            save_it(tab, own)
            follow_another_window(tab, browser, own.url)
            assert faults == []
            assert all(url.startswith((own.url, "blob:", "data:")) for url in asked)
        assert own.data("state")["news"]["shown"] > 0
        assert own.end() == 130
    finally:
        own.process.kill()
        own.process.wait()


@contextmanager
def in_tab(browser: Any, url: str) -> Iterator[tuple[Any, list[str], list[str]]]:
    """A tab on an address, the faults it reports, and all it asks for."""
    tab = browser.new_page(viewport={"width": 1300, "height": 850})
    faults: list[str] = []
    asked: list[str] = []
    tab.on("console", lambda message: faults.append(message.text) if message.type == "error" else None)
    tab.on("pageerror", lambda problem: faults.append(str(problem)))
    tab.on("request", lambda request: asked.append(request.url))
    tab.goto(url)
    tab.wait_for_selector("#form fieldset")
    yield tab, faults, asked
    tab.close()


def follow_a_change(tab: Any) -> None:
    """The plan's numbers follow a field."""
    tab.get_by_label("Bury", exact=False).first.fill("15 d")
    wait(lambda: tab.locator('td[data-name="bury_length"]').inner_text() == "150 mm")
    assert tab.get_by_label("Pitch").get_attribute("aria-describedby")


def refuse_beside_the_field(tab: Any) -> None:
    """A value that can't be is refused in words beside its field, and the numbers stay."""
    place = tab.locator('[data-key="rope.diameter"]')
    place.locator("input").fill("12")
    wait(lambda: "has no unit" in place.locator(".error").inner_text())
    assert place.locator("input").get_attribute("aria-invalid") == "true"
    assert tab.locator("#stale").is_visible()
    assert tab.locator('td[data-name="bury_length"]').inner_text() == "150 mm"
    place.locator("input").fill("10 mm")
    wait(lambda: not place.locator(".error").is_visible())


def keep_the_last_picture_and_bring_the_next(tab: Any, first: int) -> None:
    """The frame keeps its picture until the changed splice has settled, and is then handed the new data."""
    assert tab.evaluate(DRAWN) >= first
    assert tab.locator("iframe").count() == 1
    assert tab.locator("#words").inner_text()
    tab.get_by_label("Rope diameter d").fill("10.5 mm")
    before = tab.evaluate(DRAWN)
    wait(lambda: "figures before" not in tab.locator("#words").inner_text() and tab.evaluate(DRAWN) > before)
    assert tab.locator("iframe").count() == 1


def save_it(tab: Any, own: Live) -> None:
    """The job as it stands goes into a file, once it is said that its rope's name stays as it is."""
    tab.get_by_label("File name").fill("changed.toml")
    tab.get_by_role("button", name="Save", exact=True).click()
    wait(lambda: "a name still says what the rope was" in tab.locator("#save-said").inner_text())
    tab.get_by_role("button", name="Leave them as they are").click()
    wait(lambda: not tab.locator("#follows").is_visible())
    tab.get_by_role("button", name="Save", exact=True).click()
    wait(lambda: "Saved as" in tab.locator("#save-said").inner_text())
    assert read_job(own.folder / "changed.toml").rope.diameter_mm == 10.5


def follow_another_window(tab: Any, browser: Any, url: str) -> None:
    """A second window shows the same job, and a change in it comes to the first."""
    with in_tab(browser, url) as (other, faults, _):
        assert other.get_by_label("Rope diameter d").input_value() == "10.5 mm"
        other.locator("#f-practice-hole_gap").fill("1.2 d")
        wait(lambda: tab.locator("#f-practice-hole_gap").input_value() == "1.2 d")
        assert faults == []


def test_a_page_whose_server_has_gone_says_so_and_keeps_its_picture(short: Path, tmp_path: Path, browser: Any) -> None:
    own = Live(short, tmp_path / "saved")
    try:
        with in_tab(browser, own.url) as (tab, _, _):
            wait(lambda: tab.evaluate(DRAWN))
            assert own.end() == 130
            wait(lambda: "fidpath has ended" in tab.locator("#words").inner_text())
            assert tab.locator("iframe").count() == 1
    finally:
        own.process.kill()
        own.process.wait()
