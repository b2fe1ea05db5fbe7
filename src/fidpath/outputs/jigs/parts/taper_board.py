"""Taper board: bury mark, the taper's drops and the cut at true length, in segments that fit the printer's bed.

The tail lies along its upper edge, where a notch for a pen stands at each mark, by its letter (B the bury mark, T1 the
first drop, X the cut). Along its lower edge run ticks, each number over its own. The board runs on beyond B and X, so
that no mark stands on an end. The segments' shoulders butt: they are the length's datum. Joints lie between ticks.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.outputs.jigs.lettering import EngravedText, block, block_height, width, wrapped
from fidpath.outputs.jigs.parts import joint
from fidpath.outputs.jigs.paths import rounded
from fidpath.outputs.jigs.pieces import Jig, JigPiece, Size
from fidpath.outputs.jigs.plates import piece_of, plate
from fidpath.outputs.jigs.sizes import CHECK, in_inches, with_unit
from fidpath.planning import Plan
from fidpath.units import INCH_MM

Mark = tuple[str, float]

EDGE = 6.0
"""Length of the longest ticks at either edge, mm."""

NOTCH, NOTCH_DEPTH, LIP = 1.6, 2.5, 0.4
"""Width and depth of a notch for a pen's tip, and radius of its mouth, mm."""

GAP = 1.4
"""From a tick's end to the words at it, mm."""

LEADER = 2.5
"""Room for a leader from a mark's tick to its letter, mm."""

BED_EDGE = 5.0
"""Left free at either side of the bed, mm."""

MARGIN = 2.0

COUNTS_MM, COUNTS_IN = (10, 20, 50, 100, 200, 500), (1, 2, 4, 8, 16, 32)
"""Numbers may stand so far apart: millimetres or inches."""


@dataclass(frozen=True)
class BoardScale:
    """The whole board before it is parted, from `start` to `end`; B is at 0. mm.

    `numbers` and `marks` are words with their places; `seconds` are where a drop's second strand goes.
    """

    start: float
    end: float
    bury: float
    tick: float
    numbers: tuple[Mark, ...]
    marks: tuple[Mark, ...]
    seconds: tuple[float, ...]
    joints: tuple[float, ...]

    @property
    def segments(self) -> list[tuple[float, float]]:
        """From where to where each segment runs."""
        ends = (self.start, *self.joints, self.end)
        return list(pairwise(ends))


def scale_of(plan: Plan) -> BoardScale:
    """Ticks, numbers, marks and joints of the plan's board."""
    job, t = plan.job, plan.job.printing.text_height_mm
    bury, drops = plan.bury_length, plan.taper.drops if plan.taper.stagger > 0 else ()
    unit, counts, tick = (INCH_MM, COUNTS_IN, INCH_MM / 4) if in_inches(job) else (1.0, COUNTS_MM, 5.0)
    needed = width(f"{bury / unit:.0f}", t)
    step = next((count for count in counts if count * unit >= needed + 10.0), counts[-1])
    numbers = tuple((f"{n * step}", n * step * unit) for n in range(int(bury / (step * unit) + 1e-9) + 1))
    marks = (("B", 0.0), *((f"T{n}", at) for n, at in enumerate(drops, 1)), ("X", bury))
    between = (bury - drops[0]) / len(drops) if drops else 0.0
    seconds = tuple(at + plan.taper.stagger for at in drops) if between > 2 * plan.taper.stagger + 2 else ()
    wide = [(at - width(words, t) / 2 - MARGIN, at + width(words, t) / 2 + MARGIN) for words, at in numbers]
    wide += [(at - NOTCH, at + NOTCH) for at in (0.0, *drops, *seconds, bury)]
    start, end = -(needed / 2 + 2 * MARGIN), max(bury + needed / 2 + 2 * MARGIN, 16 * t)
    most = max(job.printing.bed_mm[:2]) - 2 * BED_EDGE - joint.REACH
    return BoardScale(start, end, bury, tick, numbers, marks, seconds, _joints((start, end), most, tick, wide))


