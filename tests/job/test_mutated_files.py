"""Spoilt files: whatever is in them, what comes out is a refusal in words, with the file and the line, and soon."""

from __future__ import annotations

import random
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from fidpath.errors import FidpathError, JobError
from fidpath.job.locate import key_lines
from fidpath.job.reader import parse_job, read_job, toml_of
from fidpath.lines.planned_and_measured import read_measured
from fidpath.lines.set_file import read_set, read_spools
from fidpath.methods.method_file import read_method
from fidpath.units import UnitError, read_share, shown
from fuzz.mutate import mutated
from fuzz.reading import LONGEST, SCENES, Seed, complaint, demo, seeds

FILES = 300
PATIENCE = 3 * LONGEST
"""Seconds of processor time, on a machine slower than the one where LONGEST holds (`make soak` measures that)."""
DEMO = (SCENES / "demo.toml").read_text(encoding="utf-8")
GREAT = "0x" + "f" * 6000


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the scenes: a spoilt file still finds what it names."""
    place = tmp_path_factory.mktemp("spoilt")
    shutil.copytree(SCENES, place, dirs_exist_ok=True)
    return place


@pytest.mark.parametrize("part", range(3))
def test_spoilt_files_are_refused_in_words_or_planned(folder: Path, part: int) -> None:
    chance, known, outcomes = random.Random(f"part {part}"), seeds(), []
    for number in range(FILES // 3):
        seed = known[number % len(known)]
        inside = seed.path.relative_to(SCENES) if seed.path.is_relative_to(SCENES) else Path("method.toml")
        path = folder / inside.with_name(f"spoilt-{part}{inside.suffix}")
        path.write_bytes(mutated(seed.text, chance))
        outcome, fault = complaint(seed, path, PATIENCE)
        assert fault == "", f"{seed.name}, file {number}: {path.read_text(errors='backslashreplace')[:2000]}"
        outcomes.append(outcome)
    assert min(outcomes.count("refused"), 10 * outcomes.count("read")) > FILES // 9


def test_sound_files_are_read_and_planned(folder: Path) -> None:
    found = {seed.name: complaint(seed, seed.path) for seed in seeds()}
    assert {name for name, (outcome, _) in found.items() if outcome != "read"} == set()
    assert {fault for _, fault in found.values()} == {""}


# ---- what once broke something

SPOILT = [
    ("a whole number of thousands of digits", DEMO.replace("strands = 12", f"strands = {GREAT}"), "rope.strands", 9),
    ("one in a list", DEMO.replace('"8 mm", "12 mm"', f'"8 mm", {GREAT}'), r"tools.fids[2]", 31),
    ("one for a share", DEMO.replace("strands = 12", "strands = 12\nsqueeze = 9" + "9" * 400), "rope.squeeze", 10),
    ("a schema of another name", DEMO.replace("schema = 1", "schema_version = 1"), "schema_version", 3),
    ("a table in a table that isn't there", DEMO + "[a.b.c.d]\n", "a", 38),
]


@pytest.mark.parametrize(("text", "key", "line"), [spoilt[1:] for spoilt in SPOILT], ids=[s[0] for s in SPOILT])
def test_a_job_that_broke_the_reader_is_refused_at_its_line(text: str, key: str, line: int) -> None:
    with pytest.raises(JobError) as caught:
        parse_job(text, "a.toml")
    assert (caught.value.key, caught.value.line, caught.value.file) == (key, line, "a.toml")
    assert caught.value.remedy and len(str(caught.value)) < 400


def test_a_table_for_a_length_is_named_and_not_shown(tmp_path: Path) -> None:
    path = tmp_path / "measured.toml"
    path.write_text("schema = 1\n[measured]\nbury = " + "{a=" * 200 + "1" + "}" * 200 + "\n")
    with pytest.raises(JobError, match="a table is not a length"):
        read_measured(path, demo())


def test_a_great_number_in_a_method_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "method.toml"
    path.write_text(f"schema = 1\nname = {GREAT}\n")
    with pytest.raises(JobError, match=r"method.toml:2: name: this number is too large for any key"):
        read_method(path)


def test_a_table_above_an_unknown_one_has_its_line(tmp_path: Path) -> None:
    path = tmp_path / "set.toml"
    path.write_text('schema = 1\nname = "a"\n\n[line.adjuster]\nkind = "x"\n')
    with pytest.raises(JobError, match=r"set.toml:4: line: unknown key"):
        read_set(path)
    assert key_lines("a = 1\n[[b.c]]\nd = 2\n") == {
        ("a",): 1, ("b",): 2, ("b", "c"): 2, ("b", "c", 0): 2, ("b", "c", 0, "d"): 3,
    }  # fmt: skip


def test_a_columns_long_name_is_cut_short(tmp_path: Path) -> None:
    path = tmp_path / "spools.csv"
    path.write_text("name,rope," + "length " * 300 + "\n")
    with pytest.raises(JobError, match=r"spools.csv:1: no column is called ") as caught:
        read_spools(path)
    assert len(str(caught.value)) < 400


def test_a_reader_that_hangs_or_breaks_is_seen(tmp_path: Path) -> None:
    def endless(_path: Path) -> None:
        while True:
            pass

    def broken(path: Path) -> None:
        raise KeyError(path)

    def silent(_path: Path) -> None:
        raise JobError("no")

    for reader, outcome in ((endless, "hung"), (broken, "broke"), (silent, "refused")):
        found, fault = complaint(Seed("a", tmp_path, reader), tmp_path, 0.1)
        assert found == outcome and fault


def test_values_are_shown_short_and_on_one_line() -> None:
    assert shown("8 mm") == '"8 mm"'
    assert shown("a\nb") == r"'a\nb'"
    assert shown({"a": 1}) == "a table"
    assert len(shown("x" * 5000)) < 70
    with pytest.raises(UnitError):
        read_share("9" * 5000)


def test_numbers_of_64_bits_are_read() -> None:
    assert toml_of("a = 0x7fffffffffffffff\nb = [-9_223_372_036_854_775_807]", "a") == {
        "a": 2**63 - 1,
        "b": [1 - 2**63],
    }
    with pytest.raises(JobError, match=r"a.toml:2: b"):
        toml_of("a = 1\nb = 9223372036854775808", "a.toml")


HEAD = 'schema = 1\nname = "a"\n'
HEAVY = {
    "eighty thousand keys": HEAD + "".join(f"k{number} = 1\n" for number in range(80_000)),
    "ninety thousand tables": HEAD + "".join(f"[t{number}]\n" for number in range(90_000)),
    "one table of keys in a line": HEAD + "x = {" + ",".join(f"a{number}=1" for number in range(90_000)) + "}\n",
    "a list without end": HEAD + "x = [" + "1," * 490_000 + "]\n",
    "a key of 200,000 parts": HEAD + "a." * 200_000 + "b = 1\n",
    "a header of 200,000 parts": HEAD + "[" + "a . " * 200_000 + "b]\n",
    "a key of a hundred parts": HEAD + "a." * 100 + "b = 1\n",
    "quoted parts": HEAD + '"a".' * 150_000 + "b = 1\n",
    "brackets": HEAD + "x = " + "[" * 90_000,
    "a long word": HEAD + "x" * 900_000,
    "one letter of a text after another": HEAD + 'x = "' + "\\u0000" * 150_000 + '"\n',
    "fifty thousand steps": HEAD + "[[steps]]\nx=1\n" * 50_000,
}
"""Files of up to a megabyte, most of which once took many seconds, or all the memory there was."""


@pytest.mark.parametrize("reader", [read_job, read_set, read_method], ids=["job", "set", "method"])
@pytest.mark.parametrize("text", HEAVY.values(), ids=HEAVY)
def test_a_heavy_file_is_refused_soon(tmp_path: Path, text: str, reader: Callable[[Path], object]) -> None:
    path = tmp_path / "heavy.toml"
    path.write_text(text)
    assert complaint(Seed("heavy", path, reader), path, PATIENCE) == ("refused", "")


def test_a_table_with_too_many_rows_is_refused_soon(tmp_path: Path) -> None:
    path = tmp_path / "heavy.csv"
    path.write_text("name\n" + "".join(f"{number}\n" for number in range(100_000)))
    with pytest.raises(JobError, match="100000 rows are too many"):
        read_set(path)


def test_full_stops_in_texts_are_no_deep_keys() -> None:
    said = "e.g. " * 12 + "a.b.c.d"
    assert toml_of(f'a = "{said}"\n# {said} {"." * 90}\n1.2.3 = 4', "a") == {"a": said, "1": {"2": {"3": 4}}}


@pytest.mark.parametrize("name", ["/dev/zero", "/dev/null", ".", "", "/proc/self/mem", "x" * 5000, "a\0b"])
def test_what_is_no_file_is_refused_at_once(name: str) -> None:
    with pytest.raises(FidpathError):
        read_job(Path(name))


def test_what_would_take_too_long_is_not_even_begun() -> None:
    for deep in ("a." * 30 + "b = 1", "[" + '"a" . ' * 30 + "b]", "x = {" + "a." * 30 + "b = 1}"):
        with pytest.raises(JobError, match=r"a.toml: line 3 nests tables too deeply. No key lies"):
            toml_of(f"{HEAD}{deep}\n", "a.toml")
    with pytest.raises(JobError, match=r"a.toml: this file is much too long. Split it"):
        toml_of("x = [" + "1," * 170_000 + "]", "a.toml")
