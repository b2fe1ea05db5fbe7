"""Eye former: a post with the terminator's groove on a base that shows where H1, or a plain eye's entry, comes to lie.

The groove is parted at its middle: the base carries its lower half, a cap that lifts off its upper one, so that an eye
goes on and comes off, and so that neither half has to be printed over air. A plain pin, and a post too slender to be
parted, are one piece. Post and groove are the seat's own (`seat`): at distance D outside the planform the body is as
high as the groove's circle leaves it.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.geometry import Seat
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
    use = (
        f"Seat the eye in the groove and draw it snug by hand: the middle of {plan.origin} comes to lie over the line.",
        "It is for sizing only. An eye is not to be stretched on it under load: it is plastic and breaks.",
    )
    parted = peg_radius(plan.seat) > 0
    pieces = (_base(plan), _cap(plan)) if parted else (_base(plan),)
    notes = []
    if not parted and plan.seat.groove > 0:
        notes.append("The post is too slender for a cap: its upper lip prints over air.")
    if not shows_line(plan):
        far = spoken(plan.origin_to_centre + plan.seat.crown, plan.job)
        missing = f"it has no line for {plan.origin}, {far} from the crown's bearing"
        notes.append(f"The base would be too long for the bed: {missing}.")
    return Jig("eye-former", f"Eye former for the {plan.job.terminator.kind}", use, pieces, tuple(notes))


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
    if shows_line(plan):
        sizes.append(Size(f"line {plan.origin} to the crown's bearing", plan.origin_to_centre + seat.crown))
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


def _wide(plan: Plan, with_line: bool) -> float:
    """Width of the base, mm: the post, what reaches toward the throat, and room for its words."""
    seat, t = plan.seat, plan.job.printing.text_height_mm
    behind = max(plan.origin_to_centre + 2.5 * t if with_line else 0.0, seat.reach + seat.nose + seat.lip) + MARGIN
    return max(behind + seat.crown + seat.lip + MARGIN, 14 * t)


def shows_line(plan: Plan) -> bool:
    """Whether the base reaches as far as the mark: where it would be too long for the bed it only carries the post."""
    return _wide(plan, True) <= max(plan.job.printing.bed_mm[:2])


def _plate(plan: Plan) -> tuple[Plate, tuple[float, float]]:
    """The base as a plate, and where the crown's centre stands on it."""
    seat, t = plan.seat, plan.job.printing.text_height_mm
    half = max(seat.crown + seat.lip, plan.braid.diameter) + MARGIN
    wide = _wide(plan, shows_line(plan))
    said = (f"EYE FORMER {with_unit(2 * seat.crown, plan.job)}", *SIZING.split(". "), CHECK)
    lines = [line for words in said for line in wrapped(words, t, wide - 2 * MARGIN)]
    wide = max(wide, max(width(line, t) for line in lines) + 2 * MARGIN)
    high = block_height(len(lines), t)
    middle, crown = high + 2 * MARGIN + half, wide - seat.crown - seat.lip - MARGIN
    texts, strokes = block(lines, wide / 2, MARGIN + high, t), []
    if shows_line(plan):
        line, room = crown - plan.origin_to_centre, width(plan.origin, t)
        texts.append(EngravedText(plan.origin, line - room / 2 - 1.6, middle - t / 2, t))
        strokes = _line(line, middle, min(1.2 * plan.braid.diameter, half - 1.0), room)
    flat = plate(box(0, 0, wide, middle + half, 3.0), BASE, plan.job.printing.nozzle_mm, texts, strokes)
    return flat, (crown, middle)


def _line(x: float, middle: float, reach: float, room: float) -> list[Floats]:
    """The line at the mark, across the rope, and the load line beyond its letters, which take `room` mm."""
    across = np.array([[x, middle - reach], [x, middle + reach]])
    load = np.array([[0.0, middle], [x - room - 3.2, middle]])
    return [across, load] if load[1, 0] > 2 else [across]