def _joints(
    ends: tuple[float, float], most: float, tick: float, taken: Sequence[tuple[float, float]]
) -> tuple[float, ...]:
    """Where to part the board: midway between ticks, clear of what is taken, in as few segments of `most` mm as do."""
    start, end = ends
    count = int(np.ceil((end - start) / most))
    while True:
        places = (start + (end - start) * number / count for number in range(1, count))
        joints = tuple(_joint_near(place, tick, taken) for place in places)
        if max(np.diff([start, *joints, end])) <= most:
            return joints
        count += 1


def _joint_near(place: float, tick: float, taken: Sequence[tuple[float, float]]) -> float:
    """The nearest place midway between ticks that nothing else takes, or the nearest of all."""
    nearest = round(place / tick - 0.5)
    places = [(nearest + away + 0.5) * tick for away in (0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5)]
    return next((x for x in places if not any(low < x < high for low, high in taken)), places[0])


def taper_board(plan: Plan) -> Jig:
    """The board in segments. Raises CannotBeMade where the bed is too small for words on a segment."""
    scale = scale_of(plan)
    count, said = len(scale.segments), []
    title = f"BURY {with_unit(scale.bury, plan.job)}"
    for number, (start, end) in enumerate(scale.segments):
        part = f"{number + 1} OF {count}. " if count > 1 else ""
        said.append(_title(plan, f"{part}{title}{f'. {CHECK}' if number == 0 else ''}", end - start, number > 0))
    lines = max(len(words) for words in said)
    pieces = tuple(_segment(plan, scale, number, said[number], lines) for number in range(count))
    use = (
        "Lay the tail straight along the notched edge under its reference tension, the bury mark at B. Mark it through "
        "the notches: drop one strand of each hand at each T, the second at the short tick, and cut at X.",
        "Push the shoulders together: they are the datum of its length. Check the whole with a steel tape.",
    )
    return Jig("taper-board", "Taper board", use, pieces)


def _title(plan: Plan, words: str, length: float, pocket: bool) -> list[str]:
    """A segment's own words in lines that fit between its joints."""
    t = plan.job.printing.text_height_mm
    room = length - _taken_by_joint(pocket) - 2 * MARGIN
    lines = wrapped(words, t, room)
    if max(width(line, t) for line in lines) > room:
        raise CannotBeMade(
            "a segment of the taper board has no room for its words", "Use a larger bed", key="print.bed"
        )
    return lines


def _taken_by_joint(pocket: bool) -> float:
    return joint.REACH + joint.END_ROOM + MARGIN if pocket else MARGIN


def _segment(plan: Plan, scale: BoardScale, number: int, title: list[str], lines: int) -> JigPiece:
    """One segment, its own left shoulder at x = 0."""
    t, (start, end) = plan.job.printing.text_height_mm, scale.segments[number]
    side = EDGE + GAP + t
    band = max(joint.HEAD + 2 * GAP, block_height(lines, t) + 2 * GAP)
    high = 2 * side + LEADER + band
    middle, first, last = side + band / 2, number == 0, number == len(scale.segments) - 1
    length, printing = end - start, plan.job.printing
    x = (length + _taken_by_joint(not first) - MARGIN) / 2
    texts = block(title, x, middle + block_height(len(title), t) / 2, t) + _numbers(scale, start, end, t)
    letters, leaders = _letters(scale, start, end, high, t)
    here = [(words, at - start) for words, at in scale.marks if start < at < end]
    corners = [(0.0, 0.0, 0.5), (length, 0.0, 0.5)]
    corners += [] if last else joint.tongue(length, middle, printing.clearance_mm)
    notches = _notches([at for _, at in here], high, NOTCH + printing.slot_shrink_mm)
    corners += [(length, high, 0.5), *notches, (0.0, high, 0.5)]
    corners += [] if first else joint.pocket(0.0, middle)
    strokes = _ticks(scale, start, end) + leaders
    flat = plate(rounded(corners), printing.plate_mm, printing.nozzle_mm, texts + letters, strokes)
    name = f"taper-board-{number + 1}" if len(scale.segments) > 1 else "taper-board"
    asked = (Size("shoulder to shoulder", length), *(Size(f"left shoulder to {words}", at) for words, at in here))
    return piece_of(name, flat, asked)


