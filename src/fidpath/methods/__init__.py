"""Methods of splicing as data: their steps, words, tools and cameras, and the usual mistakes.

A folder for each method holds its data, `method.toml`, and a module that registers what code must know of it besides.
A method and a `Plan` come in; a `Method` with its words filled in goes out. Open `method` first, then `registry`.
"""

from fidpath.methods.card import card, card_lines
from fidpath.methods.method import CameraView, Method, Mistake, Step
from fidpath.methods.placeholders import DOT_AWAY
from fidpath.methods.registry import head_of, method_of, registration_of
from fidpath.methods.wording import fill, worded, worded_method, worded_mistake

__all__ = [
    "DOT_AWAY",
    "CameraView",
    "Method",
    "Mistake",
    "Step",
    "card",
    "card_lines",
    "fill",
    "head_of",
    "method_of",
    "registration_of",
    "worded",
    "worded_method",
    "worded_mistake",
]
