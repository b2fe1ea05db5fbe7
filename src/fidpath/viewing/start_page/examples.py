"""Files to begin with: a whole line, a set, a practice file, measurements. An invented scenario; no maker's figures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Example:
    """A file that is valid as it stands, in a few words, under a name."""

    words: str
    file: str
    text: str


HEAD = "# {0}\n# An invented example: replace the figures by your own.\nschema = 1\n"

LINE = (
    HEAD.format("A whole line between two pins: the rope to cut and every mark.")
    + """\
name = "stay"

[rope]
name = "12-strand HMPE, 10 mm"
diameter = "10 mm"
strands = 12
weave = "over-two"
pitch = "unknown"

[terminator]
kind = "ring"
name = "grooved ring"
bearing_diameter = "50 mm"
groove_radius = "5.5 mm"
width = "14 mm"

[line]
name = "stay"
finished_length = "9.350 m"            # from pin to pin, an adjuster's length taken off
tension = "6 kN"                       # in use

[[line.ends]]
name = "lower end"
splice = "locked-captive"

[[line.ends]]
name = "upper end"
splice = "locked-free"

[tools]
fids = ["8 mm", "12 mm"]
tape_division = "1 mm"
"""
)

SET = (
    HEAD.format("A set: one cut list and the marks of each line.")
    + """\
name = "rig"
job = "stay.toml"                      # the job file of every line that names no other

[[lines]]
name = "cap shroud"
quantity = 2
finished_length = "9.35 m"

[[lines]]
name = "aft shroud"
quantity = 2
finished_length = "8.12 m"

[[spools]]
name = "spool A"
rope = "12-strand HMPE, 10 mm"
length = "60 m"
"""
)

LOFT = (
    HEAD.format("A practice file: what your own test splices say of a rope.")
    + """\
name = "loft"

[[ropes]]
name = "12-strand HMPE, 10 mm"
diameter = "10 mm"
strands = 12
weave = "over-two"
pitch = "7 d"

[[test_splices]]                       # two marks on the standing part, either side of the whole bury
name = "T1"
rope = "12-strand HMPE, 10 mm"
before = "1000 mm"                     # between the marks, plain
after = "918 mm"                       # the same with the tail in it
bury = "720 mm"
tension = "125 N"
date = 2026-03-14
"""
)

MEASURED = (
    HEAD.format("What was measured of a finished splice; leave out what you haven't measured.")
    + """\

[measured]
end = 1                                # first or second of the job's ends
date = 2026-03-20
tension = "125 N"
bury = "718 mm"
eye_length = "121 mm"                  # throat to crown
swollen_diameter = "16.4 mm"
"""
)

EXAMPLES: Mapping[str, Example] = {
    "line": Example("a whole line", "stay.toml", LINE),
    "set": Example("a set of lines", "set.toml", SET),
    "loft": Example("a practice file with test splices", "loft.toml", LOFT),
    "measured": Example("measurements of a splice", "measured.toml", MEASURED),
}
"""By a key; each is read by its reader in the tests."""
