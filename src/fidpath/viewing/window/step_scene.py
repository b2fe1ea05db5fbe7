"""What the desktop window shows of a step, as plain data: stretches of rope, bodies beside it, words, a camera."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fidpath.arrays import Floats
from fidpath.meshing.meshes import Cut, Mesh, cut, joined, part_strands, section_range, strand_mesh
from fidpath.methods.method import Method, Step, WrongWay, worded, worded_way
from fidpath.planning.plan import Plan
from fidpath.scene.captions import Sight, sights
from fidpath.scene.paint import Model, chips, face_rings, is_open, model_of, rope_colours
from fidpath.scene.panels import camera_of
from fidpath.scene.scene import PALETTE, Camera, Chip, Label, Solid
from fidpath.scene.stage import Stage, equipped, staged
from fidpath.scene.tools import arrow
from fidpath.settling.settled_states import SettledState

SIZE = (1280, 860)
"""Pixels of the window as it opens."""

ROOM = (934, 860)
"""Of these, what the splice has; the words have the rest."""

RAYS, REFINE = 14, 1
"""Sections of strands in the window: coarser than in pictures, to turn smoothly."""

PALER = 0.45
"""Paper mixed into the colour of cut faces."""


@dataclass(frozen=True)
class Entry:
    """One thing to look at: a step's state, or a mistake made at a step; `place` is its step's place in the slider."""

    kind: str
    place: int
    number: str
    title: str
    words: tuple[str, ...]
    step: Step | None = None
    way: WrongWay | None = None


@dataclass(frozen=True)
class Piece:
    """A stretch of rope between two of its stations, mm."""

    name: str
    start: float
    end: float


@dataclass(frozen=True)
class View:
    """An entry's settled state, its rope in pieces, and the cameras it is first seen by."""

    kind: str
    stage: Stage
    pieces: tuple[Piece, ...]
    cameras: tuple[Camera, ...]

    @property
    def labels(self) -> tuple[Label, ...]:
        """Lettered marks and names."""
        return self.stage.labels

    @property
    def numbers(self) -> tuple[tuple[Chip, ...], ...]:
        """Numbers on the strands of both groups, hole by hole, at places whose groups are shown."""
        return tuple(chips(self.model, opening) for opening in self.stage.toned)

    @property
    def model(self) -> Model:
        """The settled rope."""
        return self.stage.model


def entries(plan: Plan, method: Method) -> tuple[Entry, ...]:
    """All of a method's steps in order, then its mistakes."""
    numbers = [step.number for step in method.steps]
    found = []
    for place, step in enumerate(worded(step, plan) for step in method.steps):
        title = f"Step {method.numbered(place)} of {max(numbers)}: {step.caption}"
        words = (*step.instructions, f"Check: {step.check}", *([f"Take care: {step.caution}"] if step.caution else []))
        found.append(Entry(step.state, place, method.numbered(place), title, words, step=step))
    for way in (worded_way(way, plan) for way in method.wrong_ways):
        title = f"Wrong at step {way.at_step}: {way.title}"
        words = (*way.signs, *([way.how_far_off] if way.how_far_off else []), "The way back:", *way.way_back)
        found.append(Entry(way.name, numbers.index(way.at_step), str(way.at_step), title, words, way=way))
    return tuple(found)


def view_of(entry: Entry, made: SettledState, before: SettledState | None) -> View:
    """An entry's state ready to be drawn; `before` is the state of the step before it."""
    if entry.step is not None:
        seen = model_of(before) if before is not None else None
        step = entry.step
        worked = {step.moves, step.start or "", step.goal or ""}
        stage = equipped(staged(made, seen, made.plan, step.marks, step.turns, worked), step)
        seen_by = sights(step, stage.inked)
    else:
        assert entry.way is not None
        stage = staged(made, None, made.plan, made.plan.letters, True)
        seen_by = tuple(Sight(view.look, view.direction, view.up) for view in entry.way.views)
    cameras = tuple(camera_of(stage, sight, (0, 0, *ROOM)) for sight in seen_by)
    return View(entry.kind, stage, _pieces(stage), cameras)


