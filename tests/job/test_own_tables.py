"""Tables of the user's own beside a job: makers' rules and the names of fids; the load and time of setting."""

from __future__ import annotations

from pathlib import Path

import pytest

from fidpath.errors import JobError
from fidpath.job import Job, read_job
from fidpath.methods import card, method_of
from fidpath.planning import make_plan, warnings

DEMO = (Path(__file__).parents[2] / "scenes" / "demo.toml").read_text(encoding="utf-8")
MAKERS = """
["Northern Cordage"]
source = "splicing sheet of 2024"
bury = "60 d"
taper_share = 0.5
lock_stitch = { stitches = 8, spacing = "1 d" }
"""
FIDS = """
[fids]
"8 mm rope" = "7.5 mm"
"no. 4" = "12 mm"
"""


def job_with(folder: Path, *changes: tuple[str, str], makers: str = MAKERS, fids: str = FIDS) -> Job:
    """The demo job with changes to its text, beside the two tables."""
    text = DEMO
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    for name, content in (("job.toml", text), ("makers.toml", makers), ("fids.toml", fids)):
        (folder / name).write_text(content, encoding="utf-8")
    return read_job(folder / "job.toml")


MAKER = ('bury = "72 d"\n', 'maker = "Northern Cordage"\nmakers = "makers.toml"\n')
UNSTITCHED = ("lock_stitch = true\n", "")
NAMED = ('fids = ["8 mm", "12 mm"]', 'fids = ["8 mm rope", "no. 4"]\nfid_sizes = "fids.toml"')


def test_a_makers_rules_come_into_the_job_with_their_source_and_silence_the_general_rule(tmp_path: Path) -> None:
    job = job_with(tmp_path, MAKER, UNSTITCHED)
    practice = job.practice
    assert (practice.bury_diameters, practice.taper_share) == (60.0, 0.5)
    assert practice.stitch is not None and practice.stitch.stitches == 8
    words = "maker: Northern Cordage, splicing sheet of 2024"
    assert {practice.source(key) for key in ("bury", "taper_share", "lock_stitch")} == {words}
    assert practice.source("hole_gap") is None
    assert not [notice for notice in warnings(make_plan(job)) if "bury" in notice.name]


def test_the_jobs_own_figure_wins_over_the_makers(tmp_path: Path) -> None:
    job = job_with(tmp_path, (MAKER[0], 'bury = "80 d"\n' + MAKER[1]))
    assert job.practice.bury_diameters == 80.0 and job.practice.source("bury") is None
    assert job.practice.stitch is not None and job.practice.stitch.stitches == 7


@pytest.mark.parametrize(
    ("maker", "makers", "words"),
    [
        ("Northern Cordge", MAKERS, 'Did you mean "Northern Cordage"?'),
        ("Northern Cordage", MAKERS.replace("bury =", "burry ="), "burry: unknown key"),
        ("Northern Cordage", MAKERS.replace('"60 d"', '"60"'), "no unit"),
        ("Northern Cordage", "x", "makers.toml:1: this is not TOML"),
    ],
)
def test_what_is_wrong_with_a_makers_table_is_said(tmp_path: Path, maker: str, makers: str, words: str) -> None:
    with pytest.raises(JobError) as refused:
        job_with(tmp_path, (MAKER[0], MAKER[1].replace("Northern Cordage", maker)), UNSTITCHED, makers=makers)
    assert words in str(refused.value)


def test_a_maker_without_its_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(JobError, match=r"practice\.makers: this key is missing"):
        job_with(tmp_path, (MAKER[0], 'maker = "Northern Cordage"\n'))
    with pytest.raises(JobError, match="there is no such file"):
        job_with(tmp_path, (MAKER[0], MAKER[1].replace("makers.toml", "none.toml")))


def test_fids_are_known_by_the_users_own_names(tmp_path: Path) -> None:
    assert job_with(tmp_path, NAMED).tools.fids_mm == (7.5, 12.0)
    table = (NAMED[0], 'fids = ["8 mm rope", "12 mm"]\nfid_sizes = { "8 mm rope" = "7.5 mm" }')
    assert job_with(tmp_path, table).tools.fids_mm == (7.5, 12.0)


def test_a_fid_of_no_known_name_is_refused_with_the_names_there_are(tmp_path: Path) -> None:
    with pytest.raises(JobError, match=r"names known here: 8 mm rope, no\. 4"):
        job_with(tmp_path, (NAMED[0], NAMED[1].replace('"no. 4"', '"no. 5"')))


def test_the_load_and_time_of_setting_stand_on_the_card(tmp_path: Path) -> None:
    def last(job: Job) -> str:
        return card(method_of("locked-captive"), make_plan(job))

    assert "Set under the rope maker's load and time" in last(job_with(tmp_path))
    given = ('bury = "72 d"', 'bury = "72 d"\nset_load = "10 kN"\nset_time = "30 min"')
    assert "Set under 10 kN (1020 kg) for 30 min" in last(job_with(tmp_path, given))


def test_a_tiny_bury_is_warned_of_loudly_on_card_and_sheet_whatever_its_source(tmp_path: Path) -> None:
    short = ('bury = "72 d"', 'bury = "8 d"\nbury_source = "maker: sheet"')
    made = make_plan(job_with(tmp_path, short))
    assert warnings(made)[0].name == "short_bury" and "maker: sheet" in warnings(made)[0].text
    assert "DANGER" in card(method_of("locked-captive"), made)
    assert "DANGER" not in card(method_of("locked-captive"), make_plan(job_with(tmp_path)))
