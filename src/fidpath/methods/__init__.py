"""Methods of splicing as data: their steps, words, tools and cameras, and the usual mistakes.

A folder for each method holds its data, `method.toml`, and a module that registers what code must know of it besides.
A method and a `Plan` come in; a `Method` with its words filled in goes out. Open `method` first, then `registry`.
"""

from fidpath.methods.card import card, card_lines
from fidpath.methods.diagnosis import Answer, diagnose, diagnostics_of, like_picture
from fidpath.methods.diagnosis_questions import Question, SightingError, answered
from fidpath.methods.method import CameraView, Method, Mistake, Step
from fidpath.methods.registry import method_of, registration_of
from fidpath.methods.wording import fill, worded, worded_method, worded_mistake

__all__ = [
    "Answer",
    "CameraView",
    "Method",
    "Mistake",
    "Question",
    "SightingError",
    "Step",
    "answered",
    "card",
    "card_lines",
    "diagnose",
    "diagnostics_of",
    "fill",
    "like_picture",
    "method_of",
    "registration_of",
    "worded",
    "worded_method",
    "worded_mistake",
]
