"""The plain buried eye: no lock, the tail goes straight into the standing part at the throat.

Its words are in `method.toml`, what is seen at the bench and what tells mistakes apart in `hints`.
"""

from __future__ import annotations

from typing import Any

from fidpath.methods.placeholders import OF_AN_EYE
from fidpath.methods.registration import Diagnostics, Registration


def _diagnostics() -> Diagnostics[Any]:
    from fidpath.methods.plain_bury.hints import DIAGNOSTICS

    return DIAGNOSTICS


REGISTRATION = Registration(OF_AN_EYE, _diagnostics)
