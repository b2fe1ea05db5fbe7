"""What one working process does for the workshop: settle a state, measure it, draw it, make its solids.

Every process holds the plan and remembers the last few states it settled; nothing is written here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from fidpath.meshes import Mesh
from fidpath.method import Method, worded, worded_way
from fidpath.plan import Plan
from fidpath.states import INVARIANTS
from fidpath.steps import Made, laid, made
from fidpath.strands import Strands
from fidpath.verify import SolverLog
from fidpath.verify.steps import Planned, measure_step

KEPT = 6
"""States a process keeps settled: wrong ways stand beside right ones, ghosts before what follows."""

STEP_RAYS = 10
"""Rays of a section in a step's solids: there are many of them."""

NOT_DRAWN_UP = "free-end-in-h2"
"""Here each leg is through the other, and the lock still open."""


@dataclass(frozen=True)
class Drawn:
    """What came of one state: its report, files by name, and its settled strands."""

    kind: str
    report: Mapping[str, Any]
    files: Mapping[str, bytes]
    strands: Strands


@dataclass(frozen=True)
class _Held:
    plan: Plan
    way: Method | None

    @property
    def method(self) -> Method:
        """The method whose steps are worked on."""
        assert self.way is not None
        return self.way


_held: list[_Held] = []


def hold(plan: Plan, method: Method | None) -> None:
    """Keeps the plan and the method, if steps are wanted, in this process."""
    _held[:] = [_Held(plan, method)]


@lru_cache(maxsize=KEPT)
def _settled(kind: str) -> Made:
    return made(_held[0].plan, kind)


def measured(kind: str) -> dict[str, Any]:
    """The check's report on one state, right or wrong. Raises CannotBeMade where it can't be laid or settled."""
    return _report(_settled(kind))


def _report(one: Made) -> dict[str, Any]:
    log = SolverLog(float(one.settled.log.certificate_min), one.settled.log.settle_seconds)
    planned = planned_for(one.plan if one.kind.startswith("plain-") else _held[0].plan, one.kind)
    return measure_step(one.settled.strands, one.settled.draft.thin, one.sections, log, planned)


def planned_for(its: Plan, kind: str) -> Planned:
    """What a plan asks of a state, for the check."""
    return Planned(
        diameter=its.braid.diameter,
        h1=0.0,
        h2=its.station_h2,
        rope_between_holes=float("inf") if kind == NOT_DRAWN_UP else its.rope_between_holes,
        bury_length=its.bury_length,
        strands_at_tip=its.braid.strands - 2 * its.job.practice.taper_drops,
        locked=its.locked,
        invariants=INVARIANTS.get(kind),
    )


def draw_step(index: int) -> Drawn:
    """The method's step of that index: measured, its picture, its solids."""
    from fidpath import pages, solids
    from fidpath.step_views import step_scene

    plan, method = _held[0].plan, _held[0].method
    step = method.steps[index]
    one = _settled(step.state)
    before = laid(plan, method.steps[index - 1].state) if index else None
    name = file_name(method, index)
    scene = step_scene(worded(step, plan), one, before, one.plan, of=method.steps[-1].number, part=part(method, index))
    files = {f"{name}.png": pages.png(scene, plan.braid.thickness)}
    files |= solids.files(name, plan.job.terminator, one.settled.strands, _tools(one), rays=STEP_RAYS)
    return Drawn(step.state, _report(one), files, one.settled.strands)


def _tools(one: Made) -> dict[str, Mesh]:
    """The bodies of the tools that part the strands, by name."""
    from fidpath.tool_bodies import Placed, tool_parts

    d = one.plan.braid.diameter
    return {
        f"{tool.kind}, {part.name}": part.mesh
        for tool in one.state.tools
        for part in tool_parts(tool.kind, Placed(tool.place, tool.direction, tool.radius, tool.length, d))
    }


def draw_wrong(name: str) -> Drawn:
    """A mistake beside the right way: measured, and its picture."""
    from fidpath import pages
    from fidpath.step_wrong import wrong_scene

    plan, method = _held[0].plan, _held[0].method
    way = method.wrong_way(name)
    wrong, right = _settled(name), _settled(way.beside)
    scene = wrong_scene(worded_way(way, plan), wrong, right, plan)
    return Drawn(name, _report(wrong), {f"{name}.png": pages.png(scene, plan.braid.thickness)}, wrong.settled.strands)


def draw_finished(name: str, strands: Strands) -> bytes:
    """One picture of the finished splice."""
    from fidpath import pages, views
    from fidpath.sections import sections_of

    plan = _held[0].plan
    return pages.png(views.finished_scene(name, plan, strands, sections_of(strands)), plan.braid.thickness)


def part(method: Method, index: int) -> str:
    """The letter of a step's state where the step has several."""
    number = method.steps[index].number
    same = [k for k, step in enumerate(method.steps) if step.number == number]
    return "abcdefgh"[same.index(index)] if len(same) > 1 else ""


def file_name(method: Method, index: int) -> str:
    """A step's file name, without its ending."""
    step = method.steps[index]
    return f"{step.number:02d}{part(method, index)}-{step.state}"
