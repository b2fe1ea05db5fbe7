"""What lies about the rope in a step: tools where the step says, the terminator, arrows for what moves, the ghost."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

import numpy as np

from fidpath.arrays import Floats, Vector
from fidpath.geometry import Part, run_along
from fidpath.meshing import Mesh, terminator_mesh
from fidpath.planning import Plan
from fidpath.scene.broken_view import kept_of
from fidpath.scene.paint import Model, RopeLines, hole_axes
from fidpath.scene.scene import Ghost, Solid
from fidpath.scene.shapes.bury_tools import long_fid, needle, stitched, unit
from fidpath.scene.shapes.hand_tools import ToolPlacement, tool_solids
from fidpath.scene.shapes.mark_sleeve import mark_sleeve
from fidpath.scene.shapes.solids import bent
from fidpath.scene.shapes.tape import measuring_tape
from fidpath.states import RopeState
from fidpath.units import INCH_MM, is_imperial

UP = np.array([0.0, 0.0, 1.0])

TAPE = 0.8
"""Width of a measuring tape in rope diameters."""

ROCKED, OFF_RIM = 0.6, 0.3
"""How far the terminator is tipped while it is rocked into an eye, radians, and how far its rim is still off the rope,
in rope diameters."""

NEAREST = 4.0
"""What moves less than so many rope diameters has no arrow."""


def vector(v: Floats) -> Vector:
    """A place or direction as plain numbers."""
    return float(v[0]), float(v[1]), float(v[2])


def tools(model: Model, plan: Plan, used: Iterable[tuple[str, str]], inked: Sequence[float] = ()) -> list[Solid]:
    """Solids of a step's tools, each `(kind, place)`; fids stand where the state's own rods part the strands.

    The marker points at the first of the stations `inked`, where a mark is made.
    """
    solids = []
    for tool in model.state.tools:
        solids += tool_solids(tool.kind, ToolPlacement(tool.place, tool.direction, tool.radius, tool.length, model.d))
    for end, way in ((model.state.tip, 1), (model.state.head, -1)):
        if end is not None and model.state.taper > 0:
            solids += tool_solids("whipping", _whipped(model, end, way))
    for kind, at in used:
        if kind == "tape":
            solids += _measured(model, plan, at)
        if kind == "mark sleeve" and (sleeved := place_of(model, plan, at)) is not None:
            solids += _sleeved(model, sleeved)
        if kind == "needle":
            solids.append(stitched(model, plan))
        if kind == "long fid":
            solids += long_fid(model, plan)
        if kind == "terminator" and model.state.seat is None and model.state.passes:
            solids += _rocked(model, plan, place_of(model, plan, "eye") or 0.0)
        station = inked[0] if kind == "marker" and inked else place_of(model, plan, at)
        if kind in LAID and station is not None:
            solids += tool_solids(kind, LAID[kind](model, plan, station))
    return solids


def place_of(model: Model, plan: Plan, name: str) -> float | None:
    """Station of a named place, None where the state hasn't got it."""
    state = model.state
    places: dict[str, float] = {
        **dict(plan.holes),
        "eye": plan.station_h2 / 2,
        "tail end": state.tip if state.tip is not None else state.last,
        "entry": plan.station_entry_host,
        "X": plan.station_tip,
        "tip": plan.station_entry_host - plan.cover.puller_in,
        "standing end": state.head if state.head is not None else state.first,
        "standing part": max(plan.station_entry_host - 9 * model.d, state.first),
    }
    found = places.get(name)
    if found is None or not state.first - model.d < found < state.last + model.d:
        return None
    return min(max(found, state.first), state.last)


def _marker(model: Model, _plan: Plan, station: float) -> ToolPlacement:
    d, along = model.d, model.along(station)
    way = unit(-UP - 0.9 * np.cross(UP, along) - 0.5 * along)
    return ToolPlacement(vector(model.at(station) - 0.6 * d * way), vector(way), 0.4 * d, 6.5 * d, d)


def _knife(model: Model, _plan: Plan, station: float) -> ToolPlacement:
    d, left = model.d, np.cross(UP, model.along(station))
    way = unit(left - 0.15 * UP)
    return ToolPlacement(vector(model.at(station) + 0.5 * d * left + 0.55 * d * UP), vector(way), 0.42 * d, 8 * d, d)


