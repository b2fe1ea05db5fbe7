"""Rope states -> the motion between them, settled in every frame, and films of it.

Two settled states come in; frames and film files go out. Open `settled_motion` first.
"""
