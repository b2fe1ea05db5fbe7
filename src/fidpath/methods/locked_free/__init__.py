"""The lock made with both ends free: the standing part's own end passes through the tail.

Its words are in `method.toml`, what is seen at the bench and what tells mistakes apart in `hints`.
"""

from __future__ import annotations

from fidpath.methods.lock_placeholders import OF_A_LOCK
from fidpath.methods.locked_free.hints import DIAGNOSTICS
from fidpath.methods.registration import Registration

REGISTRATION = Registration(OF_A_LOCK, DIAGNOSTICS)
