"""Loading: settled strands under tension, free to slide, with contact and friction, until they rest.

A `LoadingSetup` comes in: strands, what holds and pulls them, the bodies they bear on. Where they come to lie, their
tension and the guard's certificate go out. Open `setup` first, then `solver`. `tightening` draws loops tight without
friction.
"""

from fidpath.loading.setup import (
    DEFAULT,
    BodyKind,
    FixedBody,
    Loaded,
    LoadingSetup,
    Schedule,
    Stage,
    rod_body,
    seat_body,
    table_body,
)
from fidpath.loading.solver import load
from fidpath.loading.tightening import TightRope, tightened

__all__ = [
    "DEFAULT",
    "BodyKind",
    "FixedBody",
    "Loaded",
    "LoadingSetup",
    "Schedule",
    "Stage",
    "TightRope",
    "load",
    "rod_body",
    "seat_body",
    "table_body",
    "tightened",
]
