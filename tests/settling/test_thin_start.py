"""Which of several starts is taken."""

from __future__ import annotations

import pytest

from fidpath.planning.planner import make_plan
from fidpath.settling import thin_start as start
from fidpath.states.kinds import state_of
from jobs import a_job


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


def test_a_state_is_laid_once_however_many_starts_are_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    laid, tried = [], []
    lay, thin = start.draft_of, start.thinned
    monkeypatch.setattr(start, "draft_of", lambda state: laid.append(state) or lay(state))  # type: ignore[func-returns-value]
    monkeypatch.setattr(start, "thinned", lambda *given: tried.append(given[2]) or thin(*given))  # type: ignore[func-returns-value]
    monkeypatch.setattr(start, "ENOUGH", 9.0)
    start.clearest(state_of(make_plan(a_job(bury=12.0)), "marking"))
    assert len(laid) == 1 and len(tried) == 36 == len(set(tried))
