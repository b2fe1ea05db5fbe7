"""A settled splice as the check is told of it, and strands to break on purpose."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fidpath.checking import SolverLog, measure
from fidpath.geometry.braid import Braid, braid_of, straight
from fidpath.geometry.strands import LaidRope, Strands, of_one_rope
from fidpath.meshing.sections import Sections
from fidpath.planning.plan import Plan
from fidpath.states.draft import Draft
from jobs import a_job

Floats = NDArray[np.float64]
LOG = SolverLog(certificate_min=0.5, settle_seconds=1.0)


@dataclass(frozen=True)
class Case:
    """One settled splice, and what the check is told of it."""

    plan: Plan
    draft: Draft
    strands: Strands
    sections: Sections

    def report(self, strands: Strands | None = None, **changed: Any) -> dict[str, Any]:
        told = {
            "before": self.draft.thin,
            "sections": self.sections,
            "log": LOG,
            "planned_take_up": self.plan.take_up,
            "planned_throat": self.plan.throat_angle,
            "letters": ("H1", "H2"),
            **changed,
        }
        return measure(strands or self.strands, **told)

    def failed(self, strands: Strands | None = None, **changed: Any) -> dict[str, dict[str, Any]]:
        return {failure["check"]: failure for failure in self.report(strands, **changed)["failures"]}


def bump(station: Floats, at: float, width: float) -> Floats:
    """1 at `at`, falling to 0 smoothly `width` away, `(n,)`."""
    return np.cos(np.pi / 2 * np.clip((station - at) / width, -1, 1)) ** 2


def moved_strands(strands: Strands, which: Any, step: Floats) -> Strands:
    """The same strands, those picked moved by `step`, `(n, 3)` or `(3,)` mm."""
    points = strands.points.copy()
    points[which] += step
    return replace(strands, points=points)


def strands_of(points: Floats, braid: Braid, spacing: float, **more: Any) -> Strands:
    """Strands as plain data from `(strands, n, 3)`, every strand alive all along."""
    number, n = points.shape[:2]
    blank = np.zeros((n, 3))
    rope = LaidRope(replace(braid, strands=number), np.arange(n) * spacing, blank, blank, np.ones(n))
    return of_one_rope(rope, points, **more)


def plain_rope(diameters: float = 14.0) -> Strands:
    """Plain straight rope of 12 strands, 10 mm, pitch 70 mm."""
    braid = braid_of(a_job().rope)
    station = np.arange(0, diameters * 10.0, 1.25)
    return strands_of(straight(braid, station), braid, 1.25)


def straight_line(n: int = 60) -> Floats:
    return np.column_stack([np.arange(n) * 0.5, np.zeros(n), np.zeros(n)])
