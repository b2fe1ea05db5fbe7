"""The lock made with the other end captive: the tail passes through its own hole before the bight does.

Its words are in `method.toml`, what is seen at the bench in `sightings`, what tells mistakes apart in `hints`.
"""

from __future__ import annotations

from fidpath.methods.lock_placeholders import OF_A_LOCK
from fidpath.methods.locked_captive.hints import DIAGNOSTICS
from fidpath.methods.registration import Registration

REGISTRATION = Registration(OF_A_LOCK, DIAGNOSTICS, moves=True)
