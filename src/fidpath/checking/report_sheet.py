"""The check's report in words: each measure, what was found, its bound, and whether it holds."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fidpath.cautions import BESIDE_CHECKS
from fidpath.checking.loaded_sheet import loaded_lines
from fidpath.checking.report import LEAST_CERTIFICATE, UPPER

WORDS = {
    "overlap_max": "deepest run of a strand into another",
    "overlap_p99": "the same at 99 places of 100",
    "drawn_overlap_max": "deepest run of a drawn strand into another",
    "drawn_overlap_p99": "the same at 99 places of 100",
    "terminator_overlap_max_mm": "deepest run of a strand into the terminator",
    "certificate_min": "solver's certificate",
    "crossings_changed": "crossings that changed in settling",
    "split": "strands on each side of",
    "split_agreed": "split the same from all sides",
    "order_from_eye": "order from the eye",
    "tail_enclosed": "tail inside its cover",
    "strand_length_change_max": "strand's length against the rope's, at most off by",
    "take_up_mm": "take-up",
    "take_up_error": "take-up off the plan by",
    "throat_angle_deg": "throat angle",
    "throat_angle_error_deg": "throat angle off the plan by",
    "nodes": "nodes of the model",
    "settle_seconds": "settled in",
}
"""What each measure is."""

UNPRINTED = ("failures", "order_planned")
"""What a report holds besides measures: the failures have the verdict, the planned order is another measure's bound."""

UNITS = {"mm": " mm", "deg": " deg", "seconds": " s"}
SHARES = (
    "overlap_max",
    "overlap_p99",
    "drawn_overlap_max",
    "drawn_overlap_p99",
    "strand_length_change_max",
    "take_up_error",
)
"""Measures that are shares: of a strand's thickness, of a length."""


def as_text(report: Mapping[str, Any]) -> str:
    """A report of `verify` as a table; a state of the method to a line.

    report: `name`, `finished`, with a method `steps` and `mistakes`, and `loaded` where asked for, as the check gives
    them.
    """
    finished = report["finished"]
    rows = [row for name, value in finished.items() if name not in UNPRINTED for row in _rows(name, value, finished)]
    lines = [f"{report['name']}: the finished splice", f"  {'measure':<52} {'found':>14}   bound"]
    lines += [f"  {what:<52} {found:>14}   {bound}".rstrip() for what, found, bound in rows]
    if "loaded" in report:
        lines += loaded_lines(report["loaded"])
    for name, title in (("steps", "steps"), ("mistakes", "mistakes, as the check names them")):
        if name in report:
            lines += [title, *(f"  {_state(state)}" for state in report[name])]
    return "\n".join([*lines, _verdict(report)]) + "\n"


def _verdict(report: Mapping[str, Any]) -> str:
    states = [report["finished"], *report.get("steps", ())]
    beyond = sum(len(state["failures"]) for state in states)
    beyond += sum(way["named"] != way["name"] for way in report.get("mistakes", ()))
    if beyond == 0:
        return f"All within their bounds. {BESIDE_CHECKS}"
    return f"{beyond} beyond {'its bound' if beyond == 1 else 'their bounds'}: don't work from any of this"


def _rows(name: str, value: Any, report: Mapping[str, Any]) -> list[tuple[str, str, str]]:
    """A measure's rows: what it is, what was found, its bound."""
    what = WORDS.get(name, name)
    if name == "split":
        return [(f"{what} {hole}", " and ".join(map(str, counts)), "half and half") for hole, counts in value.items()]
    return [(what, cell(name, value), _bound(name, report))]


def _bound(name: str, report: Mapping[str, Any]) -> str:
    if name in UPPER:
        return f"at most {cell(name, UPPER[name])}"
    if name == "certificate_min":
        return f"at least {LEAST_CERTIFICATE:g}"
    order = cell("order_planned", report.get("order_planned", []))
    return {"split_agreed": "yes", "tail_enclosed": "yes", "order_from_eye": order}.get(name, "")


def cell(name: str, value: Any) -> str:
    """A measure's value, short, with its unit."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return ", ".join(str(part) for part in value)
    if name in SHARES:
        return f"{100 * value:.3g} %"
    unit = UNITS.get(name.rsplit("_", 1)[-1], "")
    return f"{value:.4g}{unit}" if isinstance(value, float) else f"{value}{unit}"


def _state(state: Mapping[str, Any]) -> str:
    """One state of a method: overlap, certificate, passes, invariants, and how it was judged."""
    passes = " ".join(f"{p['hole']}<{p['face'][0]}{p['split'][0]}/{p['split'][1]}" for p in state["passes"])
    linked = " ".join(str(value) for value in state.get("invariants", {}).values())
    said = state["named"] or ("; ".join(f["check"] for f in state["failures"]) or "as it should be")
    figures = f"overlap {100 * state['overlap_max']:.2f} %  certificate {state['certificate_min']:.2f}"
    return f"{state['name']:<20} {figures}  {passes:<28} {linked:<9} {said}"
