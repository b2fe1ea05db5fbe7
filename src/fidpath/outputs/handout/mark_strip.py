"""The mark strip at true size: the rope from beyond the entry to the tail's end, cut into tiles that are joined."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from fidpath.methods import DOT_AWAY
from fidpath.outputs.handout.true_size import BOLD, FINE, THIN, Drawing, Polygon, Stroke, Word, box, merged
from fidpath.planning import Figure, Plan, lengths, marks, shown
from fidpath.units import INCH_MM, is_imperial

BAR_MM = 200.0
"""Length of the bar that a steel rule is held against, mm."""

TILE_MM = {False: 200.0, True: 7 * INCH_MM}
"""Longest tile, mm: whole divisions of the tape, so that a joint falls on one; True for inches."""

SHORT = 75.0
"""A tile has its number beside it up to this length, mm."""

TAIL_END = "tail's end"
"""The one mark without a letter; like the table's, its length goes up to the tape's next division."""

DOT = "dot"
"""The place of the dot that names H2's dotted face."""

BEFORE = 10.0
"""Strip before the first mark and after the last, at least, mm."""

BAND, LEVEL, TAB, GAP = 11.0, 4.2, 9.0, 3.0
"""Height of the tape, of a row of labels, width of the pasting tab, and space between tiles, mm."""


Parts = tuple[tuple[int, Figure], ...]
"""Figures that add up to a station, each with its sign."""


@dataclass(frozen=True)
class Mark:
    """A lettered mark at its station along the rope, mm."""

    letter: str
    station: float


@dataclass(frozen=True)
class Tile:
    """One piece of the strip: its number and stations from `first` to `last`, mm, and the marks on it."""

    number: int
    first: float
    last: float
    marks: tuple[Mark, ...]


def strip_marks(plan: Plan) -> tuple[Mark, ...]:
    """Every mark by its letter as in the model, at its station; a plain buried eye has no holes to mark."""
    drops = strip_drops(plan)
    holes = [Mark(letter, at) for letter, at in plan.holes]
    found = [
        Mark("E", plan.station_entry_host),
        *holes,
        Mark("B", plan.station_entry_tail),
        *(Mark(f"T{i}", plan.station_entry_tail + at) for i, at in enumerate(drops, 1)),
        Mark("X", plan.station_tip),
        Mark(TAIL_END, plan.tail_to_lay_out),
        *(
            [Mark("R", plan.station_entry_tail), Mark(DOT, plan.station_h2 + DOT_AWAY * plan.braid.diameter)]
            if plan.lock
            else []
        ),
    ]
    return tuple(sorted(found, key=lambda mark: mark.station))


def strip_drops(plan: Plan) -> Sequence[float]:
    """Where strands are dropped, from the bury mark, mm; none without a taper."""
    return plan.taper.drops if plan.taper.stagger > 0 else ()


def tiles(plan: Plan) -> tuple[Tile, ...]:
    """The strip cut into tiles; every mark lies on exactly one."""
    marks = strip_marks(plan)
    inches = is_imperial(plan.job.length_unit)
    step, most = INCH_MM if inches else 10.0, TILE_MM[inches]
    start = math.floor((marks[0].station - BEFORE) / step) * step
    end = math.ceil((marks[-1].station + BEFORE) / step) * step
    count = math.ceil((end - start) / most - 1e-9)
    edges = [start + i * most for i in range(count)] + [end]
    return tuple(
        Tile(i + 1, a, b, tuple(m for m in marks if a <= m.station < b)) for i, (a, b) in enumerate(pairwise(edges))
    )


