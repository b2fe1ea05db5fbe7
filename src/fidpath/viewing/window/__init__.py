"""The desktop window: the splice to turn and to go through step by step.

A `Plan` and a method come in; a window opens, and pictures are saved from it. Open `window` first.
"""

from fidpath.viewing.window.window import show_job

__all__ = ["show_job"]
