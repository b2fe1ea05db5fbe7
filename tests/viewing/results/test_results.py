"""A job's results on a page: what is listed and handed out, and how a build in a process of its own is followed."""

from __future__ import annotations

import io
import json
import sys
import urllib.error
import urllib.request
from pathlib import Path

import pytest

from fidpath.building import Manifest, told_build
from fidpath.errors import CannotBeMade, EnvironmentProblem, OutputError
from fidpath.outputs import Product
from fidpath.viewing.results import builds as building
from fidpath.viewing.results.builds import Builds
from fidpath.viewing.results.listing import listing, result_file
from fidpath.viewing.results.phone import Phone, code_svg, own_address
from live import wait

FILES = {"splice.html": b"<p>page", "steps/01-laid-out.png": b"png", "handout-a4.pdf": b"%PDF", "strange.xyz": b"?"}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder of results with a file of the user's own beside them."""
    home = tmp_path / "stay"
    home.mkdir()
    Manifest(home).write("all", "digest", Product(FILES))
    (home / "mine.txt").write_text("mine")
    return home


def test_what_was_built_is_listed_in_groups_and_nothing_else(folder: Path) -> None:
    found = {title: [one.path for one in files] for title, files in listing(folder)}
    assert next(iter(found.values())) == ["splice.html"]
    assert sorted(path for paths in found.values() for path in paths) == sorted(FILES)
    assert listing(folder / "nowhere") == []


@pytest.mark.parametrize("name", ["mine.txt", "../stay/splice.html", "/etc/passwd", "..", "", ".fidpath-cache/names"])
def test_no_other_file_is_handed_out(folder: Path, name: str) -> None:
    assert result_file(folder, name) is None
    assert result_file(folder, "splice.html") == folder / "splice.html"


def test_a_link_out_of_the_folder_is_not_followed(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "secret").write_text("secret")
    (folder / "handout-a4.pdf").unlink()
    (folder / "handout-a4.pdf").symlink_to(tmp_path / "secret")
    assert result_file(folder, "handout-a4.pdf") is None
    assert "handout-a4.pdf" not in str(listing(folder))


TELLS = "import sys, json; sys.stdin.readline(); print(json.dumps({'what': 'half', 'share': 0.5}), flush=True); "


def under_way(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, then: str) -> Builds:
    """Builds whose process tells of one half and then does this."""
    monkeypatch.setattr(building, "COMMAND", (sys.executable, "-c", TELLS + then))
    own = Builds(tmp_path)
    own.start("text", "job.toml", "stay")
    wait(lambda: own.news.words == "half" or own.news.phase != "building")
    return own


def test_a_build_tells_how_far_it_is_and_what_it_wrote(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    own = under_way(tmp_path, monkeypatch, "print(json.dumps({'written': ['a', 'b']}))")
    wait(lambda: own.news.phase == "done")
    assert (own.news.share, own.news.words, own.news.name) == (1.0, "2 files are there.", "stay")


def test_what_is_wrong_with_a_build_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    own = under_way(tmp_path, monkeypatch, "print(json.dumps({'problem': 'No room.'})); sys.exit(4)")
    wait(lambda: own.news.phase == "failed")
    assert own.news.words == "No room."


def test_a_build_whose_process_is_killed_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    own = under_way(tmp_path, monkeypatch, "import os; os._exit(9)")
    wait(lambda: own.news.phase == "failed")
    assert "stopped from outside" in own.news.words


def test_one_build_at_a_time_which_can_be_stopped(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    own = under_way(tmp_path, monkeypatch, "import time; time.sleep(60)")
    with pytest.raises(EnvironmentProblem, match="stay is being built"):
        own.start("text", "job.toml", "other")
    own.stop()
    wait(lambda: own._process is None)
    assert own.news.phase == "stopped"


def test_the_process_of_a_build_says_what_is_wrong_with_its_job(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = {
        "text": "schema = 1\n",
        "source": "bad.toml",
        "folder": str(tmp_path / "out"),
        "motion": False,
        "models": False,
    }
    monkeypatch.setattr(sys, "stdin", io.StringIO(json.dumps(asked) + "\n"))
    assert told_build.main() == 3
    assert "missing" in json.loads(capsys.readouterr().out)["problem"]
    assert not (tmp_path / "out").exists()


def test_a_phone_reads_one_page_until_it_is_stopped(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("fidpath.viewing.results.phone.own_address", lambda: "127.0.0.1")
    own = Phone()
    assert own.sharing is None
    url = own.start(folder / "splice.html", "stay").url

    def read(path: str, data: bytes | None = None) -> int:
        try:
            with urllib.request.urlopen(path, data, timeout=10) as answer:
                return int(answer.status)
        except urllib.error.HTTPError as refused:
            return refused.code

    wait(lambda: read(url) == 200)
    assert read(url, b"{}") == 405
    assert read(url + "../") == 404
    assert read(url.rsplit("/", 2)[0] + "/other/") == 404
    own.stop()
    assert own.sharing is None
    with pytest.raises(OSError):
        wait(lambda: read(url) != 200, 15)


def test_without_a_page_or_a_network_nothing_is_shown(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(CannotBeMade, match="no page of this job yet"):
        Phone().start(tmp_path / "splice.html", "stay")
    monkeypatch.setattr("socket.socket.connect", lambda *_: (_ for _ in ()).throw(OSError))
    with pytest.raises(EnvironmentProblem, match="no network"):
        own_address()


def test_the_code_is_a_drawing_of_modules() -> None:
    assert code_svg("http://192.0.2.7:8000/token/").count(b"<path") >= 1


def test_a_folder_that_is_a_file_is_said(tmp_path: Path) -> None:
    (tmp_path / "stay").write_text("")
    with pytest.raises(OutputError):
        Manifest(tmp_path / "stay").write("all", "digest", Product(FILES))
