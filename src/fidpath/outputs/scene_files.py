"""A scene as a build writes it: its picture, its line art, and its figure for the handout, all drawn from one view.

The words round the panels of a picture and of its line art can be changed afterwards, without drawing anything again.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from fidpath.geometry import Part
from fidpath.outputs.registry import Data, Request, Result
from fidpath.scene import Scene, Words
from fidpath.units import is_imperial

if TYPE_CHECKING:
    from fidpath.outputs.lineart import line_drawing
    from fidpath.outputs.pictures import View

LIBRARIES = ("matplotlib", "pillow", "typst")
"""Packages that decide the bytes of a picture or a line drawing; the type comes with matplotlib."""


def scene_files(request: Request, scene: Scene, views: Sequence[View], picture: str, drawing: str) -> dict[str, bytes]:
    """The picture by its path and the line drawing, whose name is given, by the paths of its two forms.

    views: what the scene's panels show, as `drawn` makes it.
    """
    return scene_files_and_margins(request, scene, views, picture, drawing)[0]


def scene_files_and_margins(
    request: Request, scene: Scene, views: Sequence[View], picture: str, drawing: str
) -> tuple[dict[str, bytes], Data]:
    """The same files, and what `reworded` must know of them; nothing where their words can't be changed."""
    from fidpath.outputs.lineart import line_drawing
    from fidpath.outputs.pictures import margin_boxes, page_of, page_png, signs_in

    look, transparent, reach = request.style.look, request.style.transparent, request.plan.braid.thickness
    sheet = line_drawing.line_scene(scene, reach, _unit(request), views=views)
    page = page_of(scene, reach, look, views)
    files = {**_line_art(sheet, line_drawing.svg(sheet), drawing), picture: page_png(page, look, transparent)}
    blank = () if transparent else margin_boxes(scene, page, look)
    margins = {
        "name": scene.name,
        "size": list(scene.size),
        "key": [part.name for part in scene.key],
        "signs": [part.name for part in signs_in(scene, views)],
        "blank": [list(box) for box in blank],
        "words": [list(words.box) for words in scene.words],
        "tones": sorted(tone.name for tone in sheet.tones),
        "inks": sheet.in_panels,
    }
    return files, margins if blank else {}


def reworded(
    request: Request, earlier: Result, margins: Data, words: Callable[[Scene], Scene], picture: str, drawing: str
) -> dict[str, bytes]:
    """The files that a scene was written as, with other words round its panels.

    margins: as `scene_files_and_margins` gives it. words: sets them on a scene that has none, and no panels.
    """
    from fidpath.outputs.lineart import line_drawing
    from fidpath.outputs.pictures import reworded_png

    boxes = tuple(Words(tuple(box), ()) for box in margins["words"])
    key, signs = ([Part[name] for name in margins[kind]] for kind in ("key", "signs"))
    scene = words(Scene(margins["name"], "", (), tuple(key), size=tuple(margins["size"]), words=boxes))
    before = earlier.read(f"lineart/{drawing}.svg").decode("utf-8")
    sheet, shown = line_drawing.reworded_sheet(before, scene, margins["inks"], margins["tones"])
    png = reworded_png(earlier.read(picture), scene, signs, margins["blank"], request.style.look)
    return {**_line_art(sheet, shown, drawing), picture: png}


def _line_art(sheet: line_drawing.LineDrawing, shown: str, name: str) -> dict[str, bytes]:
    from fidpath.outputs.lineart import line_drawing

    return {f"lineart/{name}.svg": shown.encode("utf-8"), f"lineart/{name}.pdf": line_drawing.pdf(sheet, shown)}


def figure(request: Request, scene: Scene, views: Sequence[View]) -> str:
    """The scene's line art as the handout has it, SVG: the same bodies in smaller panels, without a title."""
    from fidpath.outputs.handout import compact
    from fidpath.outputs.lineart import line_drawing
    from fidpath.outputs.pictures import seen

    small = compact(replace(scene, title=""))
    again = [seen(panel, bodies=view.bodies) for panel, view in zip(small.panels, views, strict=True)]
    reach = request.plan.braid.thickness
    return line_drawing.svg(line_drawing.line_scene(small, reach, _unit(request), sheet=False, views=again))


def _unit(request: Request) -> str:
    return "in" if is_imperial(request.plan.job.length_unit) else "mm"
