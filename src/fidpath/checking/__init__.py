"""The independent check: measures what was settled and drawn; shares no code with the solver.

Strands, sections and the solver's log come in; a report of every figure, with its bound and what fails, goes out. Open
`report` first, then `step_report`. `rope_measures` has splits, order along the load line and take-up, `found_passes`
which leg goes through which hole, `invariants` what tells right from wrong.
"""

from fidpath.checking.failure_words import failure_words
from fidpath.checking.loaded_measures import measure_loaded
from fidpath.checking.report import SolverLog, measure
from fidpath.checking.report_sheet import as_text
from fidpath.checking.step_report import Planned, measure_step

__all__ = ["Planned", "SolverLog", "as_text", "failure_words", "measure", "measure_loaded", "measure_step"]
