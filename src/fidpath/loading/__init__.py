"""Loading: settled strands under tension, free to slide, with contact and friction, until they rest.

A `LoadingSetup` comes in: strands, what holds and pulls them, the bodies they bear on. Where they come to lie, their
tension and the guard's certificate go out. Open `setup` first, then `solver`. `lock` loads a finished splice, `load_band` over what is known of friction and thickness; `tightening` draws loops tight without
friction.
"""

from fidpath.loading.load_band import LoadBand, let_go, load_band
from fidpath.loading.lock import LoadCase, LoadedLock, loaded_lock
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
    "LoadBand",
    "LoadCase",
    "Loaded",
    "LoadedLock",
    "LoadingSetup",
    "Schedule",
    "Stage",
    "TightRope",
    "let_go",
    "load",
    "load_band",
    "loaded_lock",
    "rod_body",
    "seat_body",
    "table_body",
    "tightened",
]