def props(view: View) -> tuple[Solid, ...]:
    """Terminator, tools, rings at the faces of opened places, and the arrow for what moves."""
    stage, model = view.stage, view.model
    opened = [opening for opening in stage.toned if is_open(model, opening)]
    found = [*stage.props, *(ring for opening in opened for ring in face_rings(model, opening))]
    if stage.way is not None:
        found.append(Solid("arrow", arrow(stage.way, 0.2 * model.d), PALETTE.arrow, gloss=0.0, flat=True))
    return tuple(found)


def _pieces(stage: Stage) -> tuple[Piece, ...]:
    """The rope's stretches that the state has."""
    model = stage.model
    state = model.state
    ends = [start for _, start in state.stretches[1:]] + [float("inf")]
    spans = zip(state.stretches, ends, strict=True)
    found = (Piece(name, max(start, state.first), min(end, state.last)) for (name, start), end in spans)
    return tuple(piece for piece in found if piece.end > piece.start)


def drawn(view: View, piece: Piece) -> Solid:
    """A stretch as a solid."""
    return _painted(view, piece.name, part_strands(view.model.sections, piece.start, piece.end, weld=False), 0.0)


def halves(view: View, piece: Piece, keep: Cut) -> tuple[Solid, Solid]:
    """What `keep` leaves of a stretch, and its cut faces; only where the plane goes through a strand is it cut."""
    sections = view.model.sections
    bodies, faces = [], []
    for k in range(len(sections.count)):
        first, last = section_range(sections, k, piece.start, piece.end)
        for start, end, side in _runs(sections.rings[k, first : last + 1], keep) if last > first else ():
            if side > 0:
                bodies.append(strand_mesh(sections, k, first + start, first + end, weld=False))
            elif side == 0:
                body, face = cut(strand_mesh(sections, k, first + start, first + end), keep)
                bodies.append(body)
                faces.append(face)
    return _painted(view, piece.name, bodies, 0.0), _painted(view, f"{piece.name}, cut", faces, PALER)


def _runs(rings: Floats, keep: Cut) -> list[tuple[int, int, int]]:
    """Runs of a strand's rings `(n, rays, 3)`, first and last, that a cut keeps (1), goes through (0), drops (-1)."""
    away = rings @ np.asarray(keep.normal) - keep.offset
    side = (away.min(axis=1) > 0).astype(int) - (away.max(axis=1) < 0)
    between = np.where(side[1:] == side[:-1], side[1:], 0)
    edges = [0, *(np.flatnonzero(np.diff(between)) + 1).tolist(), len(between)]
    return [(start, end, int(between[start])) for start, end in itertools.pairwise(edges)]


def _painted(view: View, name: str, meshes: Sequence[Mesh], paler: float) -> Solid:
    """Strand meshes as one solid in the step's colours."""
    mesh = joined(mesh for mesh in meshes if len(mesh.faces))
    if not len(mesh.faces):
        return Solid(name, mesh, (0, 0, 0))
    stage = view.stage
    colours = rope_colours(view.model, mesh, stage.toned, stage.inked, stage.dots)
    if paler:
        colours = np.asarray((colours + paler * (255.0 - colours)).round(), dtype=np.uint8)
    return Solid(name, mesh, colours, flat=paler > 0)


def plane(view: View, way: str, share: float) -> Cut:
    """What a cut keeps: below a level plane, or on the captive side of one across the rope's heading.

    `share` 0 to 1 moves the plane through the state; a level plane, through a rope's thickness either side of z = 0.
    """
    d = view.model.d
    if way == "level":
        return Cut((0.0, 0.0, -1.0), -(2 * share - 1) * 1.2 * d)
    heading = view.model.state.heading
    ahead = np.array([np.cos(heading), np.sin(heading), 0.0])
    places = view.model.line @ ahead
    low, high = float(places.min()), float(places.max())
    return Cut((-float(ahead[0]), -float(ahead[1]), 0.0), -(low + share * (high - low)))
