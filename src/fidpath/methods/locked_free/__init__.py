"""The lock made with both ends of the rope free.

The standing part's own free end goes through H2. `method.toml` has its steps and words.
"""

from __future__ import annotations

from fidpath.methods.lock_placeholders import OF_A_LOCK
from fidpath.methods.registration import Registration

REGISTRATION = Registration(OF_A_LOCK)
