"""Output files, with a folder for each kind.

A `Scene`, a plan or settled strands come in; bytes go out.
"""

from fidpath.outputs.check_reports import finished_report, refuse_failures, state_report
from fidpath.outputs.font import font_file
from fidpath.outputs.loaded_report import loaded_report
from fidpath.outputs.registry import (
    Context,
    Item,
    Option,
    Output,
    PictureStyle,
    Product,
    Request,
    Result,
    Results,
    Turn,
)

__all__ = [
    "Context",
    "Item",
    "Option",
    "Output",
    "PictureStyle",
    "Product",
    "Request",
    "Result",
    "Results",
    "Turn",
    "finished_report",
    "font_file",
    "loaded_report",
    "refuse_failures",
    "state_report",
]
