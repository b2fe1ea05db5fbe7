"""A `Scene` -> pixels: panels rendered off screen, words set round them, PNG. Open `composition` first."""
