"""What earlier builds left: known again by digest and content, never anyone else's file touched."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fidpath.building.manifest import HOME, NAMES, Kept
from fidpath.errors import NotOurs
from fidpath.machine.digest import digest_of, source_digest


@dataclass(frozen=True)
class Pair:
    one: float
    other: object


def test_a_piece_is_known_again_while_nothing_changed(tmp_path: Path) -> None:
    Kept(tmp_path).keep("a", "d1", {"sub/a.txt": b"A", "b.txt": b"B"}, {"x": [1, 2]})
    again = Kept(tmp_path)
    assert again.data("a", "d1") == {"x": [1, 2]}
    assert again.files() == [tmp_path / "b.txt", tmp_path / "sub" / "a.txt"]
    assert again.data("a", "d2") is None
    (tmp_path / "b.txt").write_bytes(b"other")
    assert Kept(tmp_path).data("a", "d1") is None
    (tmp_path / "b.txt").unlink()
    assert Kept(tmp_path).data("a", "d1") is None


@pytest.mark.parametrize(
    "text", ["", "{", "[]", "{}", '{"digest": "d1", "files": {"../x": ""}, "data": {}}', "\x00", '{"digest": "d1"}']
)
def test_a_record_that_is_no_record_counts_for_nothing(tmp_path: Path, text: str) -> None:
    (tmp_path / HOME).mkdir()
    (tmp_path / HOME / "a.json").write_text(text)
    kept = Kept(tmp_path)
    assert kept.data("a", "d1") is None
    kept.sweep()


def test_what_is_no_longer_made_goes_and_what_was_changed_stays(tmp_path: Path) -> None:
    Kept(tmp_path).keep("old", "d", {"old.txt": b"old", "mine.txt": b"first", "both.txt": b"1"}, {})
    (tmp_path / "mine.txt").write_bytes(b"changed by hand")
    (tmp_path / "never ours.txt").write_bytes(b"x")
    now = Kept(tmp_path)
    now.keep("new", "d", {"both.txt": b"1"}, {})
    now.sweep()
    assert {path.name for path in tmp_path.iterdir()} == {"mine.txt", "never ours.txt", "both.txt", HOME}
    assert {path.name for path in (tmp_path / HOME).iterdir()} == {"new.json", NAMES}


def test_a_folder_that_was_left_empty_goes(tmp_path: Path) -> None:
    Kept(tmp_path).keep("old", "d", {"steps/old.txt": b"old", "more/old.txt": b"old"}, {})
    (tmp_path / "more" / "never ours.txt").write_bytes(b"x")
    Kept(tmp_path).sweep()
    assert {path.name for path in tmp_path.iterdir()} == {"more", HOME}


def test_a_file_of_the_users_own_is_not_written_over(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_bytes(b"mine")
    with pytest.raises(NotOurs, match=r"a\.txt is there, and is none of fidpath's files"):
        Kept(tmp_path).keep("a", "d", {"a.txt": b"A", "b.txt": b"B"}, {})
    with pytest.raises(NotOurs):
        Kept(tmp_path).refuse(["b.txt", "a.txt"])
    assert (tmp_path / "a.txt").read_bytes() == b"mine"
    assert not (tmp_path / "b.txt").exists()
    Kept(tmp_path).refuse(["b.txt"])


@pytest.mark.parametrize("lost", [False, True])
def test_what_a_killed_build_wrote_without_a_record_is_ours(tmp_path: Path, lost: bool) -> None:
    early, late = Kept(tmp_path), Kept(tmp_path)
    late.refuse(["b.txt"])
    early.keep("a", "d", {"a.txt": b"A"}, {})
    early.claim(["b.txt"])
    (tmp_path / "b.txt").write_bytes(b"B")
    if lost:
        (tmp_path / HOME / NAMES).write_text('"b.txt"\n"half')
    for kept in (late, Kept(tmp_path)):
        kept.keep("c", "d", {"a.txt": b"1", "b.txt": b"2"}, {})
    assert (tmp_path / "b.txt").read_bytes() == b"2"


def test_a_record_that_another_build_is_writing_stays(tmp_path: Path) -> None:
    Kept(tmp_path).keep("a", "d", {"a.txt": b"A"}, {})
    part = tmp_path / HOME / ".a.0000000112345678.part.json"
    part.write_bytes((tmp_path / HOME / "a.json").read_bytes())
    Kept(tmp_path).sweep()
    assert part.exists()


def test_what_a_refused_build_wrote_is_taken_back(tmp_path: Path) -> None:
    kept = Kept(tmp_path)
    kept.keep("a", "d", {"a.txt": b"A"}, {})
    kept.withdraw()
    assert not (tmp_path / "a.txt").exists()
    assert Kept(tmp_path).data("a", "d") is None


def test_a_record_is_json_that_anyone_can_read(tmp_path: Path) -> None:
    Kept(tmp_path).keep("a", "d", {"a.txt": b"A"}, {"x": 1})
    record = json.loads((tmp_path / HOME / "a.json").read_text())
    assert record["data"] == {"x": 1}


@given(st.floats(allow_nan=False), st.floats(allow_nan=False))
def test_digests_tell_values_apart(a: float, b: float) -> None:
    assert (digest_of(Pair(a, "x")) == digest_of(Pair(b, "x"))) == (repr(a) == repr(b))


def test_digests_of_all_kinds_of_values() -> None:
    values = [
        Pair(1.0, None),
        [Pair(1.0, None)],
        {"a": 1},
        {"b": 1},
        np.arange(3),
        np.arange(3.0),
        (1, "1"),
        (1, 1),
        "é",
    ]
    assert len({digest_of(value) for value in values}) == len(values)
    with pytest.raises(TypeError, match="object"):
        digest_of(object())
    assert len(source_digest()) == 64
