"""What one working process does for the workshop: settle a state, measure it, draw it, make its solids.

Every process holds the plan and remembers the last few states it settled. All of them go onto a shelf, a folder of
temporary files, since others may need them as well; nothing else is written here.
"""

from __future__ import annotations

import os
import pickle
import shutil
import threading
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from multiprocessing import parent_process
from multiprocessing.process import BaseProcess
from pathlib import Path
from typing import Any

from fidpath.building.settled_splice import found
from fidpath.checking import SolverLog
from fidpath.checking.step_report import Planned, measure_step
from fidpath.meshing.meshes import Mesh
from fidpath.methods.method import Method, worded, worded_way
from fidpath.planning.plan import Plan
from fidpath.scene.scene import Scene
from fidpath.settling.settled_states import SettledState, laid_state, settled_state
from fidpath.states.kinds import FINISHED, kind_of
from fidpath.units import is_imperial

KEPT = 6
"""States a process keeps settled: wrong ways stand beside right ones, ghosts before what follows."""

STEP_RAYS = 10
"""Rays of a section in a step's solids: there are many of them."""

WHOLE = "1-whole-splice"
"""The picture of the finished splice that the handout shows."""


@dataclass(frozen=True)
class Drawn:
    """What came of one piece of work: files by their paths in the job's folder, and plain data about them."""

    files: Mapping[str, bytes]
    data: Mapping[str, Any]


@dataclass(frozen=True)
class Finish:
    """How pictures are finished: for "screen" or "print", and whether without the paper behind them."""

    look: str = "screen"
    transparent: bool = False


SCREEN = Finish()


@dataclass(frozen=True)
class _Held:
    plan: Plan
    way: Method | None
    finish: Finish
    shelf: Path | None

    @property
    def method(self) -> Method:
        """The method whose steps are worked on."""
        assert self.way is not None
        return self.way


_held: list[_Held] = []


def hold(plan: Plan, method: Method | None, finish: Finish = SCREEN, shelf: Path | None = None) -> None:
    """Keeps the plan and the method, if steps are wanted, in this process, which ends with the one that started it.

    shelf: a folder of one crew's own for settled states, so that each is settled once.
    """
    _held[:] = [_Held(plan, method, finish, shelf)]
    _settled.cache_clear()
    parent = parent_process()
    if parent is not None:
        threading.Thread(target=_end_with, args=(parent, shelf), daemon=True).start()


def _end_with(parent: BaseProcess, shelf: Path | None) -> None:
    """Ends this process where the one that started it was killed: it would wait for work forever."""
    parent.join()
    if shelf is not None:
        shutil.rmtree(shelf, ignore_errors=True)
    os._exit(1)


@lru_cache(maxsize=KEPT)
def _settled(kind: str) -> SettledState:
    """A state, from the shelf where another process has settled it."""
    held = _held[0]
    place = None if held.shelf is None else held.shelf / kind
    if place is not None and place.exists():
        there: SettledState = pickle.loads(place.read_bytes())
        return there
    one = settled_state(held.plan, kind)
    if place is not None:
        _shelve(one, place)
    return one


def _shelve(one: SettledState, place: Path) -> None:
    """Puts a state where others find it; where there is no room for it they settle their own."""
    beside = place.with_name(f"{place.name}.{os.getpid()}")
    try:
        beside.write_bytes(pickle.dumps(one, pickle.HIGHEST_PROTOCOL))
        beside.replace(place)
    except OSError:
        beside.unlink(missing_ok=True)


def measured(kind: str) -> dict[str, Any]:
    """The check's report on one state, right or wrong. Raises CannotBeMade where it can't be laid or settled."""
    return _report(_settled(kind))


def _report(one: SettledState) -> dict[str, Any]:
    log = SolverLog(float(one.settled.log.certificate_min), one.settled.log.settle_seconds)
    planned = planned_for(_held[0].plan, one.kind)
    return measure_step(one.settled.strands, one.settled.draft.thin, one.sections, log, planned)


def planned_for(its: Plan, kind: str) -> Planned:
    """What a plan asks of a state, for the check."""
    known = kind_of(kind)
    return Planned(
        diameter=its.braid.diameter,
        holes=its.holes,
        rope_between_holes=its.rope_between_holes if known.drawn_up else float("inf"),
        bury_length=its.bury_length,
        strands_at_tip=its.braid.strands - 2 * its.job.practice.taper_drops,
        invariants=known.invariants,
    )


def step_state(index: int) -> Drawn:
    """The state of the method's step of that index: measured, its solids, its strands for the page."""
    from fidpath.outputs import page, solids

    plan, method = _held[0].plan, _held[0].method
    one, name = _settled(method.steps[index].state), file_name(method, index)
    bodies = solids.files(name, plan.job.terminator, one.settled.strands, _tools(one), rays=STEP_RAYS)
    data = {
        "report": _report(one),
        "state": {one.kind: page.strands_record(one.settled.strands)},
        "aim": page.aim_record(one, plan) if index == len(method.steps) - 1 else {},
    }
    return Drawn({f"steps/{file}": content for file, content in bodies.items()}, data)


