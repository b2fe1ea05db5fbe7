"""The picture of the splice under load: hand-snug beside loaded; the tail let go with and without friction."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fidpath.cautions import BESIDE_PICTURES
from fidpath.geometry import Part, Strands
from fidpath.meshing import joined, part_strands, sections_of, terminator_mesh
from fidpath.planning import Plan
from fidpath.scene.finished_views import FOOT, KEY_PARTS, LEAN, rope_coats
from fidpath.scene.scene import Panel, Scene, Solid, tilted

LOADED_AREA = (1600, 1320)
"""Size of the picture, pixels."""

ROWS, HIGH, TOP, SPAN = 3, 390, 70, 11.0
"""Rows of two panels, their height and the first one's top in pixels, and rope diameters across the lock's panels."""


@dataclass(frozen=True)
class LoadedView:
    """Strands `(strands, n, 3)` mm cut below the entry, and what is said of them."""

    caption: str
    strands: Strands


def loaded_scene(plan: Plan, snug: LoadedView, loaded: LoadedView, let_go: Sequence[LoadedView], note: str) -> Scene:
    """Lock and entry, then the whole eye, hand-snug at the left and loaded at the right; below, the tail let go.

    let_go: two views, the first with friction, the second without.
    """
    d = plan.braid.diameter
    crown = max(float(snug.strands.points[..., 0].max()), float(loaded.strands.points[..., 0].max())) + d
    low = float(loaded.strands.points[..., 0].min()) + 2 * d
    eye = (low + crown) / 2, crown - low
    lock = (low + SPAN * d / 2, SPAN * d)
    rows = [(lock, (snug, loaded)), (eye, (snug, loaded)), (eye, let_go)]
    panels = tuple(
        _panel(plan, view, place, (column * LOADED_AREA[0] // 2, TOP + row * (HIGH + 10)))
        for row, (place, views) in enumerate(rows)
        for column, view in enumerate(views)
    )
    key = KEY_PARTS if plan.lock else tuple(part for part in KEY_PARTS if part is not Part.BETWEEN_THE_HOLES)
    size = (LOADED_AREA[0], TOP + ROWS * (HIGH + 10) + FOOT)
    return Scene("under-load", f"{plan.job.name}: the splice under load", panels, key, (BESIDE_PICTURES, note), size)


def _panel(plan: Plan, view: LoadedView, place: tuple[float, float], corner: tuple[int, int]) -> Panel:
    middle, span = place
    box = (*corner, LOADED_AREA[0] // 2, HIGH)
    body = Solid(terminator_mesh(plan.job.terminator, view.strands.seat_centre), Part.TERMINATOR)
    return Panel(box, tilted((middle, 0.0, 0.0), span, LEAN), (_rope(plan, view.strands), body), view.caption)


def _rope(plan: Plan, strands: Strands) -> Solid:
    sections = sections_of(strands, rays=16, refine=2)
    low, high = float(strands.station[0]), float(strands.station[-1])
    mesh = joined([part for part in part_strands(sections, low, high, weld=False) if len(part.faces)])
    assert mesh.strand is not None and mesh.station is not None
    group = mesh.strand + len(strands.count) * (mesh.station > plan.eye_length / 2)
    first = strands.parts[0].part
    return Solid(mesh, first, rope_coats(strands, mesh), np.asarray(group), strands.hand[mesh.strand] <= 0)
