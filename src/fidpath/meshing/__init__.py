"""Settled strands -> drawn sections -> closed meshes, and the terminator's own.

`Strands` come in; `Sections` and `Mesh`es go out. Open `sections` first.
"""
