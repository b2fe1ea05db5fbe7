"""A `Scene` -> line art in black and white: areas, lines and words in mm.

A `Scene` comes in; SVG and PDF go out. Open `line_drawing` first.
"""
