"""The jigs themselves, a module each; `joint` and `pins` hold their pieces together.

A `Plan` comes in; a `Jig` goes out. Open `rope_gauge` first: it is the simplest.
"""
