"""`Plan` -> `RopeState` -> strands before settling: where the rope lies, is opened and passes through itself.

A `Plan` and the kind of a state come in; a `Draft` of strands goes out. Open `rope_state` first, then `kinds`.
"""
