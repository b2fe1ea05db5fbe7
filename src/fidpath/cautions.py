"""The cautions that go with all figures, pictures and shapes: geometry only, never strength."""

from __future__ import annotations

GEOMETRY_ONLY = "Geometry only, no statement of strength."

BESIDE_PICTURES = f"{GEOMETRY_ONLY} The rope maker's instructions and a qualified rigger come first."
"""Under every picture, page and film."""

ON_A_CARD = f"{GEOMETRY_ONLY} The rope maker's data come first; a qualified rigger decides."
"""Under a card of a dozen lines."""

BELOW_PAGES = f"{GEOMETRY_ONLY} A qualified rigger decides."
"""At the foot of each printed page."""

IN_CODES = "Geometry only, no strength."
"""In a printed code, where every letter takes room."""

BESIDE_FIGURES = (
    "These are lengths and shapes and say nothing about strength. A qualified rigger decides whether the rope is fit.",
    "The rope maker's data and splicing instructions, and local codes, come before anything here.",
    "Figures marked as common practice, or as chosen here, have no source: try them on a spare piece first.",
)
"""On every sheet of figures, and in its JSON."""

BESIDE_GAUGES = (
    "Gauges and sizes only, no strength: follow the rope maker's data and local rules; a qualified rigger decides."
)
"""On the report of what is printed or cut."""

BESIDE_CHECKS = "Geometry only: this says nothing about strength"
"""Behind a check that found everything within its bounds."""

BEFORE_A_LOAD = (
    "A qualified rigger decides whether the line may carry a load, by the rope maker's data and local codes."
)
"""Where the finished work is signed for."""

BESIDE_MISTAKES = "Don't load a splice that may be wrong until a qualified rigger has seen it."
"""Beside the picture of a mistake."""

BESIDE_DIAGNOSES = (
    "Don't load a splice that you doubt, not even to try it or to set it. Ask a qualified rigger.",
    "This answer rests on what you saw and covers only the usual mistakes. Two at once may look like a third.",
    "It says nothing about strength. The rope maker's data and local codes come first.",
)
"""Under an answer to what is seen at the bench."""
