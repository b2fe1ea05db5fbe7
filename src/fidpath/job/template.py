"""The job file that `fidpath new` writes: valid as it stands, every key with a note beside it."""

from __future__ import annotations

from pathlib import Path

from fidpath.errors import OutputError
from fidpath.job.splice_kinds import USUAL_SPLICE, splices
from fidpath.machine import RESERVED

TEXT = """\
# A job file: one locked eye splice, its rope, what sits in the eye, and your tools.
# Write lengths and other figures with their unit: "10 mm", "0.5 m", "3/8 in", "1 3/8 in", "2 ft 3 in".
# "7 d" is seven rope diameters. Lines that begin with # are notes, or keys you may use.
# The figures below are an example: replace them by those of your own rope, and follow its maker's data.

schema = 1                             # version of the file format
name = "{name}"                        # results go to exports/ under this name

[rope]
name = "12-strand HMPE, 10 mm"         # connects the job with the loft's test splices
diameter = "10 mm"                     # nominal diameter of the rope, in mm or in
# diameter_min = "9.6 mm"              # smallest diameter, if the data sheet gives it
# diameter_max = "10.5 mm"             # greatest diameter
strands = 12                           # a multiple of 4; half of them turn each way
weave = "over-two"                     # or "over-one": how many strands each strand passes over
pitch = "unknown"                      # uses a guess; better: count crossings along one line on top of the rope
# crossings = 20                       # this many crossings, under the reference tension,
# over = "233 mm"                      # take this much rope; or write pitch = "7 d" if you know it
squeeze = 0.75                         # share of its free diameter that a buried tail keeps
# strength = "95 kN"                   # from the rope maker's data sheet; no length depends on it
# stretch = "1.2 %"                    # elastic, from the data sheet: a share, or %
# linear_density = "52 g/m"            # from the data sheet; or lb/100 ft
# temperature_limit = "60 degC"        # from the data sheet; or degF

[terminator]
{terminator}

[line]
name = "shroud"                        # name of the line on the sheets
captive_end = "made off to a fitting"  # why nothing can be passed over the other end
thread_on_first = []                   # what can't be put on when the eye is closed, such as ["chafe sleeve"]

[[line.ends]]                          # the end to be spliced
name = "lower end"                     # name of the end on the sheets
splice = "{splice}"              # how it is made; or {others}
# eye_length = "120 mm"                # throat to crown; default: from practice.throat_angle

[tools]
fids = ["8 mm", "12 mm"]               # diameters of your fids
# fid_sizes = {{ "no. 3" = "8 mm" }}     # your own names for fids, which fids may use; or a file: "fids.toml"
tape_division = "1 mm"                 # finest division of the tape; or "1/16 in"

[practice]
# Rules of practice. If a key is left out, the program's own list gives the rule and its source.
bury = "72 d"                          # common practice, no source; the rope maker's figure comes first
hole_gap = "1 d"                       # clear rope between the two holes
# taper_share = 0.33                   # share of the bury that tapers: its last third
# taper_drops = 5                      # pairs of strands cut out, one after the other
# throat_angle = "45 deg"              # angle between the legs, if no eye_length is given
# neck = "1.1 d"                       # bare rope between the last hole and the bury
# post_stretch = "2 %"                 # stretch allowed when the eye is worked over a post
# reference_tension = "125 N"          # tension under which lengths are measured
lock_stitch = false                    # true: stitched; or {{ stitches = 7, spacing = "1 d", twine = "1 mm" }}
# hand = "left"                        # left-handed work: words and pictures are the mirror image
# set_load = "10 kN"                   # the load that the maker has the splice set under,
# set_time = "30 min"                  # and for how long, before the last measuring; both stand on the card
# makers = "makers.toml"               # a file of your own: a table of rules for each maker, with its source;
# maker = "name in that file"          # its figures stand where this table gives none
# bury_source = "maker: instructions"  # source of the bury; printed beside it, and the rule gives no warning
# taper_source = "maker: instructions" # the same for the taper,
# hole_gap_source = "our own tests"    # for the hole gap,
# lock_stitch_source = "maker: sheet"  # and for the lock-stitch

[print]
# Your printer and cutter, for `fidpath jig`.
# nozzle = "0.4 mm"                    # diameter of the nozzle
# bed = ["220 mm", "220 mm", "220 mm"] # width, depth and height that it prints
# clearance = "0.08 mm"                # total play of parts that fit together
# slot_shrink = "0.1 mm"               # how much narrower than drawn a slot becomes: print the coupon and measure it
# text_height = "4 mm"                 # height of the letters on gauges
# plate = "4 mm"                       # thickness of the flat gauges
# kerf = "0.15 mm"                     # width that a laser or a mill removes, for gauges that are cut
# scale = 3                            # scale models: 2 to 5 times the rope
# fuse = "0.4 mm"                      # how far a model's strands overlap
"""


KIND = "ring"
"""The kind of terminator that a new file begins with."""

NOTES_AT = 39
"""Column of a line's note."""


def template(name: str) -> str:
    """A commented job file for a job of this name, valid as it stands."""
    usable = "".join(letter for letter in name if letter.isalnum() or letter in " _-").strip(" _-")
    others = ", ".join(f'"{kind}"' for kind in splices() if kind != USUAL_SPLICE)
    job_name = "my splice" if not usable or RESERVED.fullmatch(usable) else usable[:80]
    return TEXT.format(name=job_name, splice=USUAL_SPLICE, others=others, terminator="\n".join(terminator_lines()))


def terminator_lines() -> list[str]:
    """The keys of the kind that a new file begins with, then in notes those that other kinds have, each with its note.

    The same key with the same note stands once, for all the kinds that have it so.
    """
    from fidpath.job.terminators.registry import kinds

    known = kinds()
    first = known.pop(KIND)
    own = first.keys()
    others = ", ".join(f'"{word}"' for word in known)
    lines = [
        f"# The kind may also be {others}.",
        "# Keys that only those kinds have are listed below as notes.",
    ]
    lines += [_line(f'kind = "{KIND}"', first.note)]
    lines += [_line(f"{name} = {key.written}", key.note) for name, key in own.items()]
    theirs: dict[tuple[str, str], list[str]] = {}
    for word, kind in known.items():
        for name, key in kind.keys().items():
            if name not in own:
                theirs.setdefault((f"# {name} = {key.written}", key.note), []).append(word)
    return lines + [_line(written, f"{', '.join(words)}: {note}") for (written, note), words in theirs.items()]


def _line(written: str, note: str) -> str:
    """A line of the file with its note."""
    return f"{written:<{NOTES_AT - 1}} # {note}"


def write_new(path: Path) -> None:
    """Write a new job file. Raises OutputError where there is something already, or it can't be written."""
    try:
        with path.open("x", encoding="utf-8", newline="\n") as stream:
            stream.write(template(path.stem))
    except FileExistsError:
        raise OutputError("this file exists and was not changed", "Give another name", file=str(path)) from None
    except (OSError, ValueError) as problem:
        why = problem.strerror if isinstance(problem, OSError) and problem.strerror else str(problem)
        raise OutputError(f"the file can't be written: {why}", "Check the folder", file=str(path)) from None
