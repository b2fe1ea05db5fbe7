"""Loading: settled strands under tension, free to slide, with contact and friction, until they rest.

A `LoadingSetup` comes in: strands, what holds and pulls them, the bodies they bear on. How they come to lie, their
tension and the guard's certificate go out. Open `setup` first, then `solver`; `lock` and `load_band` load a finished
splice, `in_hand` gives the steps' states the shapes that rope takes in the hand. `tightening` draws loops tight.
"""

from fidpath.loading.bury_grip import CoverGrip, cover_grip
from fidpath.loading.in_hand import all_in_hand, moments_in_hand, shaped_in_hand, state_in_hand
from fidpath.loading.load_band import LoadBand, let_go, load_band
from fidpath.loading.lock import LoadedLock
from fidpath.loading.setup import Schedule, SweepStage

__all__ = [
    "CoverGrip",
    "LoadBand",
    "LoadedLock",
    "Schedule",
    "SweepStage",
    "all_in_hand",
    "cover_grip",
    "let_go",
    "load_band",
    "moments_in_hand",
    "shaped_in_hand",
    "state_in_hand",
]
