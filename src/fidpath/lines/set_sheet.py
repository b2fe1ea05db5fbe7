"""A planned set as one cut list, as JSON, and as a table for a spreadsheet."""

from __future__ import annotations

import csv
import io
import json
import textwrap
from typing import Any

from fidpath.cautions import BESIDE_FIGURES
from fidpath.lines import line_sheet
from fidpath.lines.sets import PlannedLine, RopeTotal, SetPlan
from fidpath.planning import WIDTH

SET_SCHEMA = 1
NAME = 34


def as_data(done: SetPlan) -> dict[str, Any]:
    """The whole set as plain data, units in the keys."""
    return {
        "set_schema": SET_SCHEMA,
        "name": done.name,
        "lines": [_line(each) for each in done.planned],
        "failed": [{"name": each.name, "error": str(each.error)} for each in done.failed],
        "ropes": [_rope(total) for total in done.totals],
        "cautions": list(BESIDE_FIGURES),
    }


def as_json(done: SetPlan) -> str:
    """The same as JSON text that ends with a line end."""
    return json.dumps(as_data(done), indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _line(each: PlannedLine) -> dict[str, Any]:
    return {"quantity": each.quantity, "cut_mm": round(each.cut, 6), **line_sheet.as_data(each.plan)}


def _rope(total: RopeTotal) -> dict[str, Any]:
    allocation = total.allocation
    data: dict[str, Any] = {"rope": total.rope, "pieces": len(total.pieces), "length_mm": round(total.length, 6)}
    if allocation is None:
        return {**data, "spools": None}
    return {
        **data,
        "left_over_mm": round(allocation.left_over, 6),
        "left_over_is_least": allocation.optimal,
        "gap_share": round(allocation.gap, 6),
        "unplaced": [total.pieces[index][0] for index in allocation.unplaced],
        "spools": [
            {
                "name": spool.name,
                "length_mm": round(spool.length, 6),
                "left_mm": round(spool.length - sum(size for _, size in pieces), 6),
                "cut": [{"piece": name, "length_mm": round(size, 6)} for name, size in pieces],
            }
            for spool, pieces in zip(total.spools, _per_spool(total), strict=True)
        ],
    }


def _per_spool(total: RopeTotal) -> list[list[tuple[str, float]]]:
    """The pieces cut from each spool, longest first."""
    cuts: list[list[tuple[str, float]]] = [[] for _ in total.spools]
    for piece, spool in zip(total.pieces, total.allocation.spool_of if total.allocation else (), strict=False):
        if spool is not None:
            cuts[spool].append(piece)
    return [sorted(pieces, key=lambda piece: (-piece[1], piece[0])) for pieces in cuts]


def cut_list(done: SetPlan) -> str:
    """The set as it is read at the bench; ends with a line end."""
    blocks = [[f"{done.name}: {sum(each.quantity for each in done.planned)} lines to cut"]]
    if done.failed:
        blocks.append(
            ["CAN'T BE MADE", *(row for each in done.failed for row in _wrapped(f"{each.name}: {each.error}"))]
        )
    blocks += [_lines(done), *(_spools(total, done) for total in done.totals)]
    blocks += [_marks(each) for each in done.planned]
    blocks.append(["CAUTIONS", *(row for text in line_sheet.LINE_CAUTIONS for row in _wrapped(text))])
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent="  - ", subsequent_indent="    ", break_long_words=False)


def _lines(done: SetPlan) -> list[str]:
    if not done.planned:
        return []
    rows = [f"{'LINE':<{NAME}} {'NO.':>4}  {'ROPE TO CUT':<14} {'FINISHED':<26} ROPE"]
    for each in done.planned:
        plan = each.plan
        cut = line_sheet.length(plan, each.cut, rounding="up")
        half = line_sheet.length(plan, plan.half, fine=True, rounding="up")
        finished = f"{line_sheet.length(plan, plan.finished)} +- {half}"
        rows.append(f"{each.name:<{NAME}} {each.quantity:>4}  {cut:<14} {finished:<26} {plan.job.rope.name}")
    return rows


def _spools(total: RopeTotal, done: SetPlan) -> list[str]:
    plan = next(each.plan for each in done.planned if each.plan.job.rope.name == total.rope)

    def shown(mm: float) -> str:
        return line_sheet.length(plan, mm)

    count = "1 piece" if len(total.pieces) == 1 else f"{len(total.pieces)} pieces"
    rows = [f"{total.rope}: {count}, {shown(total.length)} in all"]
    allocation = total.allocation
    if allocation is None:
        return [*rows, "  no spool of this rope in the set's stock"]
    for spool, pieces in zip(total.spools, _per_spool(total), strict=True):
        if pieces:
            left = spool.length - sum(size for _, size in pieces)
            cut = "; ".join(f"{name} {shown(size)}" for name, size in pieces)
            rows += _wrapped(f"{spool.name}, {shown(spool.length)}: {cut}; {shown(left)} left")
    rows += [f"  NO ROOM FOUND for {total.pieces[index][0]}" for index in allocation.unplaced]
    said = (
        "the least possible" if allocation.optimal else f"within {allocation.gap:.2%} of the rope begun, of the least"
    )
    return [*rows, f"  left over on the spools begun: {shown(allocation.left_over)}, {said}"]


def _marks(each: PlannedLine) -> list[str]:
    plan = each.plan
    rows = [f"{each.name}: marks from {line_sheet.datum(plan)}"]
    for number, step in enumerate(plan.steps, 1):
        rows.append(f"  {number}. {plan.ends[step.end].name}: {step.method}")
    for mark in plan.marks:
        rows.append(f"  {mark.label:<{line_sheet.LABEL}} {line_sheet.mark_length(plan, mark)}")
    return [*rows, *(row for text in line_sheet.notices(plan) for row in _wrapped(f"look: {text}"))]


def as_csv(done: SetPlan) -> str:
    """One row a line, lengths in mm, for a spreadsheet."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(
        [
            "name",
            "quantity",
            "rope",
            "rope_to_cut [mm]",
            "finished_length [mm]",
            "finished_half_width [mm]",
            "made_first",
        ]
    )
    for each in done.planned:
        plan = each.plan
        lengths = [f"{value:.1f}" for value in (each.cut, plan.finished, plan.half)]
        first = plan.ends[plan.steps[0].end].name
        writer.writerow([_cell(each.name), each.quantity, _cell(plan.job.rope.name), *lengths, _cell(first)])
    return stream.getvalue()


def _cell(name: str) -> str:
    """A name that a spreadsheet doesn't take for a formula."""
    return f"'{name}" if name.startswith(("=", "+", "-", "@")) else name
