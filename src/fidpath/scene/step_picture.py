"""The picture of one step: its views, the opened place cut across, its words and the key of colours."""

from __future__ import annotations

from fidpath.cautions import BESIDE_PICTURES
from fidpath.methods import Step
from fidpath.planning import Plan
from fidpath.scene.captions import column, sights
from fidpath.scene.paint import key_of, lines_of
from fidpath.scene.panels import Box, cameras, cut_panel, panel
from fidpath.scene.scene import Scene, Words
from fidpath.scene.stage import equipped, staged
from fidpath.settling import SettledState

AREA: Box = (0, 74, 1132, 1052)
"""Where a step's views go, page pixels."""

COLUMN: Box = (1156, 92, 424, 1034)
"""Where a step's words go, with the cut through the opened place below them."""

CUT_HIGH = 376
"""Height of that cut's panel, pixels."""


def step_scene(
    step: Step,
    made: SettledState,
    previous: SettledState | None,
    plan: Plan,
    of: int = 0,
    part: str = "",
    name: str = "",
) -> Scene:
    """One step's picture. `of`: number of steps; `part`: a letter where one step has several pictures.

    `previous` is the state before, drawn as a ghost; None for the first. The step's words are filled already.
    """
    before = lines_of(previous) if previous is not None else None
    worked = {step.moves, step.start or "", step.goal or ""}
    stage = equipped(staged(made, before, plan, step.marks, step.turns, worked), step)
    views = sights(step, stage.inked)
    placed = cameras(stage, views, AREA)
    rows = zip(views, placed, "AB", strict=False)
    panels = [panel(stage, sight, at, letter, first=letter == "A") for sight, at, letter in rows]
    x, y, width, text = COLUMN
    if stage.toned:
        text -= CUT_HIGH + 16
        panels.append(cut_panel(stage, stage.toned[-1], (x, y + text + 16, width, CUT_HIGH), "ABC"[len(panels)]))
    total = f" of {of}" if of else ""
    return Scene(
        name or f"{step.number:02d}{part}-{made.kind}",
        f"Step {step.number}{part}{total}: {step.caption}",
        tuple(panels),
        key_of(stage.model),
        (BESIDE_PICTURES,),
        words=(Words((x, y, width, text), column(step)),),
    )
