"""The page at the bench: what is typed in and saved, reading aloud, the way from step to step, the card on paper."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from fidpath.job.reader import read_job
from fidpath.lines.planned_and_measured import compare, read_measured
from fidpath.outputs.page.measuring import measuring_record
from fidpath.planning.planner import make_plan
from pages import FAULTS_OF_WORDS, PHONE, Tab, drawn
from scenes.steps import small_plan

DEMO = Path(__file__).parents[3] / "scenes" / "demo.toml"

VOICE = """() => {
    window.said = [];
    const voice = {
        cancel() { window.speaking = null; },
        speak(words) { window.said.push(words.text); window.speaking = words; },
    };
    Object.defineProperty(window, "speechSynthesis", { value: voice });
    window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
}"""


@pytest.fixture(scope="module")
def reader(browser: Any, page: Path) -> Iterator[Tab]:
    """The page on a phone with a voice that says nothing, and keeps what it was asked to say."""
    found = Tab(browser, page, script=f"({VOICE})()", **PHONE)
    yield found
    found.close()


def test_figures_are_held_against_what_the_comparison_says() -> None:
    plan = make_plan(read_job(DEMO))
    record = measuring_record(plan)
    found = {figure["name"]: figure for figure in record["figures"]}
    assert set(found) == {"h1_to_h2", "eye_length", "bury", "swollen_diameter", "take_up"}
    assert found["bury"]["planned"] == pytest.approx(plan.bury_length)
    assert found["bury"]["most"] is None
    assert found["eye_length"]["planned"] == pytest.approx(plan.throat_to_crown, abs=1e-3)


def test_an_eye_without_a_lock_asks_for_no_holes() -> None:
    plain = make_plan(read_job(DEMO.with_name("plain-eye.toml")))
    assert "h1_to_h2" not in {asked["name"] for asked in measuring_record(plain)["asked"]}
    assert "h1_to_h2" in {asked["name"] for asked in measuring_record(small_plan())["asked"]}


def test_what_was_measured_is_kept_and_saved_as_a_file_to_compare(phone: Tab, tmp_path: Path) -> None:
    phone.page.click("#tab-measure")
    for name, text in {"bury": "713", "eye_length": "9.9 cm", "before": "1000", "after": "920"}.items():
        phone.page.fill(f"#typed-{name}", text)
    assert "less than planned" in phone.page.inner_text("#typed-bury-said")
    assert "more than is allowed" in phone.page.inner_text("#typed-bury-said")
    assert "within what is allowed" in phone.page.inner_text("#typed-eye_length-said")
    assert "take-up" in phone.page.inner_text("#typed-after-said")
    phone.page.reload()
    phone.page.wait_for_selector("html[data-drawn]")
    phone.page.click("#tab-measure")
    assert phone.page.input_value("#typed-bury") == "713"
    with phone.page.expect_download() as saved:
        phone.page.click("#typed-save")
    path = tmp_path / saved.value.suggested_filename
    saved.value.save_as(path)
    assert path.read_text(encoding="utf-8") == phone.page.inner_text("#typed-file")
    job = read_job(DEMO)
    rows = {row.name: row for row in compare(job, read_measured(path, job))}
    assert set(rows) == {"bury", "eye_length", "take_up"}
    assert rows["bury"].measured == 713 and not rows["bury"].within
    assert rows["eye_length"].measured == pytest.approx(99) and rows["eye_length"].within
    phone.page.click("#typed-clear")
    assert phone.page.input_value("#typed-bury") == ""
    assert phone.page.locator("#typed-save").is_hidden()


def test_what_is_no_length_is_said_and_not_saved(phone: Tab) -> None:
    phone.page.click("#tab-measure")
    phone.page.fill("#typed-bury", "about 700")
    assert phone.page.get_attribute("#typed-bury", "aria-invalid") == "true"
    assert "isn't a length" in phone.page.inner_text("#typed-bury-said")
    assert phone.page.locator("#typed-save").is_hidden()
    phone.page.fill("#typed-bury", "")
    assert phone.page.get_attribute("#typed-bury", "aria-invalid") == "false"


def _say(tab: Tab) -> None:
    tab.ask("() => window.speaking.onend()")


def test_a_step_is_read_and_its_sentence_is_marked(reader: Tab) -> None:
    reader.go("step-2")
    reader.page.click("#read")
    assert reader.page.inner_text("#words .reading") == reader.page.inner_text("#title")
    _say(reader)
    reader.page.wait_for_function("() => window.said.length === 2")
    assert reader.page.locator("#words ol > li").first.get_attribute("class") == "reading"
    reader.page.click("#read")
    assert reader.page.locator("#words .reading").count() == 0
    assert reader.page.inner_text("#read") == "Read aloud"


def test_with_both_hands_full_it_goes_on_by_itself(reader: Tab) -> None:
    reader.go("step-1")
    reader.page.select_option("#pause", "5")
    reader.ask("""() => {
        window.said.length = 0;
        const wait = window.setTimeout;
        window.setTimeout = (act, ms) => wait(act, ms / 100);
    }""")
    reader.page.click("#read")
    for _ in range(40):
        before = len(reader.ask("() => window.said"))
        _say(reader)
        reader.page.wait_for_function("before => window.said.length > before", arg=before)
        if reader.shown()["key"] != "step-1":
            break
    assert reader.shown()["key"] == "step-2"
    assert reader.ask("() => window.said.at(-1)") == reader.page.inner_text("#title")
    reader.page.click("#read")


def _way(tab: Tab, share: float) -> None:
    tab.ask("""share => {
        const way = document.getElementById("way");
        way.value = share;
        way.dispatchEvent(new Event("input"));
    }""", share)  # fmt: skip
    tab.rest()


def test_the_way_begins_at_the_step_before_and_ends_at_the_step(tab: Tab) -> None:
    tab.go("step-12")
    at_rest = tab.picture()
    _way(tab, 0.5)
    half = tab.picture()
    assert "not settled" in tab.page.inner_text("#note")
    assert tab.page.locator("#labels .label").count() == 0
    _way(tab, 1)
    again = tab.picture()
    assert (drawn(again) != drawn(at_rest)).mean() < 0.001
    assert (drawn(half) != drawn(at_rest)).mean() > 0.01
    assert tab.page.locator("#labels .label").count() > 0


def test_the_way_goes_through_a_settled_moment(demo, tab: Tab) -> None:
    """Half-way to step 8b the rope is the moment's own, which the solver has drawn through strand by strand."""
    plan, made = demo
    moment = made["h2-half-turned"]
    tab.go("step-8b")
    assert tab.page.locator("#moments option").evaluate_all("all => all.map((one) => one.value)") == ["0.5"]
    _way(tab, 0.49)
    assert "settled strand by strand" in tab.page.inner_text("#note")
    shown = np.array(tab.ask("() => window.fidpathPage.moving()")).reshape(-1, 3)
    turn = made["h2-inside-out"].state.heading - moment.state.heading
    about_z = np.array([[np.cos(turn), -np.sin(turn), 0], [np.sin(turn), np.cos(turn), 0], [0, 0, 1]])
    strands = moment.settled.strands
    wanted = strands.points[:, : strands.count.min()].mean(axis=0) @ about_z.T
    away = np.linalg.norm(shown[:, None] - wanted[None], axis=2).min(axis=1)
    assert np.median(away) < 0.2 * plan.braid.diameter
    _way(tab, 0.3)
    assert "not settled" in tab.page.inner_text("#note")
    _way(tab, 1)


