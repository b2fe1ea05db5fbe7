"""The line of every key of a TOML text."""

import tomllib

from hypothesis import given
from hypothesis import strategies as st

from fidpath.job.locate import key_lines, line_of

KEYS = st.lists(st.from_regex(r"[a-z]{1,6}", fullmatch=True), min_size=1, max_size=30, unique=True)


@given(KEYS, st.data())
def test_lines_are_those_the_keys_stand_on(keys: list[str], data: st.DataObject) -> None:
    values = ['"a # b = c"', "[1,\n 2]", "{x = 1, y = [2, {z = 3}]}", "'''\nk = 1\n[t]\n'''", "1.5 # c", '"""\\\n"""']
    text, expected = "", {}
    for key in keys:
        text += data.draw(st.sampled_from(["", "# note\n", "\n"]))
        expected[key] = text.count("\n") + 1
        text += f"{key} = {data.draw(st.sampled_from(values))}\n"
    assert set(tomllib.loads(text)) == set(keys)
    found = key_lines(text)
    assert {key: found[(key,)] for key in keys} == expected


def test_lines_in_every_kind_of_table() -> None:
    text = """\
a.b = 1
[t]
c = {d = 1, e.f = [1, {g = 2}]}
[[t.list]]
h = 1
[[t.list]]
"i j" = [
  1,
  {k = 3}]
[t.list.sub]
l = 1
"""
    tomllib.loads(text)
    lines = key_lines(text)
    assert lines[("a", "b")] == 1
    assert lines[("t", "c", "e", "f", 1, "g")] == 3
    assert lines[("t", "list", 0, "h")] == 5
    assert lines[("t", "list", 1, "i j", 1, "k")] == 9
    assert lines[("t", "list", 1, "sub", "l")] == 11
    assert line_of(text, ("t", "list", 1, "nothing")) == 6
    assert line_of(text, ("nothing",)) is None