def tile_drawing(tile: Tile, count: int, plan: Plan) -> Drawing:
    """One tile: the tape with its divisions, the marks with their letters, joining marks and the pasting tab."""
    placed = _levels(tile, plan)
    top = LEVEL * (1 + max((one.level for one in placed), default=0)) + 1
    length = tile.last - tile.first
    strokes, labels = _tape(tile, plan, top)
    shapes: list[Polygon] = [box(0, top, length, BAND)]
    for one in placed:
        y = top - LEVEL * (one.level + 0.5)
        strokes.append(Stroke((one.x, y - LEVEL / 2), (one.x, top + BAND), BOLD))
        beside = one.x - 0.9 if one.left else one.x + 0.9
        labels.append(Word((beside, y), one.text, 7.0, "right" if one.left else "left", True))
    strokes, labels = strokes + _joints(tile, count, top, length), labels + _joint_words(tile, count, top, length)
    named = ", ".join(mark.letter for mark in tile.marks) or "no mark"
    alt = f"Tile {tile.number} of {count} of the mark strip at true size, with {named}."
    return Drawing((BAR_MM + TAB, top + BAND + 4), alt, tuple(strokes), tuple(shapes), (), tuple(labels))


@dataclass(frozen=True)
class _Set:
    """A mark's label on its tile: its words, the mark's place, mm, its row, and whether it stands to the left."""

    text: str
    x: float
    level: int
    left: bool


def _levels(tile: Tile, plan: Plan) -> list[_Set]:
    """The tile's labels, from right to left: each above those whose lines it would cross."""
    found: list[_Set] = []
    for mark in reversed(tile.marks):
        text, x = mark_label(mark, plan), mark.station - tile.first
        wide = _wide(mark, plan)
        free = all(
            mark.station - wide > other.station + _wide(other, plan)
            for other in tile.marks
            if other.station < mark.station
        )
        left = free and x + wide > tile.last - tile.first and x > wide
        crossed = [other.level for other in found if not left and other.x < x + wide]
        found.append(_Set(text, x, 1 + max(crossed, default=-1), left))
    return found


def _wide(mark: Mark, plan: Plan) -> float:
    """Room for a mark's label, mm."""
    return Word((0, 0), mark_label(mark, plan)).reach + 2.0


def mark_label(mark: Mark, plan: Plan) -> str:
    """A mark's letter, and its station on the strip's own tape to the division, or from B as the sheet has it."""
    if mark.letter == "R":
        return "R = B"
    drops = {f"T{number}": f"taper_drop_{number}" for number in range(1, len(strip_drops(plan)) + 1)}
    name = {"X": "tail_cut", **drops}.get(mark.letter)
    if name is not None:
        from_bury = next(one for one in marks(plan) if one.name == name)
        return f"{mark.letter} B + {shown(from_bury, plan)}"
    return mark.letter if abs(mark.station) < 1e-9 else f"{mark.letter} {_station_shown(mark, plan)}"


def _station_shown(mark: Mark, plan: Plan) -> str:
    """A mark's station as the sheet's figures add up to it, from H1 (or E, where there is no lock)."""
    at = {figure.name: figure for figure in marks(plan)}
    total = next(f for f in lengths(plan) if f.name == "tail_to_lay_out")
    parts: Mapping[str, Parts] = {
        "E": ((-1, at["entry"]),),
        "B": ((1, at["bury_mark"]),),
        TAIL_END: ((1, total),),
        **({"H2": ((1, at["H2"]),), DOT: ((1, at["H2"]), (1, _dot_away(plan)))} if plan.lock else {}),
    }
    return shown(Figure("", "", mark.station, "", "", "", parts=parts[mark.letter]), plan)


def _dot_away(plan: Plan) -> Figure:
    """How far beyond H2 its dot is."""
    return Figure("", "", DOT_AWAY * plan.braid.diameter, "", "", "")


def _tape(tile: Tile, plan: Plan, top: float) -> tuple[list[Stroke], list[Word]]:
    """Divisions of the user's tape, counted from H1 (or E, where there is no lock)."""
    inches = is_imperial(plan.job.length_unit)
    division = max(plan.job.tools.tape_division_mm, INCH_MM / 32 if inches else 0.5)
    unit = INCH_MM if inches else 10.0
    per = round(unit / division)
    strokes, labels = [], []
    if abs(per * division - unit) > 1e-6 * unit:
        division, per = unit / 10, 10
    for k in range(math.ceil(tile.first / division - 1e-6), math.floor(tile.last / division + 1e-6) + 1):
        x = k * division - tile.first
        strokes.append(Stroke((x, top + BAND), (x, top + BAND - _tick(k, per)), THIN))
        room = 1.0 < x < tile.last - tile.first - 1.0
        if k % per == 0 and room and not any(abs(x + tile.first - m.station) < 2.6 for m in tile.marks):
            labels.append(Word((x, top + 2.2), f"{round(k * division / (INCH_MM if inches else 1))}", 7.0, "centre"))
    return strokes, labels


