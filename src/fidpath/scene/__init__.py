"""Settled strands and a method's words -> `Scene`: panels with solids, cameras, labels, as plain data. No drawing.

Settled states come in; a `Scene` goes out. Open `scene` first, then `step_picture`.
"""

from fidpath.scene.cameras import Box, camera_of, looked_at
from fidpath.scene.captions import Sight, short_words, sights
from fidpath.scene.colours import PALETTE, Colour, Palette, colour_of, colours_of, material_of, pair_of
from fidpath.scene.finished_views import FINISHED, KEY_PARTS, finished_scene
from fidpath.scene.ink_marks import face_dots
from fidpath.scene.loaded_picture import LoadedView, loaded_scene
from fidpath.scene.mistake_picture import WRONG_AREA, wrong_scene
from fidpath.scene.paint import (
    BLEND,
    DOT,
    FADE,
    INK,
    RIM,
    TICK,
    Model,
    across_at,
    chips,
    clearness,
    faces_of,
    followed_strands,
    group_of,
    hole_axes,
    is_open,
    lines_of,
    opened,
    rope_solid,
    toned_over,
)
from fidpath.scene.panels import CHIPS_FROM
from fidpath.scene.part_words import PART_WORDS, SIGN_WORDS
from fidpath.scene.props import terminator, tools, vector
from fidpath.scene.scene import (
    Callout,
    Camera,
    Chip,
    Dimension,
    Label,
    Panel,
    Scene,
    Section,
    Solid,
    Words,
    project,
)
from fidpath.scene.shapes.hand_tools import ToolPlacement, tool_solids
from fidpath.scene.shapes.solids import arrow
from fidpath.scene.stage import Stage, equipped, staged
from fidpath.scene.step_picture import AREA, COLUMN, step_scene, step_words

__all__ = [
    "AREA",
    "BLEND",
    "CHIPS_FROM",
    "COLUMN",
    "DOT",
    "FADE",
    "FINISHED",
    "INK",
    "KEY_PARTS",
    "PALETTE",
    "PART_WORDS",
    "RIM",
    "SIGN_WORDS",
    "TICK",
    "WRONG_AREA",
    "Box",
    "Callout",
    "Camera",
    "Chip",
    "Colour",
    "Dimension",
    "Label",
    "LoadedView",
    "Model",
    "Palette",
    "Panel",
    "Scene",
    "Section",
    "Sight",
    "Solid",
    "Stage",
    "ToolPlacement",
    "Words",
    "across_at",
    "arrow",
    "camera_of",
    "chips",
    "clearness",
    "colour_of",
    "colours_of",
    "equipped",
    "face_dots",
    "faces_of",
    "finished_scene",
    "followed_strands",
    "group_of",
    "hole_axes",
    "is_open",
    "lines_of",
    "loaded_scene",
    "looked_at",
    "material_of",
    "opened",
    "pair_of",
    "project",
    "rope_solid",
    "short_words",
    "sights",
    "staged",
    "step_scene",
    "step_words",
    "terminator",
    "toned_over",
    "tool_solids",
    "tools",
    "vector",
    "wrong_scene",
]
