"""The plan's numbers as a code that a phone reads without network: plain text, no address."""

from __future__ import annotations

from fidpath.cautions import IN_CODES
from fidpath.machine import folder_name
from fidpath.outputs.handout.true_size import Drawing, Polygon
from fidpath.planning import Figure, Plan, shown

CODE_MM = 42.0
"""Side of the printed code with its quiet zone, mm."""

QUIET = 4
"""Clear modules round the code (ISO/IEC 18004, from memory)."""


def code_text(plan: Plan, rows: tuple[Figure, ...]) -> str:
    """What the code says: the rope, and every mark from where it is measured, one a line, in the user's unit."""
    job = plan.job
    first = f"fidpath plan {folder_name(job.name)[:40]}"
    rope = (
        f"rope {shown(Figure('', '', job.rope.diameter_mm, '', '', '', fine=True), plan)}, {job.rope.strands} strands"
    )
    marks = [f"{row.label.partition(',')[0]}: {shown(row, plan)} from {row.measured_from.partition(',')[0]}"
             for row in rows]  # fmt: skip
    return "\n".join([first, rope, *marks, IN_CODES])


def code(text: str) -> Drawing:
    """The text as a QR code, dark modules in a row joined to one shape."""
    import segno

    matrix = segno.make(text, error="l", micro=False).matrix
    module = CODE_MM / (len(matrix) + 2 * QUIET)
    shapes = [
        _bar((QUIET + left) * module, (QUIET + y) * module, length * module, module)
        for y, row in enumerate(matrix)
        for left, length in _runs(row)
    ]
    alt = "Code for a phone: the plan's numbers as plain text, the same as in the table of lengths and marks."
    return Drawing((CODE_MM, CODE_MM), alt, shapes=tuple(shapes))


def _bar(left: float, top: float, width: float, height: float) -> Polygon:
    return Polygon(((left, top), (left + width, top), (left + width, top + height), (left, top + height)))


def _runs(row: bytearray) -> list[tuple[int, int]]:
    """Where dark modules of a row begin, and how many there are."""
    edges = [i for i, (a, b) in enumerate(zip([0, *row], [*row, 0], strict=True)) if a != b]
    return [(a, b - a) for a, b in zip(edges[::2], edges[1::2], strict=True)]
