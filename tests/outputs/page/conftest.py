"""The demo's page, opened in Chromium at both sizes."""

from __future__ import annotations

from pathlib import Path

import pytest

from fidpath.job.reader import read_job
from fidpath.methods.registry import method_of
from fidpath.outputs.page import splice_page
from fidpath.planning.planner import make_plan
from once import once
from pages import PHONE, Tab, chromium
from scenes.settled import settled

DEMO = Path(__file__).parents[3] / "scenes" / "demo.toml"
WAY = method_of("locked-captive")
STATES = list(
    dict.fromkeys(
        [*(s.state for s in WAY.steps), *(k for s in WAY.steps for k in s.between), *(w.name for w in WAY.mistakes)]
    )
)


@pytest.fixture(scope="module")
def browser():  # type: ignore[no-untyped-def]
    with chromium() as found:
        yield found


@pytest.fixture(scope="module")
def demo(browser):  # type: ignore[no-untyped-def]
    plan = make_plan(read_job(DEMO))
    return plan, {kind: settled(plan, kind) for kind in STATES}


@pytest.fixture(scope="module")
def page(demo, tmp_path_factory):  # type: ignore[no-untyped-def]
    plan, made = demo
    target = tmp_path_factory.mktemp("page") / "splice.html"
    text = once("demo-page", lambda: splice_page(plan, list(made.values()), WAY))
    target.write_text(text, encoding="utf-8")
    return target


@pytest.fixture(scope="module")
def opened(browser, page):  # type: ignore[no-untyped-def]
    found = Tab(browser, page)
    yield found
    found.close()


@pytest.fixture
def tab(opened):  # type: ignore[no-untyped-def]
    opened.fresh()
    return opened


@pytest.fixture(scope="module")
def held(browser, page):  # type: ignore[no-untyped-def]
    found = Tab(browser, page, **PHONE)
    yield found
    found.close()


@pytest.fixture
def phone(held):  # type: ignore[no-untyped-def]
    held.fresh()
    return held
