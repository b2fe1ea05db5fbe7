"""The path of a key: its text and back, and that every key the program speaks of is one that a file can have."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import fidpath
from fidpath.job.key_paths import KeyPath, key_path
from fidpath.job.locate import KeyedError, line_of
from fidpath.job.schema import keys_of, tables

SOURCES = sorted(Path(fidpath.__file__).parent.rglob("*.py"))
OTHER_FILES = {"measured", "measured.end", "measured.h1_to_h2", "test_splices", "steps", "mistakes"}
"""Keys of a file of measurements, a loft's record and a method."""

NAMES = st.from_regex(r"[a-z][a-z0-9_-]{0,9}", fullmatch=True)
PATHS = st.lists(st.tuples(NAMES, st.none() | st.integers(0, 99)), min_size=1, max_size=5)


@given(PATHS)
def test_a_paths_text_reads_as_the_same_path(parts: list[tuple[str, int | None]]) -> None:
    path = KeyPath(part for name, item in parts for part in ((name,) if item is None else (name, item)))
    assert key_path(str(path)) == path


def test_people_count_items_from_one() -> None:
    path = key_path("line.ends") / 1 / "splice"
    assert path == ("line", "ends", 1, "splice")
    assert (str(path), path.in_schema) == ("line.ends[2].splice", "line.ends.splice")
    assert path.below(("a", 0)) == key_path("line.ends[2].splice.a[1]")


def test_a_key_that_is_no_name_is_quoted() -> None:
    assert str(KeyPath(("rope", "two words"))) == "rope.'two words'"


def test_a_refusal_knows_its_path_however_it_was_given() -> None:
    refused = KeyedError(("line", "ends", 0), "what", "remedy")
    assert str(refused.path) == "line.ends[1]"
    assert line_of("[line]\n\n[[line.ends]]\n", refused.path / "splice") == 3


def keys_spoken_of() -> Iterator[tuple[str, str]]:
    """Where in the source, and the text: keys given to errors, asked of a job, and turned into paths."""
    for source in SOURCES:
        for node in ast.walk(ast.parse(source.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            said = [word.value for word in node.keywords if word.arg == "key"] if name[:1].isupper() else []
            said += node.args[:1] if name == "gives" or (name == "key_path" and "lines" not in source.parts) else []
            for value in said:
                if isinstance(value, ast.Constant) and isinstance(value.value, str):
                    yield f"{source.name}:{node.lineno}", value.value


@pytest.mark.parametrize(("where", "key"), [each for each in keys_spoken_of() if not each[1].startswith("--")])
def test_every_key_spoken_of_is_one_a_job_file_can_have(where: str, key: str) -> None:
    plain = re.sub(r"\[\d+\]", "", key)
    table, _, name = plain.rpartition(".")
    assert plain in {*tables(), *OTHER_FILES} or name in keys_of(table), where


def test_there_are_keys_to_look_at() -> None:
    found = {key for _, key in keys_spoken_of()}
    assert {"rope.pitch", "practice.post_stretch", "line.ends"} <= found