def _notches(places: list[float], high: float, across: float) -> list[joint.Corner]:
    """Corners of round-bottomed notches in the upper edge, from right to left; those that would meet have one."""
    corners: list[joint.Corner] = []
    last = np.inf
    for x in reversed(places):
        if last - x > 2 * across:
            half, foot = across / 2, high - NOTCH_DEPTH
            corners += [(x + half, high, LIP), (x + half, foot, half), (x - half, foot, half), (x - half, high, LIP)]
            last = x
    return corners


def _within(start: float, end: float, at: float) -> bool:
    """Whether a tick belongs on the segment; none stands on an end, which is its own mark."""
    return start + 1e-6 < at < end - 1e-6


def _ticks(scale: BoardScale, start: float, end: float) -> list[Floats]:
    """The lower edge's ticks: every second one longer, those with a number the longest."""
    counted = {round(at / scale.tick) for _, at in scale.numbers}
    found = []
    for n in range(int(scale.bury / scale.tick + 1e-9) + 1):
        at = n * scale.tick
        if _within(start, end, at) and at < scale.bury - 0.5:
            reach = EDGE if n in counted else 0.7 * EDGE if n % 2 == 0 else 0.45 * EDGE
            found.append(np.array([[at - start, 0.0], [at - start, reach]]))
    return found


def _numbers(scale: BoardScale, start: float, end: float, t: float) -> list[EngravedText]:
    """The numbers of one segment, each over its own tick; one that has no room there is left out."""
    half = {words: width(words, t) / 2 + MARGIN for words, _ in scale.numbers}
    here = [(words, at) for words, at in scale.numbers if start + half[words] <= at <= end - half[words]]
    return [EngravedText(words, at - start, EDGE + GAP, t) for words, at in here]


def _letters(
    scale: BoardScale, start: float, end: float, high: float, t: float
) -> tuple[list[EngravedText], list[Floats]]:
    """The upper edge's marks of one segment: ticks, and letters spread so that each has room, led to its tick."""
    here = [(words, at - start) for words, at in scale.marks if start - 1e-6 <= at <= end + 1e-6]
    lines = [np.array([[at, high], [at, high - EDGE]]) for _, at in here if _within(0.0, end - start, at)]
    seconds = [at - start for at in scale.seconds if _within(start, end, at)]
    lines += [np.array([[at, high], [at, high - 0.5 * EDGE]]) for at in seconds]
    foot = high - EDGE - LEADER - GAP - t
    texts = []
    for words, at, x in _spread(here, end - start, t):
        texts.append(EngravedText(words, x, foot, t))
        if _within(0.0, end - start, at):
            lines.append(np.array([[at, high - EDGE], [x, high - EDGE - LEADER]]))
    return texts, lines


def _spread(marks: list[Mark], length: float, t: float) -> list[tuple[str, float, float]]:
    """Marks with the places of their letters, moved apart where they would touch; every second one if it must be."""
    for step in range(1, len(marks) + 1):
        chosen = marks[::step] if step == 1 else [*marks[:-1:step], marks[-1]]
        half = np.array([width(words, t) / 2 + 0.3 * t for words, _ in chosen])
        place = np.array([at for _, at in chosen])
        for i in range(len(place)):
            place[i] = max(place[i], place[i - 1] + half[i - 1] + half[i] if i else half[0] + MARGIN / 2)
        for i in range(len(place) - 1, -1, -1):
            most = place[i + 1] - half[i + 1] - half[i] if i + 1 < len(place) else length - half[i] - MARGIN / 2
            place[i] = min(place[i], most)
        if place[0] >= half[0] + MARGIN / 2 - 1e-9:
            return [(words, at, float(x)) for (words, at), x in zip(chosen, place, strict=True)]
    return []
