"""What the desktop window shows of a step, as plain data: stretches of rope, bodies beside it, words, a camera."""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum, auto

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Part, RopePart
from fidpath.meshing import Cut, Mesh, cut, part_strands, section_range, strand_mesh
from fidpath.methods import Method, Mistake, Step, worded, worded_mistake
from fidpath.planning import Plan
from fidpath.scene import (
    Camera,
    Chip,
    Label,
    Model,
    Sight,
    Solid,
    Stage,
    arrow,
    camera_of,
    chips,
    equipped,
    lines_of,
    rope_solid,
    sights,
    staged,
)
from fidpath.settling import SettledState

SIZE = (1280, 860)
"""Pixels of the window as it opens."""

ROOM = (934, 860)
"""Of these, what the splice has; the words have the rest."""

RAYS, REFINE = 14, 1
"""Sections of strands in the window: coarser than in pictures, to turn smoothly."""


class Layer(Enum):
    """What can be left out by one key, in the order of the keys 1 to 7."""

    STANDING_PART = auto()
    EYE = auto()
    BETWEEN_THE_HOLES = auto()
    TAIL = auto()
    TERMINATOR = auto()
    TOOLS = auto()
    MARKS = auto()


LAYERS: Mapping[Part, Layer] = {
    Part.STANDING_PART: Layer.STANDING_PART,
    Part.EYE: Layer.EYE,
    Part.BETWEEN_THE_HOLES: Layer.BETWEEN_THE_HOLES,
    Part.TAIL: Layer.TAIL,
    Part.TERMINATOR: Layer.TERMINATOR,
    Part.TERMINATOR_ASIDE: Layer.TERMINATOR,
}
"""The layer of each part; all others are tools."""


@dataclass(frozen=True)
class WindowEntry:
    """One thing to look at: a step's state, or a mistake made at a step; `place` is its step's place in the slider."""

    kind: str
    place: int
    number: str
    title: str
    words: tuple[str, ...]
    step: Step | None = None
    mistake: Mistake | None = None


@dataclass(frozen=True)
class WindowView:
    """An entry's settled state, the parts of its rope, and the cameras it is first seen by."""

    kind: str
    stage: Stage
    parts: tuple[RopePart, ...]
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


def entries(plan: Plan, method: Method) -> tuple[WindowEntry, ...]:
    """All of a method's steps in order, then its mistakes."""
    numbers = [step.number for step in method.steps]
    found = []
    for place, step in enumerate(worded(step, plan) for step in method.steps):
        title = f"Step {method.numbered(place)} of {max(numbers)}: {step.caption}"
        words = (*step.instructions, f"Check: {step.check}", *([f"Take care: {step.caution}"] if step.caution else []))
        found.append(WindowEntry(step.state, place, method.numbered(place), title, words, step=step))
    for mistake in (worded_mistake(one, plan) for one in method.mistakes):
        number = mistake.step_number
        title = f"Wrong at step {number}: {mistake.title}"
        off = [mistake.how_far_off] if mistake.how_far_off else []
        words = (*mistake.signs, *off, "Remedy:", *mistake.remedy)
        found.append(WindowEntry(mistake.name, numbers.index(number), str(number), title, words, mistake=mistake))
    return tuple(found)


def view_of(entry: WindowEntry, made: SettledState, before: SettledState | None) -> WindowView:
    """An entry's state ready to be drawn; `before` is the state of the step before it."""
    if entry.step is not None:
        seen = lines_of(before) if before is not None else None
        step = entry.step
        worked = {step.moves, step.start or "", step.goal or ""}
        stage = equipped(staged(made, seen, made.plan, step.marks, step.turns, worked), step)
        every = sights(step, stage.inked, made.state.mirrored)
        seen_by = tuple(sight for sight in every if sight.state in ("", step.state))
    else:
        assert entry.mistake is not None
        stage = staged(made, None, made.plan, made.plan.opened, True)
        seen_by = tuple(Sight(view.look, view.direction, view.up) for view in entry.mistake.views if not view.state)
    cameras = tuple(camera_of(stage, sight, (0, 0, *ROOM)) for sight in seen_by)
    return WindowView(entry.kind, stage, _parts(stage), cameras)


def props(view: WindowView) -> tuple[Solid, ...]:
    """Terminator, tools, and the arrow for what moves."""
    stage, model = view.stage, view.model
    found = [*stage.props]
    if stage.way is not None:
        found.append(Solid(arrow(stage.way, 0.2 * model.d), Part.ARROW))
    return tuple(found)


def _parts(stage: Stage) -> tuple[RopePart, ...]:
    """The rope's parts that the state has."""
    model = stage.model
    state = model.state
    ends = [start for _, start in state.stretches[1:]] + [float("inf")]
    spans = zip(state.stretches, ends, strict=True)
    found = (RopePart(part, max(start, state.first), min(end, state.last)) for (part, start), end in spans)
    return tuple(part for part in found if part.end > part.start)


def drawn(view: WindowView, part: RopePart) -> Solid:
    """A part of the rope as a solid."""
    return _painted(view, part_strands(view.model.sections, part.start, part.end, weld=False))


def halves(view: WindowView, part: RopePart, keep: Cut) -> tuple[Solid, Solid]:
    """What `keep` leaves of a part, and its cut faces; only where the plane goes through a strand is it cut."""
    sections = view.model.sections
    bodies, faces = [], []
    for k in range(len(sections.count)):
        first, last = section_range(sections, k, part.start, part.end)
        for start, end, side in _runs(sections.rings[k, first : last + 1], keep) if last > first else ():
            if side > 0:
                bodies.append(strand_mesh(sections, k, first + start, first + end, weld=False))
            elif side == 0:
                body, face = cut(strand_mesh(sections, k, first + start, first + end), keep)
                bodies.append(body)
                faces.append(face)
    return _painted(view, bodies), _painted(view, faces, cap=True)


def _runs(rings: Floats, keep: Cut) -> list[tuple[int, int, int]]:
    """Runs of a strand's rings `(n, rays, 3)`, first and last, that a cut keeps (1), goes through (0), drops (-1)."""
    away = rings @ np.asarray(keep.normal) - keep.offset
    side = (away.min(axis=1) > 0).astype(int) - (away.max(axis=1) < 0)
    between = np.where(side[1:] == side[:-1], side[1:], 0)
    edges = [0, *(np.flatnonzero(np.diff(between)) + 1).tolist(), len(between)]
    return [(start, end, int(between[start])) for start, end in itertools.pairwise(edges)]


def _painted(view: WindowView, meshes: Sequence[Mesh], cap: bool = False) -> Solid:
    """Strand meshes as one solid, as the step shows them."""
    stage = view.stage
    return rope_solid(view.model, meshes, stage.toned, stage.inked, stage.dots, cap)


def plane(view: WindowView, way: str, share: float) -> Cut:
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