def test_the_aim_and_two_panels_have_no_way(tab: Tab) -> None:
    tab.go("aim")
    assert tab.page.locator("#motion").is_hidden()
    tab.go("wrong-no-taper")
    assert tab.page.locator("#motion").is_hidden()
    tab.go("step-12")
    assert tab.page.locator("#motion").is_visible()


def test_the_card_is_printed_alone_and_nothing_that_could_be_pressed(tab: Tab) -> None:
    tab.ask("() => { window.printed = 0; window.print = () => window.printed++; }")
    tab.page.click("#tab-marks")
    tab.page.click("#print-card")
    tab.page.click("#light")
    tab.page.emulate_media(media="print")
    ink = tab.page.locator("#plain .card td").first.evaluate("one => getComputedStyle(one).color")
    assert ink == "rgb(32, 34, 38)"  # dark on white paper, whatever the screen has
    assert tab.page.locator("#plain .card table").is_visible()
    assert tab.page.locator("#plain .step").first.is_hidden()
    assert tab.page.locator("button:visible, input:visible, select:visible").count() == 0
    tab.ask("() => window.dispatchEvent(new Event('afterprint'))")
    assert tab.page.locator("#plain .step").first.is_visible()
    tab.page.emulate_media(media="screen")
    tab.page.click("#light")
    assert tab.ask("() => window.printed") == 1
    words = tab.page.locator("#plain .card").evaluate("one => one.textContent")
    assert re.search(r"H1, on the\s+standing part", words)


def test_long_rope_is_shown_near_at_its_marks(phone: Tab) -> None:
    phone.go("step-14")
    near = phone.page.locator("#labels .inset")
    near.first.wait_for()
    phone.page.wait_for_function("() => document.querySelector('.inset').width !== 300")
    colours = near.first.evaluate("""one => {
        const { data } = one.getContext("2d").getImageData(0, 0, one.width, one.height);
        return new Set(Array.from(data, (_, i) => i % 4 ? 0 : data[i] * 65536 + data[i + 1] * 256 + data[i + 2])).size;
    }""")
    assert colours > 100
    assert phone.ask(FAULTS_OF_WORDS) == []
    phone.page.click("#nearer")
    phone.page.wait_for_function("() => !document.querySelector('#labels .inset')")
    assert near.count() == 0
    phone.go("step-8b")
    assert near.count() == 0
