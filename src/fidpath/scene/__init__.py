"""Settled strands and a method's words -> `Scene`: panels with solids, cameras, labels, as plain data. No drawing.

Settled states come in; a `Scene` goes out. Open `scene` first, then `step_picture`.
"""
