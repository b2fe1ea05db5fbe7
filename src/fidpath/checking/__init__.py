"""The independent check: measures what was settled and drawn; shares no code with the solver.

Strands, sections and the solver's log come in; a report of every figure, with its bound and what fails, goes out. Open
`report` first, then `step_report`.
"""

from fidpath.checking.report import SolverLog, measure

__all__ = ["SolverLog", "measure"]
