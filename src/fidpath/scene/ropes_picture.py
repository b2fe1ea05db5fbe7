"""The picture of a settled state of one rope or several as they lie, without a plan or a method."""

from __future__ import annotations

from collections.abc import Sequence

from fidpath.cautions import BESIDE_PICTURES
from fidpath.geometry import Strands
from fidpath.meshing import Sections
from fidpath.scene.captions import Sight
from fidpath.scene.paint import key_of, modelled, opened
from fidpath.scene.panels import Box, cameras, cut_panel, panel
from fidpath.scene.scene import Label, Scene
from fidpath.scene.stage import Stage, over, showing
from fidpath.states import RopeState

AREA: Box = (0, 74, 1132, 1052)
"""Where the views go, page pixels."""

CUT: Box = (1156, 92, 424, 424)
"""Where the last opened place is shown cut across its host."""

SIGHTS = (Sight(("all",), (0.0, -0.4, 1.0), (0.0, 1.0, 0.0)),)
"""All ropes, from above."""


def ropes_scene(
    title: str, state: RopeState, strands: Strands, sections: Sections, sights: Sequence[Sight] = SIGHTS
) -> Scene:
    """The state's ropes in at most two views, the groups of opened places shown, the last of them cut across."""
    model = modelled(state, strands, sections)
    labels = tuple(Label("", over(model, o.host, o.rope), o.name, rank=-1) for o in state.openings)
    stage = showing(Stage(model, labels=labels), opened(model))
    placed = zip(sights, cameras(stage, sights, AREA), "AB", strict=False)
    panels = [panel(stage, sight, at, letter, first=letter == "A") for sight, at, letter in placed]
    if stage.toned:
        panels.append(cut_panel(stage, stage.toned[-1], CUT, "ABC"[len(panels)]))
    return Scene(state.name, title, tuple(panels), key_of(model), (BESIDE_PICTURES,))
