"""A short job, its form, and the live page's server."""

from collections.abc import Iterator
from pathlib import Path

import pytest

import shows
from fidpath.viewing.live_page.form import Form, read_form
from live import HOSTILE, Live


@pytest.fixture(scope="module")
def form() -> Form:
    return read_form(shows.DEMO)


@pytest.fixture(scope="module")
def short(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A job file with a short bury, which settles quickly; its rope's name is a trap for pages."""
    path = tmp_path_factory.mktemp("job") / "short.toml"
    text = shows.DEMO.read_text(encoding="utf-8").replace('bury = "72 d"', 'bury = "18 d"')
    path.write_text(text.replace('name = "grooved ring"', f'name = "{HOSTILE}"'), encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def live(short: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Live]:
    found = Live(short, tmp_path_factory.mktemp("live") / "saved")
    yield found
    found.process.kill()
    found.process.wait()
