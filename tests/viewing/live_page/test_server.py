"""The live page's server over real HTTP."""

import http.client
import json
import re
import socket
import subprocess
import time
from dataclasses import replace
from pathlib import Path

import pytest

import shows
from fidpath.job.reader import parse_job, read_job
from fidpath.viewing.serving.guard import MOST_BODY, new_token
from live import HOSTILE, PATIENCE, Live, Served, wait


def test_the_page_and_all_it_needs_come_under_a_strict_policy(live: Live) -> None:
    for path, kind in (("", "text/html"), ("live.css", "text/css"), ("live.js", "text/javascript")):
        status, headers, _ = live.ask(path)
        assert status == 200
        assert headers["content-type"].startswith(kind)
        policy = headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        assert "frame-ancestors 'none'" in policy
        assert headers["cache-control"] == "no-store"
        assert headers["referrer-policy"] == "no-referrer"


def test_it_listens_on_this_machine_alone(live: Live) -> None:
    assert live.host.startswith("127.0.0.1:")
    outward = socket.socket(socket.AF_INET, socket.SOCK_DGRAM)
    try:
        outward.connect(("192.0.2.1", 9))
        own = outward.getsockname()[0]
    except OSError:
        pytest.skip("this machine has no other address")
    finally:
        outward.close()
    with pytest.raises(OSError), socket.create_connection((own, int(live.host.partition(":")[2])), timeout=2):
        pass


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"Host": "evil.example"}, 403),
        ({"Host": "127.0.0.1:1"}, 403),
        ({"Origin": "http://evil.example"}, 403),
        ({"Origin": "null"}, 403),
        ({"Content-Length": str(MOST_BODY + 1)}, 413),
        ({}, 200),
    ],
)
def test_strangers_are_refused(live: Live, headers: dict[str, str], status: int) -> None:
    assert live.ask("state", method="GET", **headers)[0] == status


def test_its_own_origin_is_let_in(live: Live) -> None:
    texts = live.data("state")["texts"]
    assert live.ask("job", {"texts": texts}, Origin=f"http://{live.host}")[0] == 200


@pytest.mark.parametrize(
    "path",
    ["/", "/state", f"/{new_token()}/state", "/..%2f/state", "//"],
    ids=["root", "bare", "other", "up", "double"],
)
def test_nothing_is_there_without_the_token(live: Live, path: str) -> None:
    status, headers, content = live.ask(path)
    assert status == 404
    assert b"workboat" not in content
    assert "default-src 'none'" in headers["content-security-policy"]


@pytest.mark.parametrize(
    "path", ["../../pyproject.toml", "live.html", "take/..%2f..%2fpyproject.toml", "assets/live.js"]
)
def test_no_other_file_is_handed_out(live: Live, path: str) -> None:
    assert live.ask(path)[0] in (404, 422)


def test_too_long_a_body_is_refused_whatever_its_header_says(live: Live) -> None:
    line = socket.create_connection(("127.0.0.1", int(live.host.partition(":")[2])), timeout=30)
    with line:
        chunk = b"8000\r\n" + b"x" * 0x8000 + b"\r\n"
        head = f"POST {live.root}job HTTP/1.1\r\nHost: {live.host}\r\nTransfer-Encoding: chunked\r\n\r\n"
        line.sendall(head.encode() + 3 * chunk + b"0\r\n\r\n")
        assert line.recv(100).split()[1] == b"413"


@pytest.mark.parametrize(
    "body", [b"", b"[]", b"{}", b"{", b'{"texts": [1]}', b'{"texts": {"rope.pitch": 7}}', b"\xff", b"[" * 9000]
)
def test_orders_that_make_no_sense_are_refused(live: Live, body: bytes) -> None:
    assert live.ask("job", body)[0] == 400


def test_a_get_changes_nothing_and_a_post_reads_nothing(live: Live) -> None:
    assert live.ask("job", method="GET")[0] == 405
    assert live.ask("save", method="GET")[0] == 405
    assert live.ask("state", b"{}")[0] == 405


