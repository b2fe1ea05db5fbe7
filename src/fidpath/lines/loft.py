"""What a loft's test splices say of take-up: geometry's estimate first, their ratios on top, in closed form.

Assumed: ratios of one rope scatter normally, alike for every length of bury; splices are independent; they were
measured under one tension. The update is in `uncertainty`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import numpy as np

from fidpath.arrays import Floats
from fidpath.errors import FidpathError, JobError
from fidpath.geometry import braid_of, cover, taper
from fidpath.job import Job, Practice, Rope
from fidpath.lines.loft_file import Loft, TestSplice, read_loft, with_rules
from fidpath.lines.uncertainty import TakeUpEstimate, prior, t_quantile, updated
from fidpath.planning import ENTRY_TAKE_UP

OUTLIER = 0.99
"""A test splice outside the interval that holds this share of what its fellows foretell is named."""

SHORT, LONG = 24.0, 72.0
"""Burys, in rope diameters, between and beyond which the cover grows straight with the bury."""

ASSUMPTIONS = (
    "Each rope has one factor by which its take-up differs from geometry's; single splices scatter about it normally.",
    "The scatter is the same share of the take-up for every length of bury.",
    "Test splices are independent, and are made by the same hands and under the same tension as the next ones.",
    "Factor and scatter are both unknown: intervals are Student's t, from a conjugate prior in closed form.",
)


@dataclass(frozen=True)
class Tried:
    """One test splice against the model: geometry's take-up in mm, measured over geometry, and how far off.

    `off` is its distance from what the other test splices foretell, in standard scales; `bound` what passes.
    `factor_without` is the factor if it were left out; it never is.
    """

    test: TestSplice
    geometry: float
    ratio: float
    off: float
    bound: float
    factor_without: float

    @property
    def outlier(self) -> bool:
        """Whether it lies outside what its fellows foretell."""
        return abs(self.off) > self.bound


@dataclass(frozen=True)
class Calibration:
    """What is believed of one rope's take-up, and every test splice behind it."""

    rope: Rope
    practice: Practice
    estimate: TakeUpEstimate
    tried: tuple[Tried, ...]

    @property
    def bury(self) -> float:
        """The bury that a splice in this rope has by the loft's rules, mm."""
        return self.practice.bury_diameters * self.rope.diameter_mm

    def expected(self, bury: float) -> float:
        """Take-up to expect of a bury of `bury` mm, mm."""
        return self.estimate.mean * cover_of(self.rope, self.practice, bury)[0]

    def give_or_take(self, bury: float, confidence: float) -> float:
        """How far the next splice may be from that, mm."""
        return self.estimate.half_width(confidence) * cover_of(self.rope, self.practice, bury)[0]

    @property
    def outliers(self) -> tuple[Tried, ...]:
        """Test splices to look at again; they count all the same."""
        return tuple(tried for tried in self.tried if tried.outlier)


def calibrate(loft: Loft) -> tuple[Calibration, ...]:
    """Every rope of the loft. Raises JobError where a test splice can't be."""
    pairs = zip(loft.ropes, loft.practices, strict=True)
    return tuple(_calibration(rope, practice, loft) for rope, practice in pairs)


def by_loft(job: Job, practice: Path | None) -> tuple[Job, TakeUpEstimate | None]:
    """The job by the rules of a practice file, and what its loft believes of the rope; the job alone without one."""
    if practice is None:
        return job, None
    loft = read_loft(practice)
    try:
        return with_rules(job, loft), estimate_for(loft, job.rope)
    except FidpathError as error:
        error.file = error.file or str(practice)
        raise


def estimate_for(loft: Loft, rope: Rope) -> TakeUpEstimate:
    """What the loft believes of a rope's take-up, by its name; the wide prior where it has none of that name."""
    matches = [index for index, known in enumerate(loft.ropes) if known.name == rope.name]
    if not matches:
        return prior()
    _check_same(rope, loft.ropes[matches[0]], loft)
    return _calibration(loft.ropes[matches[0]], loft.practices[matches[0]], loft).estimate


def _check_same(rope: Rope, known: Rope, loft: Loft) -> None:
    """Refuse figures of another rope that goes by the same name."""
    same = ("diameter_mm", "strands", "weave", "pitch_mm", "squeeze")
    differ = [name for name in same if getattr(rope, name) != getattr(known, name)]
    if differ:
        words = ", ".join(name.removesuffix("_mm") for name in differ)
        raise JobError(
            f"the job's rope \"{rope.name}\" differs from the loft's in {words}",
            "Give different ropes different names, or make the two files agree",
            file=loft.source,
        )


def _calibration(rope: Rope, practice: Practice, loft: Loft) -> Calibration:
    """One rope's take-up."""
    tests = tuple(test for test in loft.tests if test.rope == rope.name)
    geometry = np.array([_geometry(test, rope, practice, loft) for test in tests])
    ratios = np.array([test.take_up for test in tests]) / geometry
    estimate = updated(prior(), ratios, tuple(test.name for test in tests))
    tried = tuple(_tried(test, float(geometry[i]), np.delete(ratios, i), ratios[i]) for i, test in enumerate(tests))
    return Calibration(rope, practice, estimate, tried)


def _tried(test: TestSplice, geometry: float, others: Floats, ratio: float) -> Tried:
    """One test splice against what all the others foretell."""
    foretold = updated(prior(), others)
    off = (float(ratio) - foretold.mean) / foretold.next_scale
    return Tried(test, geometry, float(ratio), off, t_quantile(OUTLIER, foretold.freedom), foretold.mean)


def _geometry(test: TestSplice, rope: Rope, practice: Practice, loft: Loft) -> float:
    """Geometry's take-up of a test splice, mm. Raises JobError where its marks can't have spanned the bury."""
    take_up, span = cover_of(rope, practice, test.bury)
    if test.after < 0.98 * span:
        raise JobError(
            f"{test.name}: {test.after:g} mm between the marks is less than the bury's own {span:.0f} mm",
            "Put both marks on the standing part, one on each side of the whole bury",
            file=loft.source,
            key="test_splices",
        )
    return take_up


def cover_of(rope: Rope, practice: Practice, bury: float) -> tuple[float, float]:
    """Take-up of the cover over a bury of `bury` mm, and the length it covers when made, mm.

    From SHORT on both grow straight with the bury (to one part in ten million), as its taper is a share of it.
    """
    low, high = SHORT * rope.diameter_mm, LONG * rope.diameter_mm
    if bury < low:
        return _cover(rope, practice, bury)
    near, far = _cover(rope, practice, low), _cover(rope, practice, high)
    share = (bury - low) / (high - low)
    return near[0] + share * (far[0] - near[0]), near[1] + share * (far[1] - near[1])


@lru_cache(maxsize=1024)
def _cover(rope: Rope, practice: Practice, bury: float) -> tuple[float, float]:
    """The same by the model of the bury itself."""
    braid = braid_of(rope)
    cut = taper(braid.strands, bury, practice.taper_share, practice.taper_drops, braid.diameter)
    swallowed = cover(braid, rope.squeeze, cut)
    return swallowed.take_up + ENTRY_TAKE_UP * braid.diameter, swallowed.tip_axial
