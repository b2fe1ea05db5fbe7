"""The live page: fields to a checked job and back to a file, the session behind it, and its server over real HTTP."""

import http.client
import json
import shutil
import signal
import socket
import subprocess
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

import shows
from fidpath.errors import OutputError
from fidpath.job.reader import parse_job, read_job, text_of, toml_of
from fidpath.job.schema import TABLES, keys_of
from fidpath.methods.method_file import method
from fidpath.viewing.live_page import saving
from fidpath.viewing.live_page.fields import FIELDS, described
from fidpath.viewing.live_page.form import Form, Refused, read_form, saved_text, tried
from fidpath.viewing.live_page.guard import MOST_BODY, new_token
from fidpath.viewing.live_page.session import Session
from fidpath.viewing.live_page.writer import job_text

PATIENCE = 180.0
"""Seconds that a settled splice may take on a busy machine."""

SCENES = sorted((shows.ROOT / "scenes").glob("*.toml"))
LINES = sorted((shows.ROOT / "scenes" / "lines").glob("*.toml"))

HOSTILE = "</script><img src=x onerror=alert(1)>"
"""An odd name for a rope, and nothing more."""


# ---- the writer


@pytest.mark.parametrize("path", [*SCENES, *LINES], ids=lambda path: path.stem)
def test_a_written_job_reads_as_the_same_job(path: Path) -> None:
    text = text_of(path)
    again = job_text(toml_of(text, str(path)))
    assert parse_job(again, str(path)) == parse_job(text, str(path))
    assert toml_of(again, "again") == toml_of(text, str(path))


@pytest.mark.parametrize("name", [HOSTILE, 'a "quoted" \\ name', "Tauwerk für Ölzeug", "綱", "it's", "a\u200bb", "🪢"])
def test_names_of_any_letters_come_out_as_they_went_in(name: str) -> None:
    tables = {**toml_of(text_of(shows.DEMO), "demo"), "title": name, "list": [name, name]}
    assert toml_of(job_text(tables), "again") == tables


def test_what_no_job_file_holds_is_not_written() -> None:
    with pytest.raises(TypeError):
        job_text({"when": None})


# ---- fields


@pytest.fixture(scope="module")
def form() -> Form:
    return read_form(shows.DEMO)


def test_every_field_is_a_key_of_job_files() -> None:
    for field in FIELDS:
        table = ".".join(part for part in field.path[:-1] if isinstance(part, str))
        assert table in TABLES
        assert field.path[-1] in keys_of(table)
    assert len({field.key for field in FIELDS}) == len(FIELDS)


def test_fields_say_their_units_and_limits_in_the_jobs_own_unit(form: Form) -> None:
    fields = {field["key"]: field for field in described(form.job)}
    assert fields["rope.diameter"]["bounds"] == "1 mm to 200 mm"
    assert fields["rope.pitch"]["bounds"] == "3 to 20 d"
    assert fields["practice.neck"]["default"] == "1.1 d"
    inches = {field["key"]: field for field in described(read_form(shows.ROOT / "scenes" / "inches.toml").job)}
    assert inches["terminator.width"]["bounds"].endswith(" in")


@pytest.mark.parametrize("path", SCENES, ids=lambda path: path.stem)
def test_fields_as_they_stand_make_the_same_job(path: Path) -> None:
    own = read_form(path)
    found = tried(own, own.texts)
    assert isinstance(found, Form)
    assert found.job == own.job


def changed(form: Form, **texts: str) -> Form | Refused:
    """The form with these fields changed; two underscores stand for a full stop."""
    return tried(form, {**form.texts, **{key.replace("__", "."): text for key, text in texts.items()}})


