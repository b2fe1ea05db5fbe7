"""The lock made with the other end captive.

The tail passes through its own hole before the bight does. `method.toml` has its steps, words and mistakes.
"""

from __future__ import annotations

from fidpath.methods.lock_placeholders import OF_A_LOCK
from fidpath.methods.locked_captive.hints import DIAGNOSTICS
from fidpath.methods.registration import Registration

REGISTRATION = Registration(OF_A_LOCK, DIAGNOSTICS, moves=True)
