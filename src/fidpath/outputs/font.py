"""The typeface of handout, line art and window: DejaVu Sans, which matplotlib brings along.

The machine's own fonts are never used, so that every machine prints the same.
"""

from __future__ import annotations

from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path

from fidpath.errors import EnvironmentProblem


@lru_cache(maxsize=2)
def font_file(bold: bool = False) -> Path:
    """The typeface's file, found without loading matplotlib. Raises EnvironmentProblem where it is missing."""
    found = find_spec("matplotlib")
    for folder in found.submodule_search_locations or () if found is not None else ():
        file = Path(folder) / "mpl-data" / "fonts" / "ttf" / ("DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf")
        if file.is_file():
            return file
    raise EnvironmentProblem(
        "the typeface DejaVu Sans is missing, which matplotlib brings along", "Install matplotlib again"
    )
