"""The page before a browser opens it: what is packed comes out again, texts stay texts, nothing is fetched."""

from __future__ import annotations

import base64
import hashlib
import io
import json
import re
import zlib
from dataclasses import replace
from html.parser import HTMLParser
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from fidpath.building.request import request_for
from fidpath.meshing.terminator_body import terminator_mesh
from fidpath.methods.registry import method_of
from fidpath.outputs.page import page_data, splice_page
from fidpath.outputs.page.content import numbered
from fidpath.outputs.page.document import BOUND, as_text, page_record, parts_of
from fidpath.outputs.page.encoding import (
    MESH_QUANTUM_MM,
    packed,
    packed_mesh,
    packing_knots,
    planed,
    quantum_of,
)
from fidpath.outputs.page.images import drawings, fitting, small
from fidpath.outputs.registered.page import STILL_MADE, make_first_page
from fidpath.outputs.registry import Context
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.scene import Camera, Panel, Scene
from fidpath.settling.settled_states import SettledState
from fidpath.states.draft import draft_of
from fidpath.states.kinds import state_of
from jobs import a_job
from readback.page import unpacked, unplaned
from scenes.settled import settled
from scenes.steps import small_plan

HOSTILE = "</script><img src=x onerror=alert(1)> @@data@@ \u2028 & \"quoted\" 'too'"
KINDS = ("h1-first-fid", "h1-second-fid", "mark-on-strand")


@pytest.fixture(scope="module")
def plan():  # type: ignore[no-untyped-def]
    return small_plan()


@pytest.fixture(scope="module")
def some(plan):  # type: ignore[no-untyped-def]
    return [settled(plan, kind) for kind in KINDS]


@pytest.fixture(scope="module")
def page(plan, some):  # type: ignore[no-untyped-def]
    return splice_page(plan, some, method_of("locked-captive"))


def _block(page: str, name: str) -> tuple[str, str]:
    """A script block's tag and content."""
    found = re.search(rf'<script([^>]*id="{name}"[^>]*)>(.*?)</script>', page, re.DOTALL)
    assert found is not None
    return found.group(1), found.group(2)


@pytest.mark.parametrize("d", [3.0, 10.0, 24.0])
def test_centre_lines_come_out_within_two_hundredths_of_a_millimetre(d: float) -> None:
    strands = draft_of(state_of(make_plan(a_job(d=d, bury=18.0)), "buried")).laid
    found = packed(strands)
    worst = max(float(np.abs(line - strands.strand(k)).max()) for k, line in enumerate(unpacked(found, strands.count)))
    assert worst <= quantum_of(d) / 2 + 1e-9
    assert worst <= 0.02
    assert len(found.text) < 3 * strands.nodes


@given(st.lists(st.integers(-(2**40), 2**40), max_size=300))
def test_whole_numbers_come_out_of_their_planes(values: list[int]) -> None:
    text, planes = planed(np.array(values, dtype=np.int64))
    assert unplaned(text, planes).tolist() == values


def test_packing_is_kept_where_it_changes() -> None:
    packing = draft_of(state_of(make_plan(a_job(bury=18.0)), "buried")).laid.packing
    knots = packing_knots(packing)
    again = np.interp(np.arange(len(packing)), *zip(*knots, strict=True))
    assert packing.min() < 0.8
    assert np.abs(again - packing).max() < 2e-4
    assert len(knots) < 40


def test_a_body_comes_out_of_its_text(plan) -> None:  # type: ignore[no-untyped-def]
    mesh = terminator_mesh(plan.job.terminator)
    found = packed_mesh(mesh)
    points = np.cumsum(unplaned(found.points, found.point_planes).reshape(-1, 3), axis=0) * MESH_QUANTUM_MM
    faces = np.cumsum(unplaned(found.faces, found.face_planes)).reshape(-1, 3)
    assert np.abs(points - mesh.points).max() <= MESH_QUANTUM_MM / 2 + 1e-9
    assert np.array_equal(faces, mesh.faces)


def test_same_job_same_bytes(plan, some, page) -> None:  # type: ignore[no-untyped-def]
    assert splice_page(plan, some, method_of("locked-captive")) == page


