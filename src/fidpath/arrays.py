"""Types that all rooms share: arrays named for what they hold, a vector, and progress reports."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

Vector = tuple[float, float, float]
"""A place or a direction, mm."""

Progress = Callable[[str, float], None]
"""Told what is being done, and which share of all is done."""
