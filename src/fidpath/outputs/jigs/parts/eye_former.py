"""Eye former: a post with the terminator's groove on a base with lines where the marks come to lie, in two stations.

One station is for marking, the loop still long; the other for the finished eye. A plain eye has one, with its entry.
The groove is parted at its middle: the base carries its lower half, a cap that lifts off its upper one, so that an eye
goes on and comes off, and so that neither half has to be printed over air. A plain pin, and a post too slender to be
parted, are one piece. Post and groove are the seat's own (`seat`): at distance D outside the planform the body is as
high as the groove's circle leaves it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import BLEND, Seat, chain, heading, points
from fidpath.meshing import Mesh
from fidpath.outputs.jigs.lettering import EngravedText, block, block_height, width, wrapped
from fidpath.outputs.jigs.manifolds import closed, of_mesh, steps_round
from fidpath.outputs.jigs.paths import box
from fidpath.outputs.jigs.pieces import Jig, JigPiece, Plate, Size
from fidpath.outputs.jigs.plates import band_of, body_of, plate, words_of
from fidpath.outputs.jigs.sizes import CHECK, spoken, with_unit
from fidpath.planning import Plan

BASE = 4.0
"""Thickness of the base, mm."""

LEAST_PEG = 2.5
"""A cap's peg thinner than this in radius, mm, would break: the post is then one piece."""

MARKING, FINISHED = "MARKING", "FINISHED"
"""Names of the two stations."""

GAP = 1.6
"""From a line to its letter, and between rows of letters, mm."""

SIZING = "SIZING ONLY. DO NOT STRETCH UNDER LOAD"
MARGIN = 3.0
SUNK = 1.0
"""How far the post runs into the base, mm."""

EXACT = 1e-7
"""Distance of chords, mm, that makes no difference to a volume."""

SAGITTA = 0.002
"""Greatest distance in mm of the post's surface from the chords it is drawn with: it has two curvatures."""


def upper_half(seat: Seat, sagitta: float = SAGITTA) -> Floats:
    """The post's outer profile from its middle plane up: distance outside the planform and height, `(m, 2)` mm.

    Its outer edge is broken, steeply enough to print over the bed. Chords lie at most `sagitta` off its arcs.
    """
    if seat.groove <= 0:
        return np.array([[0.0, 0.0], [0.0, seat.half_width]])
    top = min(seat.groove, seat.half_width)
    angle = _turned_by(float(np.arcsin(top / seat.groove)), seat.groove, sagitta)
    groove = seat.groove * np.column_stack([1 - np.cos(angle), np.sin(angle)])
    land = seat.half_width - top
    ease = min(0.5 * land, 0.25 * seat.groove)
    if ease < 0.05:
        return np.concatenate([groove, [[seat.lip, seat.half_width]]]) if land > 0 else groove
    edge = np.array([[seat.lip, seat.half_width - ease], [seat.lip - 0.9 * ease, seat.half_width]])
    return np.concatenate([groove, edge])


def _turned_by(angle: float, radius: float, sagitta: float) -> Floats:
    """Angles from 0 to `angle` of an arc drawn with chords at most `sagitta` mm off it."""
    return np.linspace(0.0, angle, int(np.ceil(angle / (2 * np.arccos(1 - sagitta / radius)))) + 1)