def draw_step(index: int) -> Drawn:
    """The method's step of that index: its picture, its line art, what the page shows of it."""
    from fidpath.outputs import page
    from fidpath.scene.step_picture import step_scene

    plan, method = _held[0].plan, _held[0].method
    step = worded(method.steps[index], plan)
    one = _settled(step.state)
    before = laid_state(plan, method.steps[index - 1].state) if index else None
    name = file_name(method, index)
    scene = step_scene(step, one, before, one.plan, of=method.steps[-1].number, part=method.part(index))
    files = {**_sheets(scene, name), f"steps/{name}.png": _png(scene)}
    return Drawn(files, {"figure": _figure(scene), "shown": page.step_picture(plan, step, one, before)})


def _png(scene: Scene) -> bytes:
    from fidpath.outputs.pictures import composition as pages

    finish = _held[0].finish
    return pages.png(scene, _held[0].plan.braid.thickness, finish.look, finish.transparent)


def _sheets(scene: Scene, name: str) -> dict[str, bytes]:
    """A scene's line art as files."""
    from fidpath.outputs.lineart import line_drawing as lineart

    sheet = lineart.line_scene(scene, _held[0].plan.braid.thickness, _unit())
    return {f"lineart/{name}.svg": lineart.svg(sheet).encode("utf-8"), f"lineart/{name}.pdf": lineart.pdf(sheet)}


def _figure(scene: Scene) -> str:
    """A scene's line art as the handout has it."""
    from fidpath.outputs import handout
    from fidpath.outputs.lineart import line_drawing as lineart

    reach = _held[0].plan.braid.thickness
    return lineart.svg(lineart.line_scene(handout.compact(scene), reach, _unit(), sheet=False))


def _unit() -> str:
    return "in" if is_imperial(_held[0].plan.job.length_unit) else "mm"


def _tools(one: SettledState) -> dict[str, Mesh]:
    """The bodies of the tools that part the strands, by name."""
    from fidpath.scene.tools import Placed, tool_parts

    d = one.plan.braid.diameter
    return {
        f"{tool.kind}, {part.name}": part.mesh
        for tool in one.state.tools
        for part in tool_parts(tool.kind, Placed(tool.place, tool.direction, tool.radius, tool.length, d))
    }


def wrong_state(name: str) -> Drawn:
    """What a mistake comes to, and what it is shown beside: measured, their strands for the page."""
    from fidpath.outputs import page

    way = _held[0].method.wrong_way(name)
    wrong, right = _settled(name), _settled(way.beside)
    strands = {one.kind: page.strands_record(one.settled.strands) for one in (wrong, right)}
    return Drawn({}, {"report": _report(wrong), "state": strands})


def draw_wrong(name: str) -> Drawn:
    """A mistake beside the right way: its picture, its line art, what the page shows of it."""
    from fidpath.outputs import page
    from fidpath.scene.mistake_picture import wrong_scene

    plan = _held[0].plan
    way = worded_way(_held[0].method.wrong_way(name), plan)
    wrong, right = _settled(name), _settled(way.beside)
    scene = wrong_scene(way, wrong, right, plan)
    files = {**_sheets(scene, f"wrong-{name}"), f"wrong/{name}.png": _png(scene)}
    return Drawn(files, {"figure": _figure(scene), "shown": page.wrong_picture(plan, way, wrong, right)})


def draw_finished(name: str) -> Drawn:
    """One picture of the finished splice."""
    from fidpath.scene import finished_views as views

    one = _settled(FINISHED)
    scene = views.finished_scene(name, _held[0].plan, one.settled.strands, one.sections)
    figure = {"figure": _figure(scene)} if name == WHOLE else {}
    return Drawn({**_sheets(scene, name), f"{name}.png": _png(scene)}, figure)


def finished_solids() -> Drawn:
    """The finished splice as solids."""
    from fidpath.outputs import solids

    plan = _held[0].plan
    return Drawn(dict(solids.files("splice", plan.job.terminator, _settled(FINISHED).settled.strands)), {})


def make_jigs() -> Drawn:
    """The jigs to print and to cut, and their report."""
    from fidpath.outputs import jigs

    return Drawn({f"jigs/{name}": content for name, content in jigs.written(_held[0].plan)}, {})


def settle_finished() -> dict[str, Any]:
    """Settles the finished splice; returns the check's report on it. Raises CannotBeMade where it can't be."""
    plan, one = _held[0].plan, _settled(FINISHED)
    return found(plan, one.settled, one.sections)


def file_name(method: Method, index: int) -> str:
    """A step's file name, without its ending."""
    step = method.steps[index]
    return f"{step.number:02d}{method.part(index)}-{step.state}"
