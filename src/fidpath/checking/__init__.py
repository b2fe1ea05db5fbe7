"""The independent check: measures what was settled and drawn; shares no code with the solver."""

from fidpath.checking.report import SolverLog, measure

__all__ = ["SolverLog", "measure"]
