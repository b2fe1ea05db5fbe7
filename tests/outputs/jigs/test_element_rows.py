"""Rows of numbers as XML: read back by the standard library's parser, and written as Python itself writes them."""

from __future__ import annotations

from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fidpath.outputs.jigs.element_rows import element_rows

STEPS = st.integers(-(10**9), 10**9)


@given(st.lists(st.tuples(STEPS, STEPS), min_size=1, max_size=20), st.sampled_from([0, 1, 4]))
def test_numbers_are_read_back(rows: list[tuple[int, int]], decimals: int) -> None:
    columns = [np.array(column) for column in zip(*rows, strict=True)]
    text = element_rows(('<p a="', '" b="', '"/>'), columns, decimals).decode("ascii")
    read = [(each.get("a"), each.get("b")) for each in ElementTree.fromstring(f"<all>{text}</all>")]
    expected = [tuple(_written(step, decimals) for step in row) for row in rows]
    assert read == expected


def _written(step: int, decimals: int) -> str:
    if decimals == 0:
        return str(step)
    text = f"{abs(step) / 10**decimals:.{decimals}f}".rstrip("0").rstrip(".")
    return f"-{text}" if step < 0 else text


@pytest.mark.parametrize(
    ("step", "text"), [(0, "<p>0</p>"), (-5, "<p>-0.0005</p>"), (10_000, "<p>1</p>"), (123_450, "<p>12.345</p>")]
)
def test_noughts_at_the_ends_are_left_out(step: int, text: str) -> None:
    assert element_rows(("<p>", "</p>"), [np.array([step])], 4).decode("ascii") == text
