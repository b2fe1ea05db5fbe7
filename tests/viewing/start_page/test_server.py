"""The start page's server over real HTTP, and in a browser as a person goes through it."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import shows
from fidpath.job.reader import read_job
from fidpath.viewing.serving.guard import new_token
from live import Start, wait
from pages import chromium


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with chromium() as opened:
        yield opened


@pytest.fixture(scope="module")
def start(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Start]:
    found = Start(tmp_path_factory.mktemp("start") / "shop")
    yield found
    found.process.kill()
    found.process.wait()


def demo() -> str:
    return shows.DEMO.read_text(encoding="utf-8").replace('bury = "72 d"', 'bury = "18 d"')


def test_the_page_and_all_it_needs_come_under_a_strict_policy(start: Start) -> None:
    for path in ("", "start.css", "base.css", "start.js"):
        status, headers, _ = start.ask(path)
        assert status == 200
        assert "default-src 'none'" in headers["content-security-policy"]
        assert "unsafe" not in headers["content-security-policy"]


@pytest.mark.parametrize(
    ("path", "headers", "status"),
    [
        ("home", {"Host": "evil.example"}, 403),
        ("home", {"Origin": "http://evil.example"}, 403),
        pytest.param(f"/{new_token()}/home", {}, 404, id="another token"),
        ("/home", {}, 404),
        ("text/..%2f..%2fetc%2fpasswd", {}, 404),
        ("text/none.toml", {}, 422),
        ("job/none.toml/state", {}, 404),
        ("job/..%2fshop/state", {}, 404),
        ("home", {}, 200),
    ],
)
def test_strangers_and_ways_out_are_refused(start: Start, path: str, headers: dict[str, str], status: int) -> None:
    assert start.ask(path, method="GET", **headers)[0] == status


@pytest.mark.parametrize("path", ["new", "open", "add", "report", "end", "example"])
def test_what_changes_something_is_never_done_by_a_link(start: Start, path: str) -> None:
    assert start.ask(path, method="GET")[0] == 405
    assert path == "end" or start.ask(path, b"[]")[0] == 400


def test_a_job_is_taken_in_opened_changed_and_its_results_listed(start: Start) -> None:
    name = start.data("add", {"name": "C:\\somewhere\\stay.toml", "text": demo()})["file"]
    assert name == "stay.toml"
    url = start.data("open", {"file": name})["url"]
    state = start.data(f"{url}state")
    assert (state["home"], state["file"]) == ("../../", "stay.toml")
    plain = start.data(f"{url}job", {"texts": {**state["texts"], "line.ends[1].splice": "plain"}})
    assert plain["texts"]["line.ends[1].splice"] == "plain"
    assert start.data(f"{url}results") == {"folder": str(start.folder / "exports" / "workboat stay"), "groups": []}
    assert start.data(f"{url}build")["phase"] == "idle"
    assert start.ask(f"{url}results/..%2f..%2fstay.toml")[0] == 404
    assert start.ask(f"{url}phone", {"on": True})[0] == 422
    assert start.data("home")["files"][0]["file"] == "stay.toml"


def test_a_job_that_cannot_be_is_said_and_not_opened(start: Start) -> None:
    name = start.data("add", {"name": "broken.toml", "text": "schema = 1\n"})["file"]
    status, _, content = start.ask("open", {"file": name})
    assert status == 422
    assert "missing" in json.loads(content)["problem"]


def test_a_new_job_never_takes_the_name_of_another(start: Start) -> None:
    asked = start.data("questions/mm")
    texts = {**asked["texts"], "name": "twice"}
    assert start.data("new", {"system": "mm", "texts": texts})["file"] == "twice.toml"
    assert "already" in start.data("new", {"system": "mm", "texts": texts})["errors"]["name"]


def test_too_large_a_file_is_refused(start: Start) -> None:
    assert start.ask("add", {"name": "big.toml", "text": "#" * 5_000_000})[0] == 413


def test_a_second_start_for_the_folder_opens_the_first(start: Start) -> None:
    command = [sys.executable, "-m", "fidpath", "start", str(start.folder), "--no-open"]
    own = shows.environment(XDG_STATE_HOME=str(start.folder.with_suffix(".home")))
    done = subprocess.run(command, env=own, capture_output=True, text=True, check=False, timeout=60)
    assert (done.returncode, done.stdout.strip()) == (0, start.url)
    notes = list(start.folder.with_suffix(".home").glob("fidpath/start-*.json"))
    assert [path.stat().st_mode & 0o077 for path in notes] == [0]


def test_its_button_ends_it_and_a_missing_browser_does_not(tmp_path: Path) -> None:
    none = {"BROWSER": "no-such-browser-here", "DISPLAY": "", "WAYLAND_DISPLAY": ""}
    own = Start(tmp_path / "shop", "--port", "0", **none)
    try:
        wait(lambda: "No browser could be opened" in own.said.read_text())
        assert own.ask("home")[0] == 200
        assert own.data("end", {}) == {}
        assert own.process.wait(30) == 0
        assert "Traceback" not in own.said.read_text()
        assert list((tmp_path / "shop.home").glob("fidpath/*.json")) == []
    finally:
        own.process.kill()


def test_a_folder_that_cannot_be_is_one_clear_error(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    command = [sys.executable, "-m", "fidpath", "start", str(tmp_path / "file" / "in"), "--no-open"]
    own = shows.environment(XDG_STATE_HOME=str(tmp_path))
    done = subprocess.run(command, env=own, capture_output=True, text=True, check=False, timeout=60)
    assert done.returncode == 6
    assert "can't make the folder" in done.stderr
    assert "Traceback" not in done.stderr


def test_bare_fidpath_names_the_start_page() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "fidpath"], env=shows.environment(), capture_output=True, text=True, check=False
    )
    assert "fidpath start" in done.stdout + done.stderr


def test_a_person_goes_from_questions_to_a_saved_job(start: Start, browser: Any) -> None:
    tab = browser.new_page(viewport={"width": 390, "height": 844})
    faults: list[str] = []
    tab.on("pageerror", lambda problem: faults.append(str(problem)))
    tab.on("console", lambda message: faults.append(message.text) if message.type == "error" else None)
    tab.goto(f"{start.url}#new")
    tab.wait_for_selector("#questions fieldset")
    tab.get_by_role("button", name="Make the job").click()
    tab.wait_for_selector("#questions [aria-invalid='true']")
    answers = {"name": "spare stay", "rope-diameter": "10 mm", "rope-strands": "12", "terminator-width": "14 mm"}
    answers |= {"terminator-bearing_diameter": "50 mm", "terminator-groove_radius": "5.5 mm"}
    for key, text in answers.items():
        tab.fill(f"#f-{key}", text)
    tab.get_by_role("button", name="Make the job").click()
    tab.wait_for_selector("#form fieldset")
    assert read_job(start.folder / "spare stay.toml").rope.pitch_guessed
    tab.fill("#f-rope-diameter", "12 mm")
    tab.get_by_role("button", name="Make these follow").click()
    wait(lambda: tab.locator("#follows").is_hidden() and "864 mm" in tab.locator("#first").inner_text())
    tab.get_by_role("button", name="Save to spare stay.toml").click()
    tab.locator("dialog").get_by_role("button", name="Save", exact=True).click()
    wait(lambda: tab.locator("#desk-said").inner_text() == "Saved.")
    assert read_job(start.folder / "spare stay.toml").rope.name == "12-strand HMPE, 12 mm"
    assert faults == []
    tab.close()