def _post(model: Model, plan: Plan, station: float) -> ToolPlacement:
    """A post as thick as the terminator bears, in the eye, or beside it where the terminator sits there."""
    d, radius = model.d, plan.seat.crown
    bars = plan.job.terminator.body.bars
    ahead = max((x + r for bar in bars for (x, _, _), r in zip(bar.line, bar.radii, strict=True)), default=0.0)
    if model.state.seat is None:
        thick = 0.8 * radius
        return ToolPlacement(vector(_in_eye(model, station, thick) + 2.5 * d * UP), (0.0, 0.0, 1.0), thick, 5 * d, d)
    middle = np.array(model.state.seat_centre) + (max(1.8 * radius, ahead) + 3 * d) * np.array([1.0, 0.0, 0.0])
    return ToolPlacement(vector(middle + 1.5 * d * UP), (0.0, 0.0, 1.0), 0.6 * radius, 3 * d, d)


def _in_eye(model: Model, station: float, radius: float) -> Floats:
    """The middle of a round body of that radius that bears on the rope at a station of an eye, `(3,)` mm."""
    crown = model.at(station)
    inward = unit((model.at(station - 2 * model.d) + model.at(station + 2 * model.d)) / 2 - crown)
    return np.asarray(crown + (radius + 0.5 * model.d) * inward)


def _rocked(model: Model, plan: Plan, station: float) -> list[Solid]:
    """The terminator on its way into an eye: its crown in the bight, its other side still above the table."""
    mesh = terminator_mesh(plan.job.terminator)
    middle = _in_eye(model, station, plan.seat.crown)
    out = unit(model.at(station) - middle)
    cos, sin = np.cos(ROCKED), np.sin(ROCKED)
    axes = np.stack([cos * out - sin * UP, np.cross(UP, out), sin * out + cos * UP])
    crown = middle + plan.seat.crown * out + OFF_RIM * model.d * (UP - out)
    points = crown + (mesh.points - np.array([plan.seat.crown, 0.0, 0.0])) @ axes
    return [Solid(Mesh(points, mesh.faces), Part.TERMINATOR)]


def _straight_edge(model: Model, plan: Plan, station: float) -> ToolPlacement:
    """A straight edge beside the standing part, from the entry along the bury; its ticks toward the rope."""
    d = model.d
    far = model.at(max(station - plan.bury_length, model.state.first))
    along = model.at(station) - far
    length = float(np.linalg.norm(along)) + 3 * d
    along = unit(along)
    place = model.at(station) + 1.5 * d * along - 2.0 * d * np.cross(UP, along) - 0.5 * d * UP
    return ToolPlacement(vector(place), vector(along), 0.9 * d, length, d, step=10 * plan.job.tools.tape_division_mm)


LAID: dict[str, Callable[[Model, Plan, float], ToolPlacement]] = {
    "marker": _marker,
    "knife": _knife,
    "post": _post,
    "needle": needle,
    "straight edge": _straight_edge,
}
"""Tools laid beside the rope at a station."""


def _whipped(model: Model, station: float, way: int) -> ToolPlacement:
    """Tape bound over the rope's last stretch, its end the `way` (+1, -1) stations run, as thick as its strands ask."""
    d, sections = model.d, model.sections
    along, length = way * model.along(station - 0.3 * way * d), 1.6 * d

    def reach(at: float) -> float:
        i = int(np.abs(sections.station - at).argmin())
        live = sections.count > i
        away = sections.rings[live, i].reshape(-1, 3) - sections.centres[live, i].mean(axis=0)
        return float(np.linalg.norm(away - (away @ along)[:, None] * along, axis=1).max())

    back = reach(station - way * length)
    tip = min(reach(station - 0.1 * way * d) / back, 1.0)
    return ToolPlacement(vector(model.at(station)), vector(along), 1.03 * back, length, d, tip=tip)


def _measured(model: Model, plan: Plan, at: str) -> list[Solid]:
    """A measuring tape lying along the rope where a length is taken: from a hole round the eye, or from the tail."""
    tip = model.state.tip
    spans = {"eye": (0.0, plan.loop_fitted), **{letter: (0.0, at) for letter, at in plan.holes[1:]}}
    if tip is not None:
        spans["tail end"] = (tip, max(tip - plan.tail_to_lay_out, model.state.first))
    spans["entry"] = (plan.station_entry_tail, min(plan.station_tip, model.state.last))
    if at not in spans:
        return []
    start, end = spans[at]
    return [solid for a, b in _kept_between(model, start, end) for solid in _tape(model, plan, (a, b), abs(a - start))]


def _kept_between(model: Model, start: float, end: float) -> list[tuple[float, float]]:
    """What is drawn between two stations, from `start` on, which may be the greater one."""
    pieces = kept_of(model, [(min(start, end), max(start, end))])
    return pieces if start < end else [(b, a) for a, b in reversed(pieces)]


