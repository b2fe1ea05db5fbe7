"""A job's tables as TOML text."""

from pathlib import Path

import pytest

import shows
from fidpath.job.reader import parse_job, text_of, toml_of
from fidpath.viewing.live_page.writer import job_text
from live import HOSTILE

SCENES = sorted((shows.ROOT / "scenes").glob("*.toml"))
LINES = sorted((shows.ROOT / "scenes" / "lines").glob("*.toml"))


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
