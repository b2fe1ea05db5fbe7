"""The pictures of the finished splice: the whole, the throat, the entry cut open, the taper's end cut open."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from fidpath.arrays import Floats
from fidpath.cautions import BESIDE_PICTURES
from fidpath.geometry import Part, Strands, smooth_step
from fidpath.meshing import Cut, Mesh, Sections, cut_ways, joined, part_strands, sections_of, terminator_mesh
from fidpath.meshing import middle as rope_middle
from fidpath.methods import fill
from fidpath.planning import Plan
from fidpath.scene.scene import Callout, Camera, Coat, Dimension, Label, Panel, Scene, Solid, tilted
from fidpath.units import INCH_MM, is_imperial, show_length

BURIED = "bury {bury_length} of tail, {bury_along_cover} in the cover"
"""What the bury's dimension says: a squeezed tail is longer than its rope, and the line drawn is as long."""

Box = tuple[int, int, int, int]
Spot = tuple[float, float, float]

LEAN = 24.0
"""Degrees the camera leans over the load line."""

BLEND = 1.6
"""Rope diameters over which one part passes into the next, the eye into its legs: no seam where there is none."""

CLOSE: Box = (0, 70, 1600, 860)
WIDE: Box = (0, 70, 1600, 640)
"""Boxes of the close pictures' one panel; their height follows the rope's."""

FOOT = 70
"""Band for the notes at a picture's foot, pixels."""

KEY_PARTS = (Part.STANDING_PART, Part.EYE, Part.BETWEEN_THE_HOLES, Part.TAIL)


@dataclass(frozen=True)
class _FinishedSplice:
    """What every view draws from."""

    plan: Plan
    strands: Strands
    sections: Sections
    line: Floats

    @property
    def d(self) -> float:
        """Rope diameter, mm."""
        return self.plan.braid.diameter

    def at(self, station: float) -> Spot:
        """Place of the rope's middle at a station."""
        x, y, z = (float(np.interp(station, self.strands.station, self.line[:, c])) for c in range(3))
        return x, y, z

    def length(self, mm: float) -> str:
        """A length in the user's unit: to a caliper's division below five rope diameters, else to the tape's."""
        unit = self.plan.job.length_unit
        fine = INCH_MM / 64 if is_imperial(unit) else 0.1
        return show_length(mm, unit, fine if mm < 5 * self.d else self.plan.job.tools.tape_division_mm)


def finished_scene(name: str, plan: Plan, strands: Strands, sections: Sections) -> Scene:
    """One picture of the finished splice, by its name in FINISHED."""
    line, _ = rope_middle(strands.points, strands.count)
    return FINISHED[name](_FinishedSplice(plan, strands, sections, line))


def rope_coats(strands: Strands, mesh: Mesh) -> tuple[Coat, ...]:
    """What covers the rope's first part at a rope mesh's vertices: its other parts.

    The eye's borders lie within it, as its legs run on from it; others are passed as much before as behind.
    """
    assert mesh.station is not None
    parts = [found for found in strands.parts if found.end > found.start]
    coats = []
    for before, after in pairwise(parts):
        shift = {before.part: 1.0, after.part: 0.0}.get(Part.EYE, 0.5)
        away = (mesh.station - after.start) / (BLEND * strands.braid.diameter)
        coats.append(Coat(after.part, smooth_step(away + shift).astype(np.float32)))
    return tuple(coat for coat in coats if coat.share.any())


def _spans(splice: _FinishedSplice, low: float, high: float) -> list[tuple[float, float]]:
    """Stretches of the rope, as stations, whose middle lies between two planes x = low and x = high."""
    inside = (splice.line[:, 0] >= low) & (splice.line[:, 0] <= high)
    edges = np.flatnonzero(np.diff(np.concatenate([[False], inside, [False]]).astype(int)))
    station = splice.strands.station
    return [(float(station[a]), float(station[b - 1])) for a, b in zip(edges[::2], edges[1::2], strict=True)]


def _rope(splice: _FinishedSplice, low: float, high: float, sections: Sections | None = None) -> list[Mesh]:
    """Strand meshes of all rope between two planes."""
    drawn = splice.sections if sections is None else sections
    return [m for start, end in _spans(splice, low, high) for m in part_strands(drawn, start, end, weld=False)]


def _solid(splice: _FinishedSplice, meshes: list[Mesh], cap: bool = False) -> Solid:
    strands, mesh = splice.strands, joined([m for m in meshes if len(m.faces)])
    first = strands.parts[0].part
    if mesh.strand is None or mesh.station is None:
        return Solid(mesh, first, cap=cap)
    group = mesh.strand + len(strands.count) * (mesh.station > splice.plan.eye_length / 2)
    return Solid(mesh, first, rope_coats(strands, mesh), group, strands.hand[mesh.strand] <= 0, cap)


def _terminator(splice: _FinishedSplice) -> Solid:
    return Solid(terminator_mesh(splice.plan.job.terminator, splice.strands.seat_centre), Part.TERMINATOR)