def _tick(k: int, per: int) -> float:
    """Length of a division's tick, mm: whole units the longest, then halves, quarters, and so on."""
    if k % per == 0:
        return 6.0
    for parts, high in ((2, 4.5), (4, 3.6), (8, 2.8)):
        if per % parts == 0 and k % (per // parts) == 0:
            return high
    return 2.2


def _joints(tile: Tile, count: int, top: float, length: float) -> list[Stroke]:
    """Joining lines at a tile's ends, running beyond the tape, and the tab the next tile is pasted on."""
    found = []
    for x, there in ((0.0, tile.number > 1), (length, tile.number < count)):
        if there:
            found.append(Stroke((x, top - 1.5), (x, top + BAND + 2.5), FINE))
            found.append(Stroke((x - 1.5, top + BAND + 2.5), (x + 1.5, top + BAND + 2.5), FINE))
    if tile.number < count:
        corner = [
            (length, top + 0.8),
            (length + TAB, top + 2),
            (length + TAB, top + BAND - 2),
            (length, top + BAND - 0.8),
        ]
        found += [Stroke(a, b, THIN, 1.0) for a, b in pairwise(corner)]
    return found


def _joint_words(tile: Tile, count: int, top: float, length: float) -> list[Word]:
    low = top + BAND + 2.6
    middle = length / 2 if length > SHORT else length + 12.0
    words = [Word((middle, low), f"tile {tile.number} of {count}", 7.0, "centre")]
    if tile.number > 1:
        words.append(Word((2.2, low), f"join {tile.number - 1}-{tile.number}"))
    if tile.number < count:
        words.append(Word((length - 2.2, low), f"join {tile.number}-{tile.number + 1}", 7.0, "right"))
        words.append(Word((length + TAB / 2, top + BAND / 2), "paste", 7.0, "centre"))
    return words


def bar() -> Drawing:
    """The bar of 200 mm between the outer edges' middles, to hold a steel rule against."""
    high = 6.0
    ends = [Stroke((x, 0.5), (x, high - 0.5), FINE) for x in (0.0, BAR_MM)]
    line = Stroke((0.0, high / 2), (BAR_MM, high / 2), FINE)
    words = Word((BAR_MM / 2, high / 2 + 2.6), "200 mm (7.874 in): hold a steel rule against this bar", 7.0, "centre")
    return Drawing((BAR_MM, high + 2), "Bar of 200 mm to check the print with a steel rule.", (line, *ends), (), (),
                   (words,))  # fmt: skip


def strip_pages(plan: Plan, room: tuple[float, float]) -> tuple[Drawing, ...]:
    """The whole strip in rows of tiles on pages with `room` (width, height) mm, each with its bar to check."""
    cut = tiles(plan)
    rows = [tile_drawing(tile, len(cut), plan) for tile in cut]
    high = max(row.size[1] for row in rows) + GAP
    most = max(int((room[1] - bar().size[1] - GAP) / high), 1)
    each = math.ceil(len(rows) / math.ceil(len(rows) / most))
    return tuple(_page(rows[i : i + each], room) for i in range(0, len(rows), each))


def _page(rows: Sequence[Drawing], room: tuple[float, float]) -> Drawing:
    x, y = (room[0] - BAR_MM - TAB) / 2, bar().size[1] + GAP
    placed = [((x, 0.0), bar())]
    for row in rows:
        placed.append(((x, y), row))
        y += row.size[1] + GAP
    alt = " ".join(["Mark strip at true size.", bar().alt, *(row.alt for row in rows)])
    return merged((room[0], min(y, room[1])), alt, placed)
