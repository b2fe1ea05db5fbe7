"""Which of several starts is taken."""

from __future__ import annotations

import pytest

from fidpath.settling import thin_start as start


def test_the_clearest_of_poor_starts_is_taken_and_the_first_good_one_ends_the_search(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(start, "clearance", lambda draft: draft)
    low, high = start.LEAST * 1.2, start.LEAST * 1.4
    assert high < start.ENOUGH
    assert start._clearest([low, high, low]) == high  # type: ignore[list-item,comparison-overlap]
    asked: list[float] = []
    one_by_one = (asked.append(clear) or clear for clear in (low, start.ENOUGH, 9.0))  # type: ignore[func-returns-value]
    assert start._clearest(one_by_one) == start.ENOUGH  # type: ignore[arg-type,comparison-overlap]
    assert asked == [low, start.ENOUGH]
