"""States settled while somebody waits in front of them: stopped at once when they are wanted no more."""

from __future__ import annotations

import os
import sys
import threading

COURTESY = 5
"""How far this machine's own order puts settling behind what a person waits for (added to the `nice` of a thread)."""

LAST = 19
"""The last place in that order."""


class Overtaken(Exception):
    """What is being settled is wanted no more."""


def stand_back() -> None:
    """Puts the calling thread, and those it starts, behind the ones that answer a person, where the system can."""
    if sys.platform == "linux":
        own = threading.get_native_id()
        os.setpriority(os.PRIO_PROCESS, own, min(os.getpriority(os.PRIO_PROCESS, own) + COURTESY, LAST))
