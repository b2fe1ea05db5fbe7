"""The lock made with the other end captive: the tail passes through its own hole before the bight does.

Its words are in `method.toml`, what is seen at the bench in `sightings`, what tells mistakes apart in `hints`.
"""

from __future__ import annotations

from typing import Any

from fidpath.methods.lock_placeholders import OF_A_LOCK
from fidpath.methods.registration import Diagnostics, Registration


def _diagnostics() -> Diagnostics[Any]:
    from fidpath.methods.locked_captive.hints import DIAGNOSTICS

    return DIAGNOSTICS


REGISTRATION = Registration(OF_A_LOCK, _diagnostics, moves=True)
