"""A `Scene` -> line art in black and white, SVG and PDF. Open `line_drawing` first."""
