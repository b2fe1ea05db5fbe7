"""A server that nobody needs any more ends by itself, and says so; one that is in use never does."""

from __future__ import annotations

import asyncio
import http.client
import time
from pathlib import Path

import pytest

import shows
from fidpath.viewing.serving import Rest
from live import Live, Start, wait

SHORT = "0.001"
"""Hours: 3.6 seconds."""


class Clock:
    """A clock that is set by hand."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.now = 1000.0
        monkeypatch.setattr(time, "monotonic", lambda: self.now)


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Clock:
    return Clock(monkeypatch)


def test_it_is_over_once_nothing_was_asked_for_so_long(clock: Clock) -> None:
    rest = Rest(2)
    clock.now += 2 * 3600
    assert not rest.over
    clock.now += 1
    assert rest.over


def test_none_is_asked_for_by_0(clock: Clock) -> None:
    rest = Rest(0)
    clock.now += 1e9
    assert not rest.over


def test_what_is_made_without_anybody_watching_is_use_of_it(clock: Clock) -> None:
    making = True
    rest = Rest(1, lambda: making)
    clock.now += 5000
    assert not rest.over
    making = False
    clock.now += 3000
    assert not rest.over
    clock.now += 1000
    assert rest.over


def test_an_answer_that_lasts_is_an_open_page(clock: Clock) -> None:
    rest = Rest(1)

    async def held(*_: object) -> None:
        clock.now += 5000
        assert not rest.over
        clock.now += 5000

    asyncio.run(rest.heard(held)({"type": "http"}, None, None))  # type: ignore[arg-type]
    assert not rest.over
    clock.now += 3601
    assert rest.over


def test_a_forgotten_start_page_ends_and_says_so(tmp_path: Path) -> None:
    start = Start(tmp_path / "shop", "--no-open", "--rest", SHORT)
    try:
        assert start.process.wait(60) == 0
        assert "No page has been open for 0.001 h: fidpath has ended." in start.said.read_text()
        assert list((tmp_path / "shop.home").glob("fidpath/*.json")) == []
    finally:
        start.process.kill()


def test_an_open_page_keeps_the_live_page_up_and_closing_it_lets_it_rest(tmp_path: Path) -> None:
    live = Live(shows.PLAIN, tmp_path / "saved", "--rest", SHORT)
    try:
        line = http.client.HTTPConnection(live.host, timeout=60)
        line.request("GET", f"{live.root}news")
        answer = line.getresponse()
        began = time.monotonic()
        wait(lambda: answer.readline() and time.monotonic() - began > 6)
        assert live.process.poll() is None
        answer.close()
        line.close()
        assert live.process.wait(60) == 0
        assert "fidpath has ended" in live.said.read_text()
    finally:
        live.process.kill()
