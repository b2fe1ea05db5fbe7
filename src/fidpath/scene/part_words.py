"""What parts are called where a person reads of them."""

from __future__ import annotations

from collections.abc import Mapping

from fidpath.geometry import Part

PART_WORDS: Mapping[Part, str] = {
    Part.STANDING_PART: "standing part",
    Part.COVER: "cover",
    Part.STANDING_NECK: "neck, standing part",
    Part.STANDING_LOCK_LEG: "lock, standing part",
    Part.EYE: "eye",
    Part.BETWEEN_THE_HOLES: "between the holes",
    Part.TAIL_LOCK_LEG: "lock, tail",
    Part.TAIL_NECK: "neck, tail",
    Part.TAIL: "tail",
    Part.TOP_GROUP: "top group",
    Part.BOTTOM_GROUP: "bottom group",
    Part.PEN_MARK: "tick of ink",
    Part.FACE_DOT: "dot of ink",
    Part.FACE_DOT_RIM: "rim of the dot",
    Part.DOTTED_FACE: "dotted face",
    Part.PLAIN_FACE: "other face",
    Part.FOLLOWED_STRAND: "one strand of the group",
    Part.CROSSED_OUT: "wrong",
    Part.TERMINATOR: "terminator",
    Part.TERMINATOR_ASIDE: "terminator aside",
    Part.FID: "fid",
    Part.WHIPPING: "whipping",
    Part.MARKER_NIB: "nib",
    Part.MARKER_BARREL: "barrel",
    Part.KNIFE_BLADE: "blade",
    Part.KNIFE_HANDLE: "handle",
    Part.POST: "smooth post",
    Part.STRAIGHT_EDGE: "straight edge",
    Part.MEASURING_TAPE: "measuring tape",
    Part.TICKS: "ticks",
    Part.NEEDLE: "needle",
    Part.LOCK_STITCH: "lock stitch",
    Part.LONG_FID: "long fid, wire or puller",
    Part.MARK_SLEEVE: "mark sleeve",
    Part.ARROW: "arrow",
    Part.GHOST: "where the rope lay before",
    Part.BREAK: "rope not shown",
}
"""One entry for every part."""

SIGN_WORDS: Mapping[Part, str] = {
    **{part: PART_WORDS[part] for part in (Part.TOP_GROUP, Part.BOTTOM_GROUP, Part.FOLLOWED_STRAND)},
    **{part: PART_WORDS[part] for part in (Part.PEN_MARK, Part.FACE_DOT, Part.CROSSED_OUT)},
    Part.TERMINATOR: PART_WORDS[Part.TERMINATOR],
    Part.MARKER_BARREL: "pen",
    Part.KNIFE_BLADE: "knife",
    **{part: PART_WORDS[part] for part in (Part.FID, Part.LONG_FID, Part.POST, Part.NEEDLE, Part.LOCK_STITCH)},
    **{part: PART_WORDS[part] for part in (Part.WHIPPING, Part.STRAIGHT_EDGE, Part.MEASURING_TAPE)},
    Part.MARK_SLEEVE: PART_WORDS[Part.MARK_SLEEVE],
    Part.BREAK: PART_WORDS[Part.BREAK],
    Part.ARROW: "moves this way",
    Part.GHOST: PART_WORDS[Part.GHOST],
}
"""What a picture's key says of what isn't a stretch of rope, in the key's order."""
