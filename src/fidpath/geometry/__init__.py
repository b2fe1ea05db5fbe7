"""Geometry of the rope, independent of any plan: braid and weave, plane curves, crossing zone, eye and throat, neck.

`bury` has what happens where a tail is buried: swollen cover, take-up, squeeze, taper; `seat` the terminator's body
that rope bears on. Diameters, pitches and angles come in; lengths, angles and `(strands, n, 3)` arrays go out. Open
`braid` first.
"""

from fidpath.geometry.braid import Braid, braid_of, hands, lift, straight, strand_angles, strand_offsets
from fidpath.geometry.bury import Cover, Taper, cover, smooth_step, taper, wall
from fidpath.geometry.crossing_zone import BLEND, NO_CROSSING, CrossingZone, crossing_of_gap
from fidpath.geometry.curve import Chain, chain, curvature, heading, newton, points, run_along
from fidpath.geometry.eye import (
    Eye,
    eye_of_distance,
    eye_of_loop,
    eye_of_throat,
    leg_chain,
    leg_tension_share,
    throat_angle,
)
from fidpath.geometry.marking_loop import MarkingLoop, passed_loop, wrapped_loop
from fidpath.geometry.neck import ENTRY_GAP, SHARED, Neck, neck_of_length
from fidpath.geometry.parting import (
    DWELL,
    NARROWED,
    Opening,
    across,
    arc_lengths,
    parted_ones,
    passed_hole,
    side_by_side,
    stations,
    top_group,
)
from fidpath.geometry.parts import Part, PartNumbers
from fidpath.geometry.rods import Rod, table
from fidpath.geometry.seat import Seat, clearance, seat_of
from fidpath.geometry.strands import Bury, Hole, LaidRope, RopePart, Strands, of_one_rope, of_ropes, padded

__all__ = [
    "BLEND",
    "DWELL",
    "ENTRY_GAP",
    "NARROWED",
    "NO_CROSSING",
    "SHARED",
    "Braid",
    "Bury",
    "Chain",
    "Cover",
    "CrossingZone",
    "Eye",
    "Hole",
    "LaidRope",
    "MarkingLoop",
    "Neck",
    "Opening",
    "Part",
    "PartNumbers",
    "Rod",
    "RopePart",
    "Seat",
    "Strands",
    "Taper",
    "across",
    "arc_lengths",
    "braid_of",
    "chain",
    "clearance",
    "cover",
    "crossing_of_gap",
    "curvature",
    "eye_of_distance",
    "eye_of_loop",
    "eye_of_throat",
    "hands",
    "heading",
    "leg_chain",
    "leg_tension_share",
    "lift",
    "neck_of_length",
    "newton",
    "of_one_rope",
    "of_ropes",
    "padded",
    "parted_ones",
    "passed_hole",
    "passed_loop",
    "points",
    "run_along",
    "seat_of",
    "side_by_side",
    "smooth_step",
    "stations",
    "straight",
    "strand_angles",
    "strand_offsets",
    "table",
    "taper",
    "throat_angle",
    "top_group",
    "wall",
    "wrapped_loop",
]
