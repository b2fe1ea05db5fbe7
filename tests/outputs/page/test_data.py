"""The page's data: within bounds, cut short, damaged, replaced, without script or WebGL, with hostile names."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from fidpath.methods.registry import method_of
from fidpath.outputs.page import page_data, splice_page
from fidpath.outputs.page.document import BOUND
from fidpath.outputs.page.parts import parts_of
from pages import Tab, browser_path

WAY = method_of("locked-captive")


def test_the_demo_with_all_steps_and_mistakes_is_within_its_bound(page: Path) -> None:
    assert len(page.read_bytes()) <= BOUND


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
        assert "incomplete" in tab.locator(".partial").inner_text()
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
    assert tab.page.locator("button").all_inner_texts() == ["Dark"]
    tab.page.click("#light")
    assert tab.page.locator("html").get_attribute("data-light") == "dark"
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
    words = tab.locator("#plain").inner_text()
    assert words.index("H2, on the tail") < words.index("Lay out the line and measure the tail")
    assert [one for one in tab.locator("button").all() if one.is_visible()] == []
    context.close()


def test_card_and_steps_are_printed_without_buttons(browser: Any, page: Path) -> None:
    tab = Tab(browser, page)
    tab.page.emulate_media(media="print")
    assert [one for one in tab.page.locator("button, input, select").all() if one.is_visible()] == []
    words = tab.page.locator("#plain").inner_text()
    assert words.index("H2, on the tail") < words.index("Lay out the line and measure the tail")
    tab.close()


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
    text = page_data(plan, WAY, parts_of(plan, [made["locked"], made["buried"]], WAY))
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