def _camera(splice: _FinishedSplice, box: Box, middle: float, span: float, lean: float = LEAN) -> Camera:
    """A camera that shows `span` rope diameters along the load line about x = middle."""
    return tilted((middle, 0.0, 0.0), span * splice.d, lean)


def _open(splice: _FinishedSplice, low: float, high: float, edge: float, side: int, fine: bool) -> tuple[Solid, ...]:
    """Rope between two planes with the cover's near half taken off on one side of x = edge (-1: left of it)."""
    inside = (splice.line[:, 0] > low - splice.d) & (splice.line[:, 0] < high + splice.d)
    sections = sections_of(splice.strands, rays=32, refine=4, wanted=inside) if fine else splice.sections
    whole, opened, caps = [], [], []
    away, near = Cut((float(-side), 0.0, 0.0), -side * edge), Cut((float(side), 0.0, 0.0), side * edge)
    for start, end in _spans(splice, low, high):
        meshes = part_strands(sections, start, end, weld=True)
        if start > splice.plan.eye_length / 2:
            whole += meshes
            continue
        for mesh in meshes:
            for body, cap in cut_ways(mesh, (away,), (near, Cut((0.0, 0.0, -1.0), 0.0))):
                opened.append(body)
                caps.append(cap)
    return _solid(splice, whole), _solid(splice, opened), _solid(splice, caps, cap=True)


HOLES = (
    "hole in the standing part,\nthe tail goes through it",
    "hole in the tail, the standing\npart goes through it",
)
"""What each of a lock's holes is, in their order from the eye."""


def _marks(splice: _FinishedSplice, full: bool = True) -> tuple[Label, ...]:
    """The marks at the throat, with words or letters alone."""
    plan = splice.plan
    entry = Label("entry: the tail goes in" if full else "", splice.at(plan.station_entry_tail - 0.4 * splice.d), "E")
    holes = (
        Label(text if full else "", splice.at(at), mark) for (mark, at), text in zip(plan.holes, HOLES, strict=False)
    )
    return (*holes, entry)


def _spacing(splice: _FinishedSplice) -> tuple[Dimension, ...]:
    """The distance of a lock's holes."""
    if splice.plan.lock is None:
        return ()
    first, second = (splice.at(station) for _, station in splice.plan.holes)
    return (Dimension(f"hole spacing {splice.length(splice.plan.eye.zone.spacing)}", second, first, 1),)


def _whole(splice: _FinishedSplice) -> Scene:
    plan, d = splice.plan, splice.d
    tip = splice.at(plan.station_entry_host - plan.cover.host_length)
    entry = splice.at(plan.station_entry_host)
    body = _terminator(splice)
    crown = max(splice.strands.seat_centre[0] + plan.eye.bend_radius + d, float(body.mesh.points[:, 0].max()))
    low, high = tip[0] - 4 * d, crown + 1.5 * d
    strip: Box = (0, 70, 1600, 300)
    rows = {"A": (0, 380, 800, 370), "B": (800, 380, 800, 370), "C": (0, 760, 800, 370), "D": (800, 760, 800, 370)}
    throat, eye = plan.eye.zone.spacing / 2, (crown + plan.eye.zone.spacing) / 2
    coarse = sections_of(splice.strands, rays=12, refine=1)
    span_eye = (crown - plan.eye.zone.spacing) / d + 5
    whole = Panel(
        strip,
        tilted(((low + high) / 2, 0.0, 0.0), high - low, LEAN),
        (_solid(splice, _rope(splice, low, high, coarse)), body),
        "true to scale, end to end",
        labels=(Label("first strands dropped", _taper_start(splice), "T1"),),
        dimensions=(Dimension(fill(BURIED, plan), tip, entry, -1),),
        callouts=tuple(
            Callout(letter, (x, 0.0, 0.0), (span * d, 3.2 * d * (2.4 if letter == "B" else 1)))
            for letter, x, span in (("A", throat, 7.6), ("C", entry[0] - 2 * d, 7.6), ("D", tip[0] + 2 * d, 7.6))
        ),
    )
    return Scene(
        "1-whole-splice",
        f"{plan.job.name}: the finished splice",
        (
            whole,
            _throat_panel(splice, rows["A"], 8.6, full=False),
            Panel(
                rows["B"],
                _camera(splice, rows["B"], eye, max(span_eye, 2.2 * 2 * plan.eye.bend_radius / d)),
                (_solid(splice, _rope(splice, -3 * d, high)), body),
                "the eye",
                "B",
            ),
            _entry_panel(splice, rows["C"], 8.6),
            _taper_panel(splice, rows["D"], 8.6),
        ),
        _key(splice),
        (BESIDE_PICTURES, _numbers(splice)),
    )


def _close_up(name: str, title: str, panel: Panel, splice: _FinishedSplice) -> Scene:
    size = (panel.box[2], panel.box[1] + panel.box[3] + FOOT)
    return Scene(name, title, (panel,), _key(splice), (BESIDE_PICTURES, _numbers(splice)), size)


