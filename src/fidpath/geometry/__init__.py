"""The laws of the rope, without any plan: braid, plane curves, eye, neck, bury, the terminator's seat, strands.

Diameters, pitches and angles come in; lengths, angles and `(strands, n, 3)` arrays go out. Open `braid` first.
"""
