"""The lock made with both ends free: the standing part's own end passes through the tail.

Its words are in `method.toml`, what is seen at the bench and what tells mistakes apart in `hints`.
"""

from __future__ import annotations

from typing import Any

from fidpath.methods.lock_placeholders import OF_A_LOCK
from fidpath.methods.registration import Diagnostics, Registration


def _diagnostics() -> Diagnostics[Any]:
    from fidpath.methods.locked_free.hints import DIAGNOSTICS

    return DIAGNOSTICS


REGISTRATION = Registration(OF_A_LOCK, _diagnostics)
