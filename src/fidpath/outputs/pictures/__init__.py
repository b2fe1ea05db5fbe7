"""A `Scene` -> pixels: panels rendered off screen, words set round them.

A `Scene` comes in; a page of pixels or a PNG goes out. Open `composition` first.
"""
