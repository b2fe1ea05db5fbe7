"""The file that `fidpath new` writes."""

import re
from pathlib import Path

from fidpath.job.reader import parse_job, read_job
from fidpath.job.template import template, write_new


def test_the_new_file_reads_and_every_key_in_its_notes_is_one(tmp_path: Path) -> None:
    assert parse_job(template("my job")).name == "my job"
    before, _, rest = template("x").partition("[terminator]")
    own, _, after = rest.partition("[line]")
    with_notes = re.sub(r"^# (\w+ = )", r"\1", before + "[line]" + after, flags=re.MULTILINE)
    makers = '["name in that file"]\nbury = "60 d"\n'
    (tmp_path / "makers.toml").write_text(makers, encoding="utf-8")
    whole = with_notes.replace("[line]", f"[terminator]{own}[line]")
    assert parse_job(whole, str(tmp_path / "job.toml")).rope.strength_n == 95000
    path = tmp_path / "A stay (2).toml"
    write_new(path)
    assert read_job(path).name == "A stay 2"


def test_new_in_any_name(tmp_path: Path) -> None:
    for name in ("...", "-", "x" * 130, "Wanten é", "a{b}"):
        assert parse_job(template(name)).name
