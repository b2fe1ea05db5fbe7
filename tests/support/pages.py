"""The demo's page and a browser to open it in, for the tests of the page."""

from __future__ import annotations

import importlib.util
import io
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NoReturn

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
ARGUMENTS = ["--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--no-sandbox"]
WIDE = {"viewport": {"width": 1600, "height": 1000}}
SMALL = {"viewport": {"width": 760, "height": 460}}
PHONE = {
    "viewport": {"width": 390, "height": 844},
    "device_scale_factor": 2,
    "has_touch": True,
    "is_mobile": True,
}
SMALL_PHONE = {"viewport": {"width": 360, "height": 640}, "has_touch": True, "is_mobile": True}
OVER = ("corner", "labels", "over", "under", "note", "sides", "motion")

AS_OPENED = """() => {
    const set = (id, value) => {
        const control = document.getElementById(id);
        control.value = value;
        control.dispatchEvent(new Event("change"));
    };
    for (const mode of ["practise", "bench", "see-through"]) {
        const button = document.getElementById(mode);
        if (button.getAttribute("aria-pressed") === "true") button.click();
    }
    for (const box of document.querySelectorAll("#switches input:not(:checked)")) box.click();
    for (const part of [...document.querySelectorAll("#parts select")].map((select) => select.id)) set(part, "shown");
    set("cut-way", "off");
    set("cut-only", "all");
    document.getElementById("measure-clear").click();
    document.getElementById("tab-words").click();
    document.activeElement.blur();
}"""


FAULTS_OF_WORDS = (Path(__file__).parent / "page_faults.js").read_text(encoding="utf-8")
"""A function of the page's that answers what is wrong with its words: over one another, run through, cut off."""


def browser_path() -> str:
    """This machine's Chromium; where there is none, the test that asks is skipped, in CI it fails, and says why."""
    if importlib.util.find_spec("playwright") is None:
        left_out("playwright isn't installed")
    found = next((path for path in map(shutil.which, BROWSERS) if path), None)
    return found or left_out(f"no browser on this machine (looked for {', '.join(BROWSERS)})")


def left_out(reason: str) -> NoReturn:
    """Skips a test; fails it in CI, where nothing may be left out unseen."""
    if os.environ.get("CI"):
        pytest.fail(reason)
    pytest.skip(reason)


@contextmanager
def chromium() -> Iterator[Any]:
    """A browser that draws in software."""
    from playwright.sync_api import sync_playwright

    path = browser_path()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield browser
        browser.close()


class Tab:
    """An open page, what it said on its console, and what it asked of a network."""

    def __init__(self, browser: Any, path: Path, key: str = "", script: str = "", **context: Any) -> None:
        self.context = browser.new_context(**{**SMALL, **context})
        if script:
            self.context.add_init_script(script)
        self.page = self.context.new_page()
        self.faults: list[str] = []
        self.requests: list[str] = []
        self.page.on("console", lambda m: self.faults.append(m.text) if m.type in ("error", "warning") else None)
        self.page.on("pageerror", lambda e: self.faults.append(str(e)))
        self.page.on("request", lambda r: self.requests.append(r.url))
        self.page.goto(path.as_uri() + (f"#{key}" if key else ""))
        self.page.wait_for_selector("html[data-drawn], .broken, #plain.shown", timeout=60_000)

    def fresh(self) -> None:
        """The page as it opens: the aim, from its first view, nothing cut, left out or measured."""
        self.ask(AS_OPENED)
        self.go("aim")
        self.page.click("#home")
        self.rest()

    def close(self) -> None:
        """Closes the page; it must have said nothing and asked nobody."""
        self.context.close()
        assert self.faults == []
        assert [url for url in self.requests if not url.startswith(("file:", "data:", "blob:"))] == []

    def ask(self, script: str, argument: Any = None) -> Any:
        """What a function of the page's answers."""
        return self.page.evaluate(script, argument)

    def rest(self) -> None:
        """Waits until the fine picture is drawn and nothing more is being made."""
        self.page.wait_for_function("() => window.fidpathPage.idle()", polling=100, timeout=60_000)

    def go(self, key: str) -> None:
        """Shows a step or mistake and waits for its fine picture."""
        self.ask("key => window.fidpathPage.go(key)", key)
        self.rest()

    def shown(self) -> dict[str, Any]:
        """What is shown: its key, its place, which of its pictures are drawn."""
        found: dict[str, Any] = self.ask("() => window.fidpathPage.shown()")
        return found

    def camera(self) -> dict[str, Any]:
        """The first panel's camera."""
        found: dict[str, Any] = self.ask("() => window.fidpathPage.camera(0)")
        return found

    def cover(self, visible: bool) -> None:
        """Hides or shows what lies over and under the canvas."""
        show = "([ids, to]) => ids.forEach((id) => (document.getElementById(id).style.visibility = to))"
        self.ask(show, [list(OVER), "" if visible else "hidden"])

    def picture(self, fine: bool = True) -> NDArray[np.float64]:
        """The canvas alone, `(h, w, 3) float`, in CSS pixels of a window without a ratio; `fine`: once it rests."""
        if fine:
            self.rest()
        self.cover(False)
        shot = self.page.locator("#canvas").screenshot()
        self.cover(True)
        return np.asarray(Image.open(io.BytesIO(shot)).convert("RGB"), dtype=float)


def drawn(picture: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Where something is drawn on white paper, `(h, w) bool`."""
    return np.asarray((255 - picture).sum(axis=2) > 12)