def _tape(model: Model, plan: Plan, span: tuple[float, float], begins: float) -> list[Solid]:
    """A stretch of tape beside the rope between two stations, which reads `begins` mm at the first.

    Where the rope as it settled is a little shorter than its stations say, as at its very end, it reads right at the
    second.
    """
    steps = max(int(abs(span[1] - span[0]) / (0.25 * model.d)), 8)
    line = np.array([model.at(float(u)) for u in np.linspace(*span, steps)])
    begins += abs(span[1] - span[0]) - float(run_along(line)[-1])
    beside = beside_line(model, line, 1.15 * model.d) - 0.45 * model.d * UP
    step, every, counts = (INCH_MM / 4, 4, 1.0) if is_imperial(plan.job.length_unit) else (10.0, 5, 50.0)
    rightward = -1.0 if model.state.mirrored else 1.0
    return measuring_tape(beside, TAPE * model.d, step, every, counts, begins, rightward)


def _sleeved(model: Model, station: float) -> list[Solid]:
    """The mark sleeve round straight rope, its middle window on top at a station."""
    along = model.along(station)
    return mark_sleeve(model.braid, model.at(station), np.stack([along, np.cross(UP, along), UP]))


def beside_line(model: Model, line: Floats, away: float) -> Floats:
    """A line `(n, 3)` mm moved sideways on the table by `away`, to the side where there is more room."""
    along = np.gradient(line, axis=0)
    left = np.cross(UP, along)
    left /= np.linalg.norm(left, axis=1, keepdims=True)
    sides = [line + away * left, line - away * left]
    room = [_room(model, side) for side in sides]
    return sides[int(room[1] > room[0] + 1e-3 * model.d)]


def _room(model: Model, line: Floats) -> float:
    """How far off the rope a line lies in the mean, counted up to two diameters."""
    apart = np.linalg.norm(line[:, None, :2] - model.line[None, ::4, :2], axis=2).min(axis=1)
    return float(np.minimum(apart, 2 * model.d).mean())


def terminator_aside(model: Model, plan: Plan) -> list[Solid]:
    """The terminator beside an eye it isn't in, to be held against it."""
    reach = float(model.line[:, 0].max()) + 2.5 * model.d
    mesh = terminator_mesh(plan.job.terminator)
    moved = mesh.points + np.array([reach - float(mesh.points[:, 0].min()), 0.0, 0.0])
    return [Solid(Mesh(moved, mesh.faces), Part.TERMINATOR_ASIDE)]


def prop_top(solid: Solid, share: float = 0.5) -> Vector:
    """A place on a prop's upper side, mm: in the middle of its width, so far along x."""
    points = solid.mesh.points
    x = (1 - share) * points[:, 0].min() + share * points[:, 0].max()
    y = (points[:, 1].max() + points[:, 1].min()) / 2
    return float(x), float(y), float(points[:, 2].max())


def terminator(model: Model, plan: Plan) -> list[Solid]:
    """The terminator, where the state has one."""
    if model.state.seat is None:
        return []
    mesh = terminator_mesh(plan.job.terminator, np.array(model.state.seat_centre))
    return [Solid(mesh, Part.TERMINATOR)]


def way_of(model: Model, before: RopeLines | None, plan: Plan, way: tuple[str, str, str]) -> Floats | None:
    """Line `(n, 3)` mm of the arrow for what moves, `way` being (what, from, to); None where nothing moves."""
    what, start, end = way
    if what == "terminator" and model.state.seat is not None:
        return _let_in(model, plan)
    if what == "bight":
        return _bight(model, plan)
    if what == "leg":
        return _leg(model, plan)
    if what in plan.letters and end == "eye":
        return _swung(model, before, dict(plan.holes)[what])
    if what == "tail end" and start in plan.letters and end == "standing part":
        return _swung_back(model, dict(plan.holes)[start])
    stations = _along_rope(model, plan, way)
    if stations is None:
        return None
    line = np.array([model.at(float(u)) for u in np.linspace(*stations, 40)])
    away = 1.15 * model.d + (0.5 * (plan.swollen_diameter - model.d) if what == "cover" else 0.0)
    return beside_line(model, line, away) + 0.5 * model.d * UP


def _along_rope(model: Model, plan: Plan, way: tuple[str, str, str]) -> tuple[float, float] | None:
    """Stations between which an arrow runs beside the rope: up to a hole's mouth, away from it, or along the cover."""
    what, start, end = way
    d, passes = model.d, model.state.passes
    if what == "cover":
        return plan.station_entry_host - 1.0 * d, plan.station_entry_host - (4.0 if model.kept else 9.0) * d
    if what in plan.letters and passes and start in plan.letters:
        return passes[0].guest + 0.9 * d, dict(plan.holes)[what] - 0.6 * d
    if what == "standing end" and end in plan.letters:
        guest = min(p.guest for p in passes if p.hole == end)
        return guest + 6.5 * d, guest + 1.2 * d
    if what != "tail end":
        return None
    own = [p.guest for p in passes if p.guest >= plan.station_h2 - 2 * d or p.hole == end]
    last = model.state.last
    if end in plan.letters:
        guests = [p.guest for p in passes if p.hole == end]
        return (guests[-1] - 6.5 * d, guests[-1] - 1.2 * d) if guests else None
    begin = max([*own, plan.station_h2]) + 2.2 * d
    return begin, min(begin + 6.5 * d, last - 0.5 * d)