def test_a_change_makes_the_job_that_a_file_with_it_makes(form: Form) -> None:
    found = changed(form, rope__pitch="66 mm", practice__bury="60 d", rope__squeeze="70 %")
    assert isinstance(found, Form)
    text = text_of(shows.DEMO).replace('pitch = "7 d"', 'pitch = "66 mm"\nsqueeze = "70 %"').replace("72 d", "60 d")
    assert found.job == parse_job(text, str(shows.DEMO))
    assert found.plan.bury_length == pytest.approx(600)
    assert parse_job(saved_text(found), str(shows.DEMO)) == found.job


def test_an_emptied_field_falls_back_on_the_rule(form: Form) -> None:
    found = changed(form, practice__bury="")
    assert isinstance(found, Form)
    assert found.job.practice.bury_diameters == 72
    assert "bury" not in found.tables["practice"]


@pytest.mark.parametrize(
    ("field", "text", "words"),
    [
        ("rope__diameter", "12", "no unit"),
        ("rope__diameter", "", "Something has to stand here"),
        ("rope__diameter", "0.1 mm", "too small"),
        ("rope__strands", "ten", "whole number"),
        ("rope__strands", "10", "needs a multiple of 4"),
        ("rope__weave", "over-three", "over-two"),
        ("rope__squeeze", "nan", "not a share"),
        ("terminator__kind", HOSTILE, "Write one of ring"),
        ("tools__fids", "8 mm", "It takes one of"),
        ("practice__hole_gap", "1 kN", "a force"),
        ("practice__taper_drops", "9", "0 to 5"),
        ("practice__lock_stitch", "perhaps", "true or false"),
        ("practice__throat_angle", "1 deg", "5 to 119 deg"),
        ("line__ends[1]__eye_length", "60 mm", "Make it at least"),
        ("rope__pitch", "9" * 300, "too long"),
    ],
)
def test_a_value_that_cannot_be_is_refused_beside_its_field(form: Form, field: str, text: str, words: str) -> None:
    found = changed(form, **{field: text})
    assert isinstance(found, Refused)
    assert list(found.errors) == [field.replace("__", ".")]
    assert words in next(iter(found.errors.values()))
    assert "demo.toml" not in next(iter(found.errors.values()))


def test_every_wrong_field_is_named_at_once(form: Form) -> None:
    found = changed(form, rope__pitch="2 d", practice__bury="long", rope__squeeze="70 %")
    assert isinstance(found, Refused)
    assert set(found.errors) == {"rope.pitch", "practice.bury"}


def test_what_has_to_follow_is_said_where_it_has_to(form: Form) -> None:
    found = changed(form, rope__diameter="12 mm")
    assert isinstance(found, Refused)
    assert "must be at least 6 mm" in found.errors["terminator.groove_radius"]
    assert found.errors["rope.diameter"].startswith("Not used yet")
    follows = {
        "terminator__groove_radius": "6.6 mm",
        "terminator__bearing_diameter": "60 mm",
        "tools__fids": "10 mm, 14 mm",
    }
    assert isinstance(changed(form, rope__diameter="12 mm", **follows), Form)


def test_another_kind_of_terminator_keeps_only_its_own_measures(form: Form) -> None:
    found = changed(form, terminator__kind="pin")
    assert isinstance(found, Form)
    assert set(found.tables["terminator"]) == {"kind", "name", "bearing_diameter", "width"}
    asked = changed(form, terminator__kind="teardrop")
    assert isinstance(asked, Refused)
    assert "terminator.length" in asked.errors


# ---- saving


def test_saving_keeps_to_the_folder_and_to_new_names(tmp_path: Path) -> None:
    target = saving.save(tmp_path, "stay.toml", "a = 1\n", replace=False)
    assert target.read_text() == "a = 1\n"
    with pytest.raises(saving.AlreadyThere):
        saving.save(tmp_path, "stay.toml", "a = 2\n", replace=False)
    assert target.read_text() == "a = 1\n"
    saving.save(tmp_path, "stay.toml", "a = 3\n", replace=True)
    assert target.read_text() == "a = 3\n"