def _key(splice: _FinishedSplice) -> tuple[Part, ...]:
    """The parts that the key names: those that the splice has."""
    return KEY_PARTS if splice.plan.lock else tuple(part for part in KEY_PARTS if part is not Part.BETWEEN_THE_HOLES)


def _numbers(splice: _FinishedSplice) -> str:
    plan = splice.plan
    return (
        f"throat {np.degrees(plan.throat_angle):.0f} deg; eye {splice.length(plan.eye_length)} of rope; "
        f"{_between(splice)}"
        f"take-up {splice.length(plan.take_up)}; cover {splice.length(plan.swollen_diameter)} across"
    )


def _between(splice: _FinishedSplice) -> str:
    """Rope from a lock's first hole round the eye to its second."""
    lock = splice.plan.lock
    return f"H1 to H2 {lock.picks_h1_to_h2 / 2:g} crossings = {splice.length(lock.station_h2)}; " if lock else ""


def _taper_start(splice: _FinishedSplice) -> Spot:
    plan = splice.plan
    return splice.at(plan.station_entry_tail + plan.taper.start)


def _throat_panel(splice: _FinishedSplice, box: Box, span: float, full: bool) -> Panel:
    plan, d = splice.plan, splice.d
    middle = plan.eye.zone.spacing * 0.35
    reach = span * d / 2 + 2 * d
    return Panel(
        box,
        _camera(splice, box, middle, span),
        (_solid(splice, _rope(splice, middle - reach, middle + reach)), _terminator(splice)),
        "" if full else "the throat",
        "" if full else "A",
        _marks(splice, full),
        _spacing(splice),
    )


def _throat(splice: _FinishedSplice) -> Scene:
    panel = _throat_panel(splice, CLOSE, 10.0, full=True)
    return _close_up("2-throat", f"{splice.plan.job.name}: the throat", panel, splice)


def _entry_panel(splice: _FinishedSplice, box: Box, span: float, full: bool = False) -> Panel:
    plan, d = splice.plan, splice.d
    entry = splice.at(plan.station_entry_host)
    middle = entry[0] - 2.0 * d
    reach = span * d / 2 + 2 * d
    goes_in = splice.at(plan.station_entry_tail - 0.4 * d)
    labels = [Label("entry" if not full else "entry: the tail goes into the standing part", goes_in, "E")]
    inside = splice.at(plan.station_entry_tail + 5.0 * d)
    labels.append(Label("tail inside its cover", inside))
    across = f"cover {splice.length(plan.swollen_diameter)} across"
    labels.append(Label(across, (entry[0] - 4.2 * d, -plan.swollen_diameter / 2, 0.0)))
    return Panel(
        box,
        _camera(splice, box, middle, span, 40.0),
        _open(splice, middle - reach, middle + reach, entry[0] - 1.2 * d, -1, full),
        "" if full else "the entry, its cover cut open",
        "" if full else "C",
        tuple(labels),
    )


def _entry(splice: _FinishedSplice) -> Scene:
    panel = _entry_panel(splice, WIDE, 9.0, full=True)
    return _close_up("3-entry-cut-open", f"{splice.plan.job.name}: the entry, cut open", panel, splice)


def _taper_panel(splice: _FinishedSplice, box: Box, span: float, full: bool = False) -> Panel:
    plan, d = splice.plan, splice.d
    tip = splice.at(plan.station_tip)
    middle = tip[0] + 2.0 * d
    reach = span * d / 2 + 2 * d
    labels = [Label("tail's tip", tip, "X"), *_drop_labels(splice, middle + span * d / 2)]
    return Panel(
        box,
        _camera(splice, box, middle, span, 40.0),
        _open(splice, middle - reach, middle + reach, tip[0] - 1.4 * d, 1, full),
        "" if full else "the taper's end, its cover cut open",
        "" if full else "D",
        tuple(labels),
    )


def _drop_labels(splice: _FinishedSplice, right: float) -> list[Label]:
    """The taper's drops that lie in the picture."""
    plan = splice.plan
    labels = []
    for k, drop in enumerate(plan.taper.drops, start=1):
        place = splice.at(plan.station_entry_tail + drop)
        if place[0] < right - 0.5 * splice.d:
            labels.append(Label("two strands end", place, f"T{k}"))
    return labels


def _taper_end(splice: _FinishedSplice) -> Scene:
    panel = _taper_panel(splice, WIDE, 10.0, full=True)
    return _close_up("4-taper-end-cut-open", f"{splice.plan.job.name}: the taper's end, cut open", panel, splice)


FINISHED: dict[str, Callable[[_FinishedSplice], Scene]] = {
    "1-whole-splice": _whole,
    "2-throat": _throat,
    "3-entry-cut-open": _entry,
    "4-taper-end-cut-open": _taper_end,
}
"""The finished splice's pictures by file name."""
