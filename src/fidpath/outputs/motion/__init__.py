"""Rope states -> the motion between them, settled in every frame, and films of it. Open `settled_motion` first."""