def _bight(model: Model, plan: Plan) -> Floats:
    """Ahead of the eye's bight, the way it goes."""
    guests = [p.guest for p in model.state.passes if p.hole in plan.letters[:1]]
    crown = model.at((guests[0] if guests else plan.station_h2) / 2)
    legs = (model.at(0.0) + model.at(guests[0] if guests else plan.station_h2)) / 2
    out = unit(crown - legs)
    return np.linspace(crown + 0.9 * model.d * out, crown + 5.0 * model.d * out, 12)


def _leg(model: Model, plan: Plan) -> Floats | None:
    """Beside the eye's leg that comes out of the first hole, away from it; None where no leg does."""
    out = next((p.guest for p in model.state.passes if p.hole in plan.letters[:1]), None)
    if out is None:
        return None
    line = np.array([model.at(float(u)) for u in np.linspace(out - 2.0 * model.d, out - 8.0 * model.d, 40)])
    return beside_line(model, line, 1.15 * model.d) + 0.5 * model.d * UP


def eased_over(model: Model, plan: Plan) -> tuple[Floats, ...]:
    """Lines `(n, 3)` mm of the arrows for a hole's groups eased over a crossing that lies in it, the top group's first.

    None where no crossing does.
    """
    d, first = model.d, plan.letters[:1]
    for opening in model.state.openings:
        inside = [p.guest for p in model.state.passes if p.hole == opening.name]
        if not first or opening.name in first or not any(abs(guest) < 0.5 * d for guest in inside):
            continue
        axes, back = hole_axes(model, opening), -model.along(-3.0 * d)
        starts = [axes.middle + side * (axes.gap + 0.9 * d) * axes.up for side in (1, -1)]
        return tuple(np.linspace(start - 0.8 * d * back, start + 2.4 * d * back, 12) for start in starts)
    return ()


def _let_in(model: Model, plan: Plan) -> Floats:
    """From above down into the eye's bend."""
    d, seat = model.d, np.array(model.state.seat_centre)
    reach = plan.seat.crown + 3.5 * d
    out = np.array([0.35, 0.95, 0.0])
    return bent(
        seat + reach * out + 3.0 * d * UP, seat + 0.25 * reach * out + (plan.seat.half_width + 0.4 * d) * UP, 0.1
    )


def _swung(model: Model, before: RopeLines | None, station: float) -> Floats | None:
    """From where a place lay in the state before to where it lies now; None where it hardly moved."""
    there = _before(model, before, station)
    here = model.at(station)
    if there is None or np.linalg.norm(here - there) < NEAREST * model.d:
        return None
    end = here - 2.5 * model.d * unit(here - there)
    lines = [bent(there, end, bow) + model.d * UP for bow in (0.22, -0.22)]
    return max(lines, key=lambda line: _room(model, line))


def _swung_back(model: Model, station: float) -> Floats:
    """From the tail where it leaves a hole, round toward the captive end, to the side of the standing part it is on."""
    d = model.d
    back, tail = -model.along(model.state.first + d), model.along(station + 2.5 * d)
    aside = unit(tail - (tail @ back) * back)
    start = model.at(station) + 4.0 * d * tail + 1.0 * d * back
    end = model.at(station) + 5.5 * d * back + 1.2 * d * aside
    return max((bent(start, end, bow) for bow in (0.3, -0.3)), key=lambda line: float(line.mean(axis=0) @ aside)) + (
        0.5 * d * UP
    )


def _before(model: Model, before: RopeLines | None, station: float) -> Floats | None:
    """Where a station lay in the state before, in this state's table, `(3,)` mm."""
    if before is None or not before.state.first <= station <= before.state.last:
        return None
    return np.asarray(_turned_into(before.at(station)[None], before.state, model.state)[0])


def _turned_into(points: Floats, was: RopeState, now: RopeState) -> Floats:
    """Places `(n, 3)` of one state's table as another's pictures show them: the standing part lies alike in both."""
    turn = now.heading - was.heading
    cos, sin = np.cos(turn), np.sin(turn)
    x, y, z = points.T
    return np.column_stack([x * cos - y * sin, x * sin + y * cos, z])


def ghost(model: Model, before: RopeLines | None) -> tuple[Ghost, ...]:
    """The rope as it lay in the state before."""
    if before is None:
        return ()
    return (Ghost(_turned_into(before.line, before.state, model.state), before.d),)
