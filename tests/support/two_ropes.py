"""Two ropes in one model, without a terminator: the guest runs through a hole opened in the host, lettered A."""

from __future__ import annotations

from functools import cache

import numpy as np

from fidpath.geometry import Opening
from fidpath.geometry.braid import Braid
from fidpath.geometry.curve import chain
from fidpath.geometry.parts import Part
from fidpath.settling import Settled, settle
from fidpath.settling.thin_start import clearest
from fidpath.states.rope_state import Pass, RopePath, RopeState
from shapes import a_braid

HOST, GUEST = a_braid(), a_braid(8.0, strands=8)
D = HOST.diameter


def straight_rope(braid: Braid, heading: float, reach: float, name: str) -> RopePath:
    """A straight rope through the table's origin, which is its station 0."""
    start = (-reach * float(np.cos(heading)), -reach * float(np.sin(heading)))
    line = chain([(2 * reach, 0.0)], 0.4 * D, heading, start)
    stretches = ((Part.STANDING_PART, float("-inf")), (Part.TAIL, 0.0))
    return RopePath(braid, line, reach, -0.8 * reach, 0.8 * reach, stretches=stretches, name=name)


@cache
def state(heading: float = -np.pi / 2) -> RopeState:
    """The guest runs through hole A of the host, by its left face."""
    ropes = straight_rope(HOST, 0.0, 120.0, "host"), straight_rope(GUEST, heading, 90.0, "guest")
    hole = Opening("A", 0.0, 1.4 * D, 0.5 * D, 0.35 * D)
    face = "left" if heading < 0 else "right"
    return RopeState("two-ropes", ropes, (hole,), (Pass("A", 0.0, face, rope=1),))


@cache
def settled(heading: float = -np.pi / 2) -> Settled:
    return settle(clearest(state(heading)), bound=0.0009)
