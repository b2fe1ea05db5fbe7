"""`Plan` -> `RopeState` -> strands before settling: where the rope lies, is opened and passes through itself.

A `Plan` and the kind of a state come in; a `Draft` of strands goes out. Open `rope_state` first, then `kinds`. The
`*_states` modules hold the recipes; a new kind is a recipe and its record there. `draping` lays the braid on any of
them.
"""

from fidpath.states.draft import Draft, draft_of, hole_of
from fidpath.states.draping import axis_of
from fidpath.states.kinds import FINISHED, KINDS, kind_of, made, state_of
from fidpath.states.lock_states import LONG, bent
from fidpath.states.recipe import StateBuilder, builder_of
from fidpath.states.rope_state import Grip, Pass, Pull, RopeState, Tool, mirrored
from fidpath.states.state_kind import Linking
from fidpath.states.thinning import Start, thinned

__all__ = [
    "FINISHED",
    "KINDS",
    "LONG",
    "Draft",
    "Grip",
    "Linking",
    "Pass",
    "Pull",
    "RopeState",
    "Start",
    "StateBuilder",
    "Tool",
    "axis_of",
    "bent",
    "builder_of",
    "draft_of",
    "hole_of",
    "kind_of",
    "made",
    "mirrored",
    "state_of",
    "thinned",
]
