"""The check's report: all of it passes on a good splice."""

from __future__ import annotations

from typing import Any

from broken_strands import Case
from fidpath.checking import SolverLog


def test_settled_splice_passes_every_check(good: dict[str, Any]) -> None:
    assert good["failures"] == []
    assert good["split"] == {"H1": [6, 6], "H2": [6, 6]}
    assert good["order_from_eye"] == ["H1", "H2", "bury"]
    assert good["nodes"] > 5000


def test_report_holds_the_promised_figures(good: dict[str, Any]) -> None:
    promised = {
        "overlap_max", "overlap_p99", "drawn_overlap_max", "drawn_overlap_p99", "terminator_overlap_max_mm",
        "certificate_min", "crossings_changed", "split", "tail_enclosed", "strand_length_change_max", "take_up_mm",
        "nodes", "settle_seconds", "failures",
    }  # fmt: skip
    assert promised <= good.keys()


def test_solver_log_is_passed_on_and_held_to_its_bound(case: Case) -> None:
    low = SolverLog(certificate_min=0.04, settle_seconds=3.25)
    found = case.report(log=low)
    assert found["settle_seconds"] == 3.25
    assert [failure["check"] for failure in found["failures"]] == ["certificate_min"]