def planform_steps(seat: Seat) -> tuple[Floats, Floats]:
    """Points and outward normals of the planform, each `(n, 2)`, counter-clockwise, its arcs finely stepped."""
    steps = steps_round(seat.crown + seat.lip, SAGITTA)
    turn = np.pi / 2 + seat.flank
    if seat.reach <= 0:
        angle = 2 * np.pi * np.arange(steps) / steps
        normal = np.column_stack([np.cos(angle), np.sin(angle)])
        return seat.crown * normal, normal
    crown, nose = np.linspace(-turn, turn, steps), np.linspace(turn, 2 * np.pi - turn, steps // 2)
    angle = np.concatenate([crown, nose])
    normal = np.column_stack([np.cos(angle), np.sin(angle)])
    at_nose = np.repeat([0.0, 1.0], [len(crown), len(nose)])
    radius = np.where(at_nose > 0, seat.nose, seat.crown)
    return radius[:, None] * normal - np.column_stack([seat.reach * at_nose, np.zeros_like(at_nose)]), normal


def turned(seat: Seat, profile: Floats) -> Any:
    """The body whose side has this profile (distance outside the planform, height from low to high), its ends flat."""
    base, normal = planform_steps(seat)
    side = base[:, None, :] + profile[None, :, :1] * normal[:, None, :]
    n, m = side.shape[:2]
    points = np.concatenate([side, np.broadcast_to(profile[None, :, 1:], (n, m, 1))], axis=2).reshape(-1, 3)
    index = np.arange(n * m).reshape(n, m)
    after = np.roll(index, -1, axis=0)
    lower = np.stack([index[:, :-1], after[:, :-1], after[:, 1:]], axis=-1)
    upper = np.stack([index[:, :-1], after[:, 1:], index[:, 1:]], axis=-1)
    foot = np.column_stack([after[:, 0], index[:, 0], np.full(n, n * m)])
    head = np.column_stack([index[:, -1], after[:, -1], np.full(n, n * m + 1)])
    hubs = np.array([[0.0, 0.0, profile[0, 1]], [0.0, 0.0, profile[-1, 1]]])
    faces = np.concatenate([lower.reshape(-1, 3), upper.reshape(-1, 3), foot, head])
    return of_mesh(Mesh(np.concatenate([points, hubs]), faces))


def volume_of(seat: Seat, profile: Floats) -> float:
    """Volume of that body in mm3: the planform grown by D has A + P D + pi D^2 (Steiner), summed up the profile."""
    flank = float(np.hypot(seat.reach, 0) * np.cos(seat.flank)) if seat.reach > 0 else 0.0
    turn = np.pi + 2 * seat.flank
    around = turn * seat.crown + (2 * np.pi - turn) * seat.nose + 2 * flank
    enclosed = (turn * seat.crown**2 + (2 * np.pi - turn) * seat.nose**2) / 2 + flank * (seat.crown + seat.nose)
    d, z = profile.T
    d0, d1 = d[:-1], d[1:]
    mean, square = (d0 + d1) / 2, (d0**2 + d0 * d1 + d1**2) / 3
    return float(((enclosed + around * mean + np.pi * square) * np.diff(z)).sum())


def peg_radius(seat: Seat) -> float:
    """Radius of the peg that the cap sits on, mm; 0 where the post is one piece."""
    radius = min(0.5 * seat.crown, 12.0)
    return radius if seat.groove > 0 and radius >= LEAST_PEG else 0.0


def eye_former(plan: Plan) -> Jig:
    """The former for the plan's eye: its base with the post, and its cap where there is one."""
    pieces, notes = _pieces(plan), []
    if len(pieces) == 1 and plan.seat.groove > 0:
        notes.append("The post is too slender for a cap: its upper lip prints over air.")
    left_out = [line for line in lines_of(plan) if line not in shown_lines(plan)]
    if left_out:
        far = "; ".join(f"{line.said}: {spoken(line.to_crown(plan), plan.job)}" for line in left_out)
        notes.append(f"The bed is too short for every line. These are missing, from the crown's bearing: {far}.")
    return Jig("eye-former", f"Eye former for the {plan.job.terminator.kind}", _use(plan), pieces, tuple(notes))


def _use(plan: Plan) -> tuple[str, ...]:
    """How the former is used."""
    sizing = "It is for sizing only. Never stretch an eye on it under load: it is plastic and breaks."
    if not plan.lock:
        return (
            f"Seat the eye in the groove, its legs straight: the middle of {plan.origin} lies over the line.",
            sizing,
        )
    beyond = plan.wrapped_loop.throat_to_crown - plan.marking_loop.throat_to_crown
    return (
        "Seat the rope in the groove, its legs straight. While the eye is marked the loop stays long. With the tail in "
        f"H1, H1's middle lies over the line H1 on the side {MARKING}, and H2's middle over H2, one hole gap back "
        f"along the tail. Before that, with the tail beside it, H1's middle lies {spoken(beyond, plan.job)} further.",
        f"When the lock is drawn up, H1's and H2's middles lie over the lines on the side {FINISHED}.",
        "The lines hold the rope in place. The count of crossings rules, and the tape checks.",
        sizing,
    )


def _pieces(plan: Plan) -> tuple[JigPiece, ...]:
    return (_base(plan), _cap(plan)) if peg_radius(plan.seat) > 0 else (_base(plan),)


def _post(plan: Plan, sagitta: float = SAGITTA) -> Floats:
    """Profile of what stands on the base: the lower half, or the whole post where it isn't parted."""
    half = upper_half(plan.seat, sagitta)
    lower = half[::-1] * [1, -1] + [0.0, plan.seat.half_width + BASE]
    if peg_radius(plan.seat) > 0:
        return lower
    upper = half[1:] + np.array([0.0, plan.seat.half_width + BASE])
    return np.concatenate([lower, upper])


def _base(plan: Plan) -> JigPiece:
    """The base plate with its words, the post, and the peg."""
    seat, flat, shift = plan.seat, *_plate(plan)
    profile = _post(plan)
    sunk = np.concatenate([profile[:1] - [0.0, SUNK], profile])
    body, known = body_of("eye-former-base", flat)
    body += turned(seat, sunk).translate((*shift, 0.0))
    known += volume_of(seat, _post(plan, EXACT))
    radius, height = peg_radius(seat), seat.half_width - 0.5
    if radius > 0:
        middle = BASE + seat.half_width
        for (x, y), r in _pegs(seat):
            body += _cylinder(r, middle - 1.0, middle + height).translate((x + shift[0], y + shift[1], 0.0))
            known += np.pi * r**2 * height
    sizes = [Size("post, across the bottom of the groove", 2 * seat.crown)]
    sizes += [Size(f"line {line.said} to the crown's bearing", line.to_crown(plan)) for line in shown_lines(plan)]
    mesh = closed(body, "eye-former-base")
    return JigPiece("eye-former-base", mesh, known, tuple(sizes), None, words_of(flat), band_of(flat))


def _pegs(seat: Seat) -> list[tuple[tuple[float, float], float]]:
    """Middles and radii of the pegs: one, and at a teardrop a second so that the cap can't turn."""
    found = [((0.0, 0.0), peg_radius(seat))]
    second = 0.55 * (seat.crown - 0.6 * seat.reach * float(np.sin(seat.flank)))
    if seat.reach > 0 and second >= LEAST_PEG / 2 and 0.6 * seat.reach > peg_radius(seat) + second + 1.5:
        found.append(((-0.6 * seat.reach, 0.0), second))
    return found


def _cylinder(radius: float, bottom: float, top: float) -> Any:
    from manifold3d import Manifold

    return Manifold.cylinder(top - bottom, radius, radius, steps_round(radius, SAGITTA)).translate((0.0, 0.0, bottom))


def _cap(plan: Plan) -> JigPiece:
    """The cap, turned over as it is printed: its flange on the bed, bored through for the pegs."""
    seat, play = plan.seat, plan.job.printing.clearance_mm
    profile = upper_half(seat)
    over = profile[::-1] * [1, -1] + [0.0, seat.half_width]
    body, known = turned(seat, over), volume_of(seat, upper_half(seat, EXACT))
    for (x, y), radius in _pegs(seat):
        body -= _cylinder(radius + play / 2, -1.0, seat.half_width + 1.0).translate((x, y, 0.0))
        known -= np.pi * (radius + play / 2) ** 2 * seat.half_width
    sizes = (Size("height", seat.half_width), Size("bore", 2 * peg_radius(seat) + play))
    return JigPiece("eye-former-cap", closed(body, "eye-former-cap"), known, sizes)


@dataclass(frozen=True)
class FormerLine:
    """A line across the rope: the mark's letter, its station's name, and mm from the crown's centre.

    Lines of the marking station are drawn above the rope, those of the finished eye below; a plain eye's on both sides.
    """

    mark: str
    station: str
    distance: float

    @property
    def said(self) -> str:
        """Letter and station, as the report has them."""
        return f"{self.mark}, {self.station.lower()}" if self.station else self.mark

    def to_crown(self, plan: Plan) -> float:
        """From the line straight to the crown's bearing, mm."""
        return self.distance + plan.seat.crown


def marking_places(plan: Plan) -> tuple[float, float]:
    """How far H1's and H2's middles lie from the crown's centre while the lock is marked, mm along the eye's axis.

    H2's lies one hole gap back along the tail from H1's.
    """
    loop, lock, d = plan.marking_loop, plan.needed_lock(), plan.braid.diameter
    around, radius = chain(loop.pieces, BLEND * d), (plan.job.terminator.bearing_diameter_mm + d) / 2
    crown, h2 = points(around, np.array([loop.axis / 2, loop.axis - lock.zone.gap]))
    along = float(heading(around, np.array([loop.axis / 2]))[0])
    centre = crown + radius * np.array([-np.sin(along), np.cos(along)])
    away = float(np.linalg.norm(centre))
    return away, away - float(h2 @ centre) / away


def lines_of(plan: Plan) -> tuple[FormerLine, ...]:
    """Every line that the plan has, the marking station's first."""
    if not plan.lock:
        return (FormerLine(plan.origin, "", plan.origin_to_centre),)
    (h1, h2), zone = plan.letters, plan.lock.zone
    held = marking_places(plan)
    return (
        FormerLine(h1, MARKING, held[0]),
        FormerLine(h2, MARKING, held[1]),
        FormerLine(h1, FINISHED, plan.eye.distance),
        FormerLine(h2, FINISHED, plan.eye.distance + zone.spacing),
    )


def shown_lines(plan: Plan) -> tuple[FormerLine, ...]:
    """The lines that the bed has room for, those nearest to the post."""
    longest = max(plan.job.printing.bed_mm[:2])
    return tuple(line for line in lines_of(plan) if _wide(plan, (line,)) <= longest)


def _wide(plan: Plan, lines: tuple[FormerLine, ...]) -> float:
    """Width of the base, mm: the post, what reaches toward the throat, and room for its words."""
    seat, t = plan.seat, plan.job.printing.text_height_mm
    post = seat.crown + seat.lip
    marks = max((line.distance + width(line.mark, t) + 2 * GAP for line in lines), default=0.0)
    stations = {line.station for line in lines}
    named = max((width(word, t) + MARGIN + seat.reach + seat.nose + seat.lip for word in stations if word), default=0.0)
    behind = max(marks, named, seat.reach + seat.nose + seat.lip) + MARGIN
    return max(behind + post + MARGIN, 14 * t)


def _plate(plan: Plan) -> tuple[Plate, tuple[float, float]]:
    """The base as a plate, and where the crown's centre stands on it."""
    seat, t, lines = plan.seat, plan.job.printing.text_height_mm, shown_lines(plan)
    reach = _reach(plan)
    half = max(seat.crown + seat.lip, reach + 2 * (GAP + t) + GAP) + MARGIN
    wide = _wide(plan, lines)
    said = (f"EYE FORMER {with_unit(2 * seat.crown, plan.job)}", *SIZING.split(". "), CHECK)
    words = [line for sentence in said for line in wrapped(sentence, t, wide - 2 * MARGIN)]
    wide = max(wide, max(width(line, t) for line in words) + 2 * MARGIN)
    high = block_height(len(words), t)
    middle, crown = high + 2 * MARGIN + half, wide - seat.crown - seat.lip - MARGIN
    texts = block(words, wide / 2, MARGIN + high, t)
    strokes: list[Floats] = []
    for station in (MARKING, FINISHED, ""):
        more, drawn = _station(station, [line for line in lines if line.station == station], plan, (crown, middle))
        texts, strokes = texts + more, strokes + drawn
    if lines:
        strokes.append(np.array([[0.0, middle], [crown - max(line.distance for line in lines) - GAP, middle]]))
    flat = plate(box(0, 0, wide, middle + half, 3.0), BASE, plan.job.printing.nozzle_mm, texts, strokes)
    return flat, (crown, middle)


def _reach(plan: Plan) -> float:
    """How far the nearer line of a station reaches from the rope's middle: beyond the rope, and beyond its letter."""
    return max(1.2 * plan.braid.diameter, plan.job.printing.text_height_mm + 2 * GAP)


def _station(
    name: str, lines: list[FormerLine], plan: Plan, crown: tuple[float, float]
) -> tuple[list[EngravedText], list[Floats]]:
    """One station's lines, its letters and its name: above the rope's middle, the finished eye's below it.

    The line nearer to the post reaches further out, so that its letter passes the other line's end.
    """
    t, side = plan.job.printing.text_height_mm, -1.0 if name == FINISHED else 1.0
    texts: list[EngravedText] = []
    strokes: list[Floats] = []
    for place, line in enumerate(sorted(lines, key=lambda line: -line.distance)):
        x, end = crown[0] - line.distance, _reach(plan) + place * (t + GAP)
        start = end if not name else 0.0
        strokes.append(np.array([[x, crown[1] - start], [x, crown[1] + side * end]]))
        middle = crown[1] + side * (end - t / 2)
        texts.append(EngravedText(line.mark, x - GAP - width(line.mark, t) / 2, middle - t / 2, t))
    if name and lines:
        middle = crown[1] + side * (_reach(plan) + 2 * (t + GAP) + GAP - t / 2)
        texts.append(EngravedText(name, MARGIN + width(name, t) / 2, middle - t / 2, t))
    return texts, strokes
