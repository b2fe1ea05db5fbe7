"""The job file that `fidpath new` writes: valid as it stands, every key with a note beside it."""

from __future__ import annotations

from pathlib import Path

from fidpath.errors import OutputError
from fidpath.job.splice_kinds import USUAL_SPLICE, splices
from fidpath.machine import RESERVED

TEXT = """\
# A job file: one locked eye splice, its rope, what sits in the eye, and what is at hand.
# Write measures with their unit: "10 mm", "0.5 m", "3/8 in", "1 3/8 in", "2 ft 3 in".
# "7 d" is seven rope diameters. Lines that begin with # are notes, or keys you may use.
# The figures below are an example: put in those of your own rope, and follow its maker's data.

schema = 1                             # the version of this file's form
name = "{name}"                        # results go to exports/ under this name

[rope]
name = "12-strand HMPE, 10 mm"         # ties the job to the loft's test splices
diameter = "10 mm"                     # nominal, of the rope in hand: mm or in
# diameter_min = "9.6 mm"              # the least it may be, if the data sheet gives it
# diameter_max = "10.5 mm"             # the greatest it may be
strands = 12                           # a multiple of 4; half of them turn each way
weave = "over-two"                     # how many each strand passes over: or "over-one"
pitch = "unknown"                      # a guess is made; better: count crossings along one line on top of the rope
# crossings = 20                       # so many, under the reference tension,
# over = "233 mm"                      # take up this much rope; or write pitch = "7 d" if you know it
squeeze = 0.75                         # share that is left of a buried tail's free diameter
# strength = "95 kN"                   # from the rope maker's data sheet; no length comes of it
# stretch = "1.2 %"                    # elastic, from the data sheet: a share, or %
# linear_density = "52 g/m"            # from the data sheet; or lb/100 ft
# temperature_limit = "60 degC"        # from the data sheet; or degF

[terminator]
{terminator}

[line]
name = "shroud"                        # the line's name on the sheets
captive_end = "made off to a fitting"  # what keeps anything from being passed over the other end
thread_on_first = []                   # such as ["chafe sleeve"]: what can't be put on once the eye is closed

[[line.ends]]                          # the end to be spliced
name = "lower end"                     # the end's name on the sheets
splice = "{splice}"              # how it is made; or {others}
# eye_length = "120 mm"                # throat to crown; left out, practice.throat_angle decides it

[tools]
fids = ["8 mm", "12 mm"]               # diameters of the fids at hand
tape_division = "1 mm"                 # the finest on the tape; or "1/16 in"

[practice]
# Rules of practice; left out, the program's own list gives them, each with its source.
bury = "72 d"                          # common practice, no source; the rope maker's figure comes first
hole_gap = "1 d"                       # clear rope between the two holes
# taper_share = 0.33                   # share of the bury that tapers: its last third
# taper_drops = 5                      # pairs of strands cut out, one after the other
# throat_angle = "45 deg"               # between the legs, where no eye_length is given
# neck = "1.1 d"                       # bare rope between the last hole and the bury
# post_stretch = "2 %"                 # stretch allowed when the eye is worked over a post
# reference_tension = "125 N"          # tension under which lengths are measured
lock_stitch = false                    # true: stitched; or {{ stitches = 7, spacing = "1 d", twine = "1 mm" }}
# bury_source = "maker: instructions"  # where the bury comes from; printed beside it, and the rule is silent
# taper_source = "maker: instructions" # the same for the taper,
# hole_gap_source = "our own tests"    # for the hole gap,
# lock_stitch_source = "maker: sheet"  # and for the lock-stitch

[print]
# The printer and the cutter that `fidpath jig` makes gauges and solids for.
# nozzle = "0.4 mm"                    # the printer's
# bed = ["220 mm", "220 mm", "220 mm"] # how wide, deep and high it prints
# clearance = "0.08 mm"                # whole play of parts that fit together
# slot_shrink = "0.1 mm"               # how much narrower than drawn it makes a slot: print the coupon and measure
# text_height = "4 mm"                 # of the letters on gauges
# plate = "4 mm"                       # thickness of the flat gauges
# kerf = "0.15 mm"                     # what a laser or a mill takes away, for gauges that are cut
# scale = 3                            # scale models: 2 to 5 times the rope
# fuse = "0.4 mm"                      # how far a model's strands run into one another
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
        "# Keys that only those have are noted below, each with its kind.",
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
        raise OutputError("this is there already, and is left as it is", "Give another name", file=str(path)) from None
    except (OSError, ValueError) as problem:
        why = problem.strerror if isinstance(problem, OSError) and problem.strerror else str(problem)
        raise OutputError(f"the file can't be written: {why}", "Check the folder", file=str(path)) from None
