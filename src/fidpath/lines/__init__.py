"""Whole lines: jobs, a loft's test splices and spools in stock -> rope to cut, with its uncertainty.

Jobs, sets, lofts and measurements come in; lines, cut lists, calibrations and comparisons of what was made with what
was planned go out. Open `line` first.
"""

from fidpath.lines.line import make_line
from fidpath.lines.loft import by_loft, calibrate
from fidpath.lines.loft_file import Loft, read_loft
from fidpath.lines.planned_and_measured import Measured, compare, read_measured
from fidpath.lines.set_file import read_set, read_spools
from fidpath.lines.sets import SetPlan, make_set
from fidpath.lines.terms import basis
from fidpath.lines.uncertainty import TakeUpEstimate

__all__ = [
    "Loft",
    "Measured",
    "SetPlan",
    "TakeUpEstimate",
    "basis",
    "by_loft",
    "calibrate",
    "compare",
    "make_line",
    "make_set",
    "read_loft",
    "read_measured",
    "read_set",
    "read_spools",
]