def test_data_are_as_long_as_the_page_says(page: str) -> None:
    tag, text = _block(page, "data")
    assert f'data-length="{len(text)}"' in tag
    assert f'data-crc="{zlib.crc32(text.encode("ascii"))}"' in tag
    assert json.loads(text)["page"] == 1


def test_data_alone_are_those_of_the_page(plan, some, page) -> None:  # type: ignore[no-untyped-def]
    assert (
        page_data(plan, method_of("locked-captive"), parts_of(plan, some, method_of("locked-captive")))
        == _block(page, "data")[1]
    )


def test_policy_names_every_script_and_style_and_no_connection(page: str) -> None:
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', page)
    assert policy is not None
    words = policy.group(1)
    styles = re.findall(r"<style>(.*?)</style>", page, re.DOTALL)
    scripts = re.findall(r'<script id="script">(.*?)</script>', page, re.DOTALL)
    assert (len(styles), len(scripts)) == (2, 1)
    for content in [*styles, *scripts]:
        assert base64.b64encode(hashlib.sha256(content.encode()).digest()).decode() in words
    assert "default-src 'none'" in words
    assert "connect-src" not in words
    assert "unsafe" not in words


def test_nothing_is_fetched_and_no_style_or_listener_stands_in_markup(page: str) -> None:
    without = re.sub(r"http://www\.w3\.org/2000/svg", "", page)
    assert not re.search(r"https?://|//cdn|@import|url\(", without)
    assert not re.search(r"<[a-z][^>]*\s(style|on[a-z]+)=", re.sub(r"<script.*?</script>", "", page, flags=re.DOTALL))
    assert not re.search(r"\b(fetch|XMLHttpRequest|WebSocket|sendBeacon|importScripts|eval)\(", without)