def test_a_change_brings_its_plan_and_a_refusal_its_words(live: Live) -> None:
    texts = live.data("state")["texts"]
    found = live.data("job", {"texts": {**texts, "practice.bury": "17 d"}})
    lengths = {figure["name"]: figure["shown"] for figure in found["plan"]["lengths"]}
    assert lengths["bury_length"] == "170 mm"
    assert live.data("state")["texts"]["practice.bury"] == "17 d"
    refused = live.data("job", {"texts": {**texts, "practice.bury": "x"}})
    assert "can't be read as a length" in refused["errors"]["practice.bury"]
    assert live.data("state")["texts"]["practice.bury"] == "17 d"


def test_news_come_as_they_happen_until_the_splice_is_there(live: Live) -> None:
    texts = live.data("state")["texts"]
    change = live.data("job", {"texts": {**texts, "practice.bury": "18.5 d"}})["change"]
    line = http.client.HTTPConnection(live.host, timeout=PATIENCE)
    line.request("GET", f"{live.root}news")
    answer = line.getresponse()
    assert answer.getheader("content-type", "").startswith("text/event-stream")
    shares = []
    while True:
        words = answer.readline().decode()
        if words.startswith("data: "):
            news = json.loads(words[6:])
            shares.append(news["share"])
            if news["shown_change"] == change:
                break
    line.close()
    assert len(set(shares)) > 4
    status, _, content = live.ask("data")
    assert status == 200
    assert "buried" in json.loads(content)["states"]


def test_the_splices_page_is_the_one_that_opens_from_disk(live: Live) -> None:
    wait(lambda: live.data("state")["news"]["shown"])
    status, headers, content = live.ask("splice.html")
    assert status == 200
    policy = headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert policy.endswith("frame-ancestors 'self'")
    assert b"fidpathLoad" in content
    assert HOSTILE.encode() not in content
    taken, given, whole = live.ask("take/splice.html")
    assert taken == 200
    assert given["content-disposition"] == 'attachment; filename="workboat-stay.html"'
    assert whole[:2000] == content[:2000]
    pictures = re.findall(rb'<img [^>]*data-state="([^"]+)" src="data:image/webp;base64,[^"]{2000,}"', whole)
    assert b"buried" in pictures
    assert b"<img" not in content


def test_the_job_as_it_stands_can_be_saved_and_taken_away(live: Live) -> None:
    texts = live.data("state")["texts"]
    live.data("job", {"texts": {**texts, "practice.bury": "19 d", "rope.squeeze": "0.7"}})
    saved = live.data("save", {"name": "mine.toml"})
    assert saved["saved"] == str(live.folder / "mine.toml")
    job = read_job(live.folder / "mine.toml")
    assert (job.practice.bury_diameters, job.rope.squeeze) == (19, 0.7)
    assert job.terminator.name == HOSTILE
    assert "already" in live.data("save", {"name": "mine.toml"})["problem"]
    assert "saved" in live.data("save", {"name": "mine.toml", "replace": True})
    assert "not a valid name" in live.data("save", {"name": "../mine.toml"})["problem"]
    assert live.ask("save", {"name": 3})[0] == 400
    assert [path.name for path in live.folder.iterdir()] == ["mine.toml"]
    text = live.ask("take/job.toml")[2].decode()
    assert parse_job(text, "mine") == replace(job, source="mine")
    assert live.data("take/plan.json")["bury_length_mm"] == pytest.approx(190)


def test_solids_and_pictures_of_what_is_shown(live: Live) -> None:
    wait(lambda: "2-throat" in dict(live.data("state")["pictures"]))
    status, headers, content = live.ask("take/splice.glb")
    assert (status, content[:4]) == (200, b"glTF")
    assert headers["content-type"] == "model/gltf-binary"
    assert live.ask("take/splice.stl")[0] == 200
    status, _, content = live.ask("take/2-throat.png")
    assert status == 200, content
    assert content[:8] == b"\x89PNG\r\n\x1a\n"
    assert live.ask("take/5-nothing.png")[0] == 422
    assert live.ask("take/splice.exe")[0] == 404


