"""Rope states with the tail buried: the finished splice, a tail on its way in, and the mistakes of the bury.

The load line is y = 0, the eye toward +x, the bury toward -x; the legs are mirror images about it.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import CannotBeMade
from fidpath.geometry import Bury, Part, cover, leg_chain, points, taper
from fidpath.planning import Plan
from fidpath.states.recipe import drawn_tight, strand_ends
from fidpath.states.rope_state import Pass, Profile, RopePath, RopeState
from fidpath.states.state_kind import LOCKED, StateKind

PLAIN = 7.0
"""Plain standing part kept beyond the tail's tip, in rope diameters."""

TAIL_IN = 10.0
"""Tail that is in already where it is shown going in, in rope diameters."""

BAG = 0.32
"""How much farther out the strands of a bunched cover lie than round the tail, in rope diameters."""

SHORT_BURY = 0.35
"""Share of its planned length that the too short bury has."""


def buried(plan: Plan) -> RopeState:
    """The tail cut, tapered and buried to its tip, the terminator in the eye."""
    return _buried(plan, PLAIN * plan.braid.diameter)


def bunched(plan: Plan) -> RopeState:
    """The tail on its way in, the standing part as far as the tip will come to lie."""
    return _buried(plan, max(plan.cover.puller_in - plan.cover.host_length, 0.0) + PLAIN * plan.braid.diameter)


def _buried(plan: Plan, plain: float) -> RopeState:
    """The tail buried to its tip, so much plain standing part beyond it, mm."""
    d, eye, neck = plan.braid.diameter, plan.eye, plan.neck
    shared = plan.cover.tip_axial + plain
    line = leg_chain(eye, [(shared, 0.0), *neck.pieces], 0.0, (-(shared + neck.shared_reach), 0.0))
    zero = shared + neck.length + eye.zone.rope
    crown = points(line, np.array([zero + eye.loop / 2]))[0, 0]
    tip = plan.station_entry_host - plan.cover.host_length
    path = RopePath(
        plan.braid,
        line,
        zero,
        tip - plain + 0.5 * d,
        plan.station_tip,
        tip=plan.station_tip,
        ends=tuple(strand_ends(plan).tolist()),
        parts=_parts(plan, tip),
        profile=_profile(plan, plain),
    )
    guests = (plan.eye_length, -plan.rope_between_holes)
    return RopeState(
        "",
        (path,),
        drawn_tight(plan),
        tuple(Pass(letter, guest) for letter, guest in zip(plan.letters, guests, strict=False)),
        bury=Bury((plan.station_entry_host, tip), (plan.station_entry_tail, plan.station_tip)),
        seat=plan.seat,
        seat_centre=(float(crown) - eye.bend_radius, 0.0, 0.0),
    )


def _parts(plan: Plan, tip: float) -> tuple[tuple[Part, float], ...]:
    """The rope's parts from the captive side to the tail's tip, each from its first station, mm."""
    return (
        (Part.STANDING_PART, float("-inf")),
        (Part.COVER, tip),
        (Part.STANDING_NECK, plan.station_entry_host),
        (Part.STANDING_LOCK_LEG, -plan.rope_between_holes),
        (Part.EYE, 0.0),
        (Part.TAIL_LOCK_LEG, plan.eye_length),
        (Part.TAIL_NECK, plan.station_h2),
        (Part.TAIL, plan.station_entry_tail),
    )


def _profile(plan: Plan, plain: float) -> Profile:
    """What the bury makes of the standing part and of the tail; between their necks the rope is as it is laid.

    plain: rope beyond the tip, mm, on which the standing part runs on as it is laid.
    """
    table, middle = plan.cover, plan.station_h2 / 2
    reach = plan.eye.zone.rope + plan.neck.entry
    host, tail = plan.station_entry_host - table.host, plan.station_entry_tail + table.tail
    on_host = np.flatnonzero((host < middle) & (table.host > 0.9 * table.host[0]))[::-1]
    on_tail = np.flatnonzero((tail >= middle) & (table.tail > 0.9 * table.tail[0]))

    def both(of_host: Floats, of_tail: Floats) -> Floats:
        return np.concatenate([of_host[on_host], of_tail[on_tail]])

    profile = Profile(
        station=both(host, tail),
        arc=both(-reach - table.axial, plan.eye.loop + reach + table.axial),
        radius=both(table.cover_radius, table.tail_radius),
        packing=both(np.ones_like(table.packing), table.packing),
    )
    return profile if plain <= PLAIN * plan.braid.diameter else _run_on(profile, plain)


def _run_on(profile: Profile, plain: float) -> Profile:
    """The profile with so much more of the standing part as it is laid, mm, at its first station."""
    return Profile(
        np.concatenate([[profile.station[0] - plain], profile.station]),
        np.concatenate([[profile.arc[0] - plain], profile.arc]),
        np.concatenate([profile.radius[:1], profile.radius]),
        np.concatenate([profile.packing[:1], profile.packing]),
    )


def with_bury(plan: Plan, diameters: float, drops: int, bag: float = 0.0) -> Plan:
    """The plan with another bury, `diameters` long, tapered by so many drops of two strands; all else as it is.

    bag: by how much its cover is bunched, mm (`cover`).
    """
    job, d = plan.job, plan.braid.diameter
    practice = replace(job.practice, bury_diameters=diameters, taper_drops=drops)
    cut = taper(plan.braid.strands, diameters * d, practice.taper_share, drops, d)
    job = replace(job, practice=practice)
    table = replace(cover(plan.braid, job.rope.squeeze, cut, bag), planned_tip=plan.cover.puller_in)
    return replace(plan, job=job, taper=cut, cover=table)


def _short(plan: Plan) -> Plan:
    practice = plan.job.practice
    return with_bury(plan, SHORT_BURY * practice.bury_diameters, practice.taper_drops)


def _untapered(plan: Plan) -> Plan:
    return with_bury(plan, plan.job.practice.bury_diameters, 0)


def _entering(plan: Plan) -> Plan:
    return with_bury(plan, TAIL_IN, 0)


def _bunched(plan: Plan) -> Plan:
    """The plan of a tail on its way in, the cover bunched over it as far as its strands let it."""
    for share in (1.0, 0.75, 0.5, 0.25):
        with suppress(CannotBeMade):
            return with_bury(plan, TAIL_IN, 0, share * BAG * plan.braid.diameter)
    return _entering(plan)


KINDS = (
    StateKind("buried", buried, LOCKED, finished=True),
    StateKind("cover-bunched", bunched, LOCKED, made_to=_bunched, finished=True),
    StateKind("plain-tail-in", buried, made_to=_entering, finished=True),
    StateKind("plain-cover-bunched", bunched, made_to=_bunched, finished=True),
    StateKind("plain-buried", buried, finished=True),
    StateKind("bury-too-short", buried, made_to=_short, finished=True, mistake=True),
    StateKind("no-taper", buried, made_to=_untapered, finished=True, mistake=True),
)
