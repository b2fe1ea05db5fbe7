"""What the user asked for, checked and in mm, N and radians. No reading, no drawing."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from fidpath.job.bearing_body import Body

Weave = Literal["over-two", "over-one"]
SpliceKind = str
"""One of `fidpath.job.splice_kinds.end_kinds()`: the splices that there are methods of, or a fitting."""
AdjusterKind = Literal["turnbuckle", "lashing"]
WorkingHand = Literal["right", "left"]
"""The hand that works the splice: right as the methods are written, left their mirror image."""


def closes(strands: int, weave: Weave) -> bool:
    """Whether a braid of this many strands comes back to itself once round the rope."""
    step = 4 if weave == "over-two" else 2
    return strands >= 4 and strands % step == 0


@dataclass(frozen=True)
class Rope:
    """A hollow braid. Lengths in mm; `squeeze` is the share of its free radius a buried tail keeps.

    `pitch_guessed`: nobody has measured the pitch, and a usual one stands in its place.
    `loaded_diameter_mm`, `loaded_strain_share`: of plain rope under the load that is of interest, against no load.
    `friction`: of strand on strand, a band.
    """

    name: str
    diameter_mm: float
    diameter_min_mm: float
    diameter_max_mm: float
    strands: int
    weave: Weave
    pitch_mm: float
    squeeze: float
    pitch_guessed: bool = False
    strength_n: float | None = None
    stretch_share: float | None = None
    linear_density_ktex: float | None = None
    temperature_limit_c: float | None = None
    stretch_tension_n: float | None = None
    bedding_in_share: float | None = None
    loaded_diameter_mm: float | None = None
    loaded_strain_share: float | None = None
    friction: tuple[float, float] | None = None

    @property
    def pick_mm(self) -> float:
        """Spacing of the crossings along the rope, P/N."""
        return self.pitch_mm / self.strands


@dataclass(frozen=True)
class Terminator:
    """What sits in the eye: the word for its kind, its name on the sheets, and its body."""

    kind: str
    name: str
    body: Body

    @property
    def bearing_diameter_mm(self) -> float:
        """Diameter at which the rope bears at the crown; at the bottom of the groove where there is one."""
        return self.body.bearing_diameter


@dataclass(frozen=True)
class End:
    """One end of the line; `eye_length_mm` is None where the throat angle of the practice decides it.

    `terminator` is None where the job's own serves; `fitting_length_mm` runs from a made-up fitting's bearing
    point to the end of the rope in it.
    """

    name: str
    splice: SpliceKind
    eye_length_mm: float | None = None
    terminator: Terminator | None = None
    fitting_length_mm: float | None = None


@dataclass(frozen=True)
class Adjuster:
    """What takes up the line's error: how much shorter and longer than the finished length it can set it, mm."""

    kind: AdjusterKind
    shorten_mm: float
    lengthen_mm: float


@dataclass(frozen=True)
class Line:
    """The line: its name, its ends (the first is the one spliced), what its captive end is, parts to thread on.

    `finished_length_mm` runs from bearing point to bearing point under `tension_n`.
    """

    name: str
    ends: tuple[End, ...]
    captive_end: str
    thread_on_first: tuple[str, ...] = ()
    finished_length_mm: float | None = None
    tension_n: float | None = None
    confidence: float = 0.95
    adjuster: Adjuster | None = None


@dataclass(frozen=True)
class Tools:
    """Fid diameters in mm, smallest first, and the division of the tape in mm."""

    fids_mm: tuple[float, ...]
    tape_division_mm: float


@dataclass(frozen=True)
class StitchPattern:
    """A lock-stitch: so many stitches, `spacing_diameters` apart, of this twine; in words where the pattern is from."""

    stitches: int
    spacing_diameters: float
    twine: str
    source: str

    @property
    def length_diameters(self) -> float:
        """From the first stitch to the last, in rope diameters."""
        return (self.stitches - 1) * self.spacing_diameters


@dataclass(frozen=True)
class Practice:
    """The loft's own rules; bury and hole gap in rope diameters, angles in radians, tension in N.

    `set_load_n`, `set_time`: the load that the splice is set under and for how long, as written; None and "" where the
    job leaves them to the rope maker. `stitch`: how the bury is stitched, None where it isn't. `sources`: what the job
    says of where figures come from, as (key, words). `hand`: left mirrors the method, its words and its pictures.
    """

    bury_diameters: float
    taper_share: float
    taper_drops: int
    hole_gap_diameters: float
    throat_angle: float
    post_stretch_share: float
    reference_tension_n: float
    neck_diameters: float
    stitch: StitchPattern | None = None
    set_load_n: float | None = None
    set_time: str = ""
    sources: tuple[tuple[str, str], ...] = ()
    hand: WorkingHand = "right"

    @property
    def mirrored(self) -> bool:
        """Whether everything is worked as the mirror image of what the methods say."""
        return self.hand == "left"

    @property
    def lock_stitch(self) -> bool:
        """Whether the bury is stitched."""
        return self.stitch is not None

    def source(self, key: str) -> str | None:
        """Where the job says that a figure of this table comes from; None where it doesn't."""
        return dict(self.sources).get(key)


@dataclass(frozen=True)
class Printing:
    """The printer and the cutter that jigs are made on, mm. The defaults are fidpath's own choice, no source.

    `clearance_mm` is the whole play of parts that fit together; `bed_mm` is how wide, deep and high the printer can
    print; `slot_shrink_mm` is how much narrower than drawn it makes a slot (the calibration coupon tells); `kerf_mm`
    is the width that a cutter takes away; a scale model is `scale` times as large as the rope, and its strands
    run `fuse_mm` into one another.
    """

    nozzle_mm: float = 0.4
    clearance_mm: float = 0.08
    bed_mm: tuple[float, float, float] = (220.0, 220.0, 220.0)
    text_height_mm: float = 4.0
    plate_mm: float = 4.0
    slot_shrink_mm: float = 0.0
    kerf_mm: float = 0.15
    scale: float = 3.0
    fuse_mm: float = 0.4


@dataclass(frozen=True)
class Job:
    """One job file. `units` maps keys such as "rope.pitch" to the unit the user wrote; `source` is the file's name."""

    name: str
    rope: Rope
    terminator: Terminator
    line: Line
    tools: Tools
    practice: Practice
    printing: Printing = Printing()
    length_unit: str = "mm"
    source: str = ""
    units: dict[str, str] = field(default_factory=dict, compare=False)

    def gives(self, key: str) -> bool:
        """Whether the file itself gives this key, such as "practice.bury"; left out, a rule stands in its place."""
        return key in self.units