class _Reader(HTMLParser):
    """Collects the elements and texts of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.texts: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        assert not any(name.startswith("on") for name, _ in attrs)

    def handle_data(self, data: str) -> None:
        self.texts.append(data)


def test_a_hostile_name_is_just_an_odd_name(plan, some) -> None:  # type: ignore[no-untyped-def]
    terminator = replace(plan.job.terminator, name=HOSTILE)
    odd = replace(plan, job=replace(plan.job, name=HOSTILE, terminator=terminator))
    page = splice_page(odd, some, method_of("locked-captive"))
    reader = _Reader()
    reader.feed(page)
    assert "img" not in reader.tags
    assert reader.tags.count("script") == 2
    assert HOSTILE in reader.texts
    tag, text = _block(page, "data")
    assert "<" not in text
    assert json.loads(text)["name"] == HOSTILE
    assert any(HOSTILE in words for step in json.loads(text)["steps"] for words in step["instructions"])
    assert f'data-length="{len(text)}"' in tag


def recorded(plan: Plan, there: list[SettledState], name: str) -> dict[str, Any]:
    way = method_of(name)
    return page_record(plan, way, parts_of(plan, there, way))


def test_a_state_that_is_not_made_keeps_its_words(plan, some) -> None:  # type: ignore[no-untyped-def]
    data = recorded(plan, some, "locked-captive")
    steps = {step["state"]: step for step in data["steps"]}
    assert "views" in steps["h1-first-fid"]
    assert "views" not in steps["buried"]
    assert steps["buried"]["instructions"]
    assert set(data["states"]) == set(KINDS)
    assert data["aim"] == "h1-second-fid"
    ways = {way["state"]: way for way in data["wrong"]}
    assert "views" in ways["mark-on-strand"]
    assert "views" not in ways["eye-loose"]
    made_at = [way["step"] for way in data["wrong"]]
    assert made_at == sorted(made_at)


def test_a_page_without_any_state_can_be_made(plan) -> None:  # type: ignore[no-untyped-def]
    data = recorded(plan, [], "plain")
    assert data["states"] == {}
    assert data["practice"] == []
    assert len(as_text(data)) < 60_000


def test_steps_that_share_a_number_have_letters() -> None:
    names = numbered(method_of("locked-captive").steps)
    assert len(set(names)) == len(names)
    assert names[:4] == ["1", "2", "3a", "3b"]
    assert names[-1] == "14"


def test_practice_asks_only_what_it_can_show(plan, some) -> None:  # type: ignore[no-untyped-def]
    found = recorded(plan, some, "locked-captive")["practice"]
    assert found == []
    more = [
        *some,
        settled(plan, "wrapped"),
        settled(plan, "tail-entering"),
        settled(plan, "split-5-7"),
        settled(plan, "marking"),
    ]
    asked = recorded(plan, more, "locked-captive")["practice"]
    assert [question["before"] for question in asked] == ["h1-second-fid"]
    for question in asked:
        assert [option["right"] for option in question["options"]].count(True) == 1
        assert not re.search(r"[{}]", json.dumps([question["ask"], *(o["words"] for o in question["options"])]))


def _png(size: tuple[int, int]) -> bytes:
    noise = np.random.default_rng(7).integers(0, 255, (size[1], size[0], 3), dtype=np.uint8)
    out = io.BytesIO()
    Image.fromarray(noise).save(out, format="PNG")
    return out.getvalue()


def test_the_first_page_shows_the_finished_splice_and_says_that_more_will_come() -> None:
    request = request_for(a_job(bury=18.0, bearing=4.0))
    made = make_first_page(Context(request, lambda kind: settled(request.plan, kind)), "")
    text = made.files["splice.html"].decode("utf-8")
    data = json.loads(re.findall(r'id="data"[^>]*>(.*?)</script>', text, re.DOTALL)[0])
    assert list(data["states"]) == [request.finished]
    assert data["summary"].startswith(STILL_MADE) and len(data["steps"]) == len(request.method.steps)
    assert STILL_MADE in text[text.index('<section id="plain"') : text.index('<script type="application/json"')]
    assert [row["name"] for row in data["tables"]["marks"]]


def test_a_picture_is_as_large_as_its_share_allows() -> None:
    picture = _png((800, 600))
    large, share, least = small(picture, 10**9), small(picture, 60_000), small(picture, 100)
    sizes = [_size_of(link) for link in (large, share, least)]
    assert sizes[0][0] == 760 and sizes[-1][0] == 280
    assert len(large) > 60_000 >= len(share) > len(least)
    assert sizes[0] > sizes[1] > sizes[2]


def test_of_a_sheet_the_page_takes_the_drawings_alone() -> None:
    """A step's views, and below them the cut that stands beside its words on the sheet."""
    views = [_panel((0, 80, 1100, 400)), _panel((0, 500, 1100, 600)), _panel((1156, 750, 424, 376))]
    sheet = Image.new("RGB", (800, 600), "white")
    for grey, panel in enumerate(views):
        x, y, width, height = (side // 2 for side in panel.box)
        sheet.paste((grey, grey, grey), (x, y, x + width, y + height))
    found = drawings(sheet, Scene("step", "", tuple(views)))
    assert found.size == (550, 510 + 188)
    assert [found.getpixel(spot) for spot in ((10, 10), (10, 300), (10, 600))] == [(0,) * 3, (1,) * 3, (2,) * 3]
    assert found.getpixel((500, 600)) == (255, 255, 255)


def _panel(box: tuple[int, int, int, int]) -> Panel:
    return Panel(box, Camera((0.0, 0.0, 0.0), 100.0), ())


def test_pictures_are_made_to_fit_the_room_there_is() -> None:
    links = {name: small(_png((800, 600)), most) for name, most in (("a", 90_000), ("b", 90_000), ("c", 30_000))}
    assert fitting(links, 10**9) == links
    fewer = fitting(links, 150_000)
    assert list(fewer) == ["a", "b", "c"] and sum(map(len, fewer.values())) <= 150_000
    assert fewer["c"] == links["c"] and len(fewer["a"]) < len(links["a"])
    assert fitting(links, 100) == {}


def _size_of(link: str) -> tuple[int, int]:
    with Image.open(io.BytesIO(base64.b64decode(link.partition(",")[2]))) as picture:
        return picture.size


def test_pictures_and_words_stand_in_the_page_without_its_script(plan, some) -> None:  # type: ignore[no-untyped-def]
    page = splice_page(plan, some, method_of("locked-captive"), {"h1-first-fid": _png((160, 120))})
    plain = page[page.index('<section id="plain"') : page.index('<script type="application/json"')]
    assert plain.count("<img ") == 1
    assert "data:image/webp;base64," in plain
    assert "Lay out the line and measure the tail" in plain
    assert plain.count("<table>") == 3
    assert "qualified rigger" in plain
    assert len(page) < BOUND
