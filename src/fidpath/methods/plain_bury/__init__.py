"""The plain buried eye, without a lock.

The tail goes straight into the standing part at the throat. `method.toml` has its steps and words.
"""

from __future__ import annotations

from fidpath.methods.placeholders import OF_AN_EYE
from fidpath.methods.registration import Registration

REGISTRATION = Registration(OF_AN_EYE)