@pytest.mark.parametrize(
    "name",
    ["../stay.toml", "/stay.toml", "a/b.toml", "..toml", ".toml", "stay", "stay.txt", "a\\b.toml", "a\0.toml", ""],
)
def test_names_that_lead_elsewhere_are_refused(tmp_path: Path, name: str) -> None:
    with pytest.raises(OutputError, match="is no name for a job file"):
        saving.save(tmp_path / "inner", name, "", replace=True)
    assert list(tmp_path.iterdir()) == []


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path) -> None:
    outside = tmp_path / "outside.toml"
    outside.write_text("mine")
    inner = tmp_path / "inner"
    inner.mkdir()
    (inner / "stay.toml").symlink_to(outside)
    for replaced in (True, False):
        with pytest.raises(OutputError):
            saving.save(inner, "stay.toml", "new", replace=replaced)
    assert outside.read_text() == "mine"


def test_the_suggested_name_is_free(tmp_path: Path) -> None:
    (tmp_path / "demo-2.toml").touch()
    assert saving.suggested(tmp_path, "/somewhere/demo.toml") == "demo-3.toml"


# ---- the session


@pytest.fixture(scope="module")
def short(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A job file with a short bury, which settles quickly; its rope's name is a trap for pages."""
    path = tmp_path_factory.mktemp("job") / "short.toml"
    text = shows.DEMO.read_text(encoding="utf-8").replace('bury = "72 d"', 'bury = "18 d"')
    path.write_text(text.replace('name = "grooved ring"', f'name = "{HOSTILE}"'), encoding="utf-8")
    return path


def wait(found: Any, patience: float = PATIENCE) -> Any:
    """What comes of a look as soon as it is something."""
    end = time.monotonic() + patience
    while time.monotonic() < end:
        if answer := found():
            return answer
        time.sleep(0.05)
    raise AssertionError("nothing came")


@contextmanager
def session_of(form: Form) -> Iterator[Session]:
    """A session under way, with its data stood in for by the states' names."""
    own = Session(form, method("locked-captive"), lambda _plan, made: " ".join(one.kind for one in made))
    own.start()
    try:
        yield own
    finally:
        own.close()


def test_the_finished_splice_comes_first_and_a_change_keeps_it_until_the_next(short: Path) -> None:
    form = read_form(short)
    with session_of(form) as own:
        wait(lambda: own.shown)
        assert own.shown is not None
        assert own.shown.data == "buried"
        before = own.shown
        found = own.change({**form.texts, "practice.bury": "16 d"})
        assert isinstance(found, Form)
        assert own.shown is before
        wait(lambda: own.news.shown_change == 1)
        assert own.shown is not None
        assert own.shown.plan.bury_length == pytest.approx(160)
    assert not [thread for thread in threading.enumerate() if thread.name == "fidpath settling"]


def test_a_refused_change_leaves_the_job_and_the_settling_alone(short: Path) -> None:
    form = read_form(short)
    with session_of(form) as own:
        assert isinstance(own.change({**form.texts, "practice.bury": "much"}), Refused)
        assert own.form is form
        assert own.news.change == 0
        assert isinstance(own.change({**form.texts, "rope.pitch": "70 mm"}), Form)
        assert own.news.change == 0


def test_a_splice_that_misses_its_own_check_is_not_shown(short: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    failure = {"check": "overlap_max", "value": 0.5, "bound": 0.02}
    monkeypatch.setattr("fidpath.viewing.live_page.session.measure", lambda *_: {"failures": [failure]})
    with session_of(read_form(short)) as own:
        wait(lambda: own.news.phase == "refused")
        assert "overlap_max is 0.5, bound 0.02" in own.news.words
        assert own.shown is None


def test_a_state_that_cannot_be_made_is_said_and_the_rest_is_shown(short: Path) -> None:
    form = read_form(short)
    odd = replace(method("locked-captive"), steps=method("locked-captive").steps[-1:], wrong_ways=())
    step = replace(odd.steps[0], state="no-such-state")
    own = Session(form, replace(odd, steps=(step, odd.steps[0])), lambda _plan, made: " ".join(m.kind for m in made))
    own.start()
    try:
        wait(lambda: own.news.phase == "done")
        assert "no rope state of the kind 'no-such-state'" in own.news.words
        assert own.shown is not None
        assert own.shown.data == "buried"
    finally:
        own.close()


# ---- the server


class Live:
    """The live page's server in a process of its own, spoken to over HTTP."""

    def __init__(self, job: Path, folder: Path, *more: str) -> None:
        self.folder = folder
        out, err = folder.with_suffix(".out"), folder.with_suffix(".err")
        with out.open("w") as stdout, err.open("w") as stderr:
            order = (job, "--browser", "--no-open", "--out", folder, *more)
            self.process = shows.started(*order, out=stdout, err=stderr)
        self.said = err
        self.url = wait(lambda: self.process.poll() is not None or out.read_text().strip()) and out.read_text().strip()
        self.host, _, self.root = self.url.removeprefix("http://").partition("/")
        self.root = f"/{self.root}"

    def ask(
        self, path: str, body: object = None, method: str | None = None, **headers: str
    ) -> tuple[int, dict[str, str], bytes]:
        """Status, headers and content of an answer; `path` from the page's own unless it begins with a slash."""
        line = http.client.HTTPConnection(self.host, timeout=60)
        content = None if body is None else body if isinstance(body, bytes) else json.dumps(body).encode()
        try:
            whole = path if path.startswith("/") else self.root + path
            named = {name.replace("_", "-"): value for name, value in headers.items()}
            line.request(method or ("GET" if content is None else "POST"), whole, content, named)
            answer = line.getresponse()
            return answer.status, {name.lower(): value for name, value in answer.getheaders()}, answer.read()
        finally:
            line.close()

    def data(self, path: str, body: object = None) -> Any:
        """An answer's data."""
        status, _, content = self.ask(path, body)
        assert status == 200, content
        return json.loads(content)

    def end(self) -> int:
        """Ends it as a Ctrl-C does; its exit code."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
        return self.process.wait(60)


@pytest.fixture(scope="module")
def live(short: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Live]:
    found = Live(short, tmp_path_factory.mktemp("live") / "saved")
    yield found
    found.process.kill()
    found.process.wait()


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
    assert "no name" in live.data("save", {"name": "../mine.toml"})["problem"]
    assert live.ask("save", {"name": 3})[0] == 400
    assert [path.name for path in live.folder.iterdir()] == ["mine.toml"]
    text = live.ask("take/job.toml")[2].decode()
    assert parse_job(text, "mine") == replace(job, source="mine")
    assert live.data("take/plan.json")["bury_length_mm"] == pytest.approx(190)


def test_solids_and_pictures_of_what_is_shown(live: Live) -> None:
    wait(lambda: live.data("state")["news"]["shown"])
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


def test_a_missing_browser_is_said(short: Path) -> None:
    done = shows.finished(short, "--browser", BROWSER="no-such-browser-here", DISPLAY="", WAYLAND_DISPLAY="")
    one_line(done, 7, "no browser could be opened")


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


# ---- in a browser


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
    """The job as it stands goes into a file."""
    tab.get_by_label("File name").fill("changed.toml")
    tab.get_by_role("button", name="Save", exact=True).click()
    wait(lambda: "Saved as" in tab.locator("#save-said").inner_text())
    assert read_job(own.folder / "changed.toml").rope.diameter_mm == 10.5


def follow_another_window(tab: Any, browser: Any, url: str) -> None:
    """A second window shows the same job, and a change in it comes to the first."""
    with in_tab(browser, url) as (other, faults, _):
        assert other.get_by_label("Rope diameter d").input_value() == "10.5 mm"
        other.get_by_label("Hole gap").fill("1.2 d")
        wait(lambda: tab.get_by_label("Hole gap").input_value() == "1.2 d")
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
