"""What earlier builds left: known again by digest and content, never anyone else's file touched."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fidpath.building.manifest import HOME, NAMES, OLD_HOME, Manifest
from fidpath.errors import CannotBeMade, NotOurs
from fidpath.machine import digest
from fidpath.machine.digest import digest_of, source_digest
from fidpath.outputs.registry import Product


@dataclass(frozen=True)
class Pair:
    one: float
    other: object


def test_a_result_is_known_again_while_nothing_changed(tmp_path: Path) -> None:
    Manifest(tmp_path).write("a", "d1", Product({"sub/a.txt": b"A", "b.txt": b"B"}, {"x": [1, 2]}))
    again = Manifest(tmp_path)
    found = again.up_to_date("a", "d1")
    assert found is not None and found.data == {"x": [1, 2]} and found.read("b.txt") == b"B"
    assert again.files() == [tmp_path / "b.txt", tmp_path / "sub" / "a.txt"]
    assert again.up_to_date("a", "d2") is None
    (tmp_path / "b.txt").write_bytes(b"other")
    assert Manifest(tmp_path).up_to_date("a", "d1") is None
    (tmp_path / "b.txt").unlink()
    assert Manifest(tmp_path).up_to_date("a", "d1") is None


def test_what_was_replaced_since_is_there_while_its_digest_fits(tmp_path: Path) -> None:
    Manifest(tmp_path).write("first", "d1", Product({"a.txt": b"first"}))
    Manifest(tmp_path).write("whole", "d2", Product({"a.txt": b"whole"}))
    now = Manifest(tmp_path)
    assert now.find("first", "d1") is None and now.find("first", "d2", replaced=True) is None
    assert now.up_to_date("first", "d1", replaced=True) is not None and now.up_to_date("whole", "d2") is not None
    assert now.files() == [tmp_path / "a.txt"]
    now.sweep()
    assert (tmp_path / "a.txt").read_bytes() == b"whole"


@pytest.mark.parametrize(
    "text", ["", "{", "[]", "{}", '{"digest": "d1", "files": {"../x": ""}, "data": {}}', "\x00", '{"digest": "d1"}']
)
def test_a_record_that_is_no_record_counts_for_nothing(tmp_path: Path, text: str) -> None:
    (tmp_path / HOME).mkdir()
    (tmp_path / HOME / "a.json").write_text(text)
    manifest = Manifest(tmp_path)
    assert manifest.up_to_date("a", "d1") is None
    manifest.sweep()


def test_what_is_no_longer_made_goes_and_what_was_changed_stays(tmp_path: Path) -> None:
    Manifest(tmp_path).write("old", "d", Product({"old.txt": b"old", "mine.txt": b"first", "both.txt": b"1"}, {}))
    (tmp_path / "mine.txt").write_bytes(b"changed by hand")
    (tmp_path / "never ours.txt").write_bytes(b"x")
    now = Manifest(tmp_path)
    now.write("new", "d", Product({"both.txt": b"1"}, {}))
    now.sweep()
    assert {path.name for path in tmp_path.iterdir()} == {"mine.txt", "never ours.txt", "both.txt", HOME}
    assert {path.name for path in (tmp_path / HOME).iterdir()} == {"new.json", NAMES}


def test_a_folder_that_was_left_empty_goes(tmp_path: Path) -> None:
    Manifest(tmp_path).write("old", "d", Product({"steps/old.txt": b"old", "more/old.txt": b"old"}, {}))
    (tmp_path / "more" / "never ours.txt").write_bytes(b"x")
    Manifest(tmp_path).sweep()
    assert {path.name for path in tmp_path.iterdir()} == {"more", HOME}


def test_a_file_of_the_users_own_is_not_written_over(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_bytes(b"mine")
    with pytest.raises(NotOurs, match=r"a\.txt exists and wasn't written by fidpath"):
        Manifest(tmp_path).write("a", "d", Product({"a.txt": b"A", "b.txt": b"B"}, {}))
    with pytest.raises(NotOurs):
        Manifest(tmp_path).refuse(["b.txt", "a.txt"])
    assert (tmp_path / "a.txt").read_bytes() == b"mine"
    assert not (tmp_path / "b.txt").exists()
    Manifest(tmp_path).refuse(["b.txt"])


@pytest.mark.parametrize("lost", [False, True])
def test_what_a_killed_build_wrote_without_a_record_is_ours(tmp_path: Path, lost: bool) -> None:
    early, late = Manifest(tmp_path), Manifest(tmp_path)
    late.refuse(["b.txt"])
    early.write("a", "d", Product({"a.txt": b"A"}, {}))
    early.claim(["b.txt"])
    (tmp_path / "b.txt").write_bytes(b"B")
    if lost:
        (tmp_path / HOME / NAMES).write_text('"b.txt"\n"half')
    for manifest in (late, Manifest(tmp_path)):
        manifest.write("c", "d", Product({"a.txt": b"1", "b.txt": b"2"}, {}))
    assert (tmp_path / "b.txt").read_bytes() == b"2"


def test_a_record_that_another_build_is_writing_stays(tmp_path: Path) -> None:
    Manifest(tmp_path).write("a", "d", Product({"a.txt": b"A"}, {}))
    part = tmp_path / HOME / ".a.0000000112345678.part.json"
    part.write_bytes((tmp_path / HOME / "a.json").read_bytes())
    Manifest(tmp_path).sweep()
    assert part.exists()


def test_what_a_refused_build_wrote_is_taken_back(tmp_path: Path) -> None:
    manifest = Manifest(tmp_path)
    manifest.write("a", "d", Product({"a.txt": b"A"}, {}))
    with pytest.raises(CannotBeMade), manifest.withdrawn_on(CannotBeMade):
        raise CannotBeMade("too short")
    assert not (tmp_path / "a.txt").exists()
    assert Manifest(tmp_path).up_to_date("a", "d") is None


def test_a_result_that_is_only_looked_for_is_swept(tmp_path: Path) -> None:
    Manifest(tmp_path).write("a", "d", Product({"a.txt": b"A"}))
    now = Manifest(tmp_path)
    assert now.find("a", "d") is not None
    now.sweep()
    assert not (tmp_path / "a.txt").exists()


def test_the_same_content_has_the_same_digest_whoever_read_it(tmp_path: Path) -> None:
    made = Manifest(tmp_path).write("a", "d", Product({"a.txt": b"A"}, {"x": (1, 2.5), "y": {3: "é"}}))
    found = Manifest(tmp_path).find("a", "d")
    assert found is not None and found.digest == made.digest
    other = Manifest(tmp_path).write("a", "d", Product({"a.txt": b"A"}, {"x": (1, 2.4), "y": {3: "é"}}))
    assert other.digest != made.digest


def of_an_earlier_version(out: Path) -> None:
    """Results with their records as version 0.1 left them."""
    earlier = Manifest(out)
    earlier.write("step-01", "d", Product({"steps/01.png": b"1", "plan.json": b"{}"}))
    earlier.claim(["motion.webp"])
    earlier.home.rename(out / OLD_HOME)
    (out / "motion.webp").write_bytes(b"film")


def test_a_folder_of_an_earlier_version_is_taken_over(tmp_path: Path) -> None:
    of_an_earlier_version(tmp_path)
    (tmp_path / "notes.txt").write_bytes(b"mine")
    now = Manifest(tmp_path)
    now.refuse(["plan.json", "motion.webp", "steps/01.png"])
    with pytest.raises(NotOurs):
        now.refuse(["notes.txt"])
    now.write("plan", "d2", Product({"plan.json": b"{new}"}))
    now.sweep()
    assert {path.name for path in tmp_path.iterdir()} == {HOME, "plan.json", "motion.webp", "notes.txt"}
    Manifest(tmp_path).refuse(["motion.webp"])


def test_names_of_an_earlier_version_count_beside_a_folder_of_our_own(tmp_path: Path) -> None:
    of_an_earlier_version(tmp_path)
    (tmp_path / HOME).mkdir()
    now = Manifest(tmp_path)
    now.write("plan", "d2", Product({"plan.json": b"{new}"}))
    assert (tmp_path / OLD_HOME).exists()
    now.refuse(["motion.webp"])


def test_a_record_is_json_that_anyone_can_read(tmp_path: Path) -> None:
    Manifest(tmp_path).write("a", "d", Product({"a.txt": b"A"}, {"x": 1}))
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


def test_another_version_of_a_library_changes_what_it_decides_and_nothing_else(monkeypatch: pytest.MonkeyPatch) -> None:
    def digests() -> tuple[str, str]:
        source_digest.cache_clear()
        return source_digest(("typst",)), source_digest(("pillow",))

    before = digests()
    known = digest._version
    monkeypatch.setattr(digest, "_version", lambda name: "99" if name == "typst" else known(name))
    after = digests()
    source_digest.cache_clear()
    assert before[0] != after[0] and before[1] == after[1]
