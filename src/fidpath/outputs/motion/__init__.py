"""Rope states -> the motion between them, settled in every frame, and films of it.

Two settled states come in; frames and film files go out. Open `settled_motion` first.
"""

from fidpath.outputs.motion.films import TURN_FRAMES, Shot, film, motion, turntable
from fidpath.outputs.motion.settled_motion import FRAMES, frames, summary

__all__ = ["FRAMES", "TURN_FRAMES", "Shot", "film", "frames", "motion", "summary", "turntable"]