def test_windows_that_close_make_room_for_others(live: Live) -> None:
    def listening() -> http.client.HTTPConnection | None:
        line = http.client.HTTPConnection(live.host, timeout=10)
        line.request("GET", f"{live.root}news")
        answer = line.getresponse()
        if answer.status == 503:
            line.close()
            return None
        return line

    lines = []
    while (line := listening()) is not None:
        lines.append(line)
        assert len(lines) <= 8
    assert len(lines) == 8
    for line in lines:
        line.close()
    again = wait(listening, 20)
    again.close()


def test_an_interrupt_ends_it_all_and_frees_the_port(short: Path, tmp_path: Path) -> None:
    own = Live(short, tmp_path / "saved")
    line = http.client.HTTPConnection(own.host, timeout=30)
    line.request("GET", f"{own.root}news")
    assert line.getresponse().status == 200
    began = time.monotonic()
    assert own.end() == 130
    assert time.monotonic() - began < 20
    line.close()
    assert "Traceback" not in own.said.read_text()
    with socket.socket() as port:
        port.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        port.bind(("127.0.0.1", int(own.host.partition(":")[2])))


def one_line(done: subprocess.CompletedProcess[str], code: int, words: str) -> None:
    """The command ended with its code and one clear sentence."""
    assert done.returncode == code, done.stderr
    last = done.stderr.strip().splitlines()[-1]
    assert words in last
    assert "Traceback" not in done.stderr


def test_a_port_in_use_is_said(short: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        one_line(shows.finished(short, "--browser", "--no-open", "--port", str(port)), 7, f"port {port} can't be had")


def test_without_a_browser_it_says_so_and_serves_all_the_same(short: Path, tmp_path: Path) -> None:
    none = {"BROWSER": "no-such-browser-here", "DISPLAY": "", "WAYLAND_DISPLAY": ""}
    own = Served(tmp_path / "saved", "show", short, "--browser", **none)
    try:
        wait(lambda: "No browser could be opened" in own.said.read_text())
        assert own.ask("state")[0] == 200
        assert own.end() == 130
    finally:
        own.process.kill()


def test_a_name_that_says_what_the_rope_was_is_asked_for_before_it_is_saved(live: Live) -> None:
    texts = live.data("state")["texts"]
    before = len(list(live.folder.iterdir()))
    changed = live.data("job", {"texts": {**texts, "rope.diameter": "10.5 mm"}})
    assert next(one["key"] for one in changed["follows"]) == "rope.name"
    asked = live.data("save", {"name": "thicker.toml"})
    assert [(one["key"], one["new"]) for one in asked["follows"]] == [("rope.name", "12-strand HMPE, 10.5 mm")]
    assert len(list(live.folder.iterdir())) == before
    renamed = {**changed["texts"], "rope.name": "12-strand HMPE, 10.5 mm", "name": "thicker stay"}
    assert live.data("job", {"texts": renamed, "agreed": True})["follows"] == []
    assert "saved" in live.data("save", {"name": "thicker.toml"})
    assert read_job(live.folder / "thicker.toml").rope.name == "12-strand HMPE, 10.5 mm"
    assert 'filename="thicker-stay.toml"' in live.ask("take/job.toml")[1]["content-disposition"]
    live.data("job", {"texts": texts, "agreed": True})


def test_lengths_are_handed_back_in_the_other_unit_and_nothing_is_changed(live: Live) -> None:
    texts = live.data("state")["texts"]
    inches = live.data("units", {"texts": texts, "to": "in"})["texts"]
    assert (inches["terminator.bearing_diameter"], inches["tools.tape_division"]) == ("1 31/32 in", "1/16 in")
    assert live.data("state")["texts"] == texts
    assert live.ask("units", {"texts": texts, "to": "ells"})[0] == 400


def test_a_folder_that_cannot_be_is_said(short: Path, tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    one_line(
        shows.finished(short, "--browser", "--no-open", "--out", tmp_path / "file" / "in"), 6, "can't make the folder"
    )


def test_a_broken_job_is_said_before_anything_is_opened(tmp_path: Path) -> None:
    job = tmp_path / "broken.toml"
    job.write_text("schema = 1\n")
    one_line(shows.finished(job, "--browser", "--no-open"), 3, "broken.toml")


def test_options_of_the_browser_want_the_browser(short: Path) -> None:
    one_line(shows.finished(short, "--port", "8000"), 2, "go with --browser")
