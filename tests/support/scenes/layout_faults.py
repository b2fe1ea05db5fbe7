"""What is wrong with the words of a page: over one another, run through, cut off, on the drawing, or lost."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from fidpath.arrays import Bools
from fidpath.outputs.pictures.labels import Box, FreeSpace, boxes_meet, line_meets_box
from fidpath.outputs.pictures.layout import Layout, Reason, Written
from fidpath.scene.scene import Scene

INSIDE = 1.0
"""Pixels by which boxes of type may touch: some letters' ink reaches that far beyond the others'."""


def layout_faults(layout: Layout, scene: Scene, drawn: Bools) -> list[str]:
    """All that is wrong with a page's words; drawn: `(h, w) bool`, where something is drawn, ghosts' edges included."""
    words = [one for one in layout.written if one.text.strip()]
    return [
        *_overlapping(layout.written),
        *(
            f"a line runs through {one.text!r}"
            for one in words
            if _run_through(one, layout) and not _plated(one, layout)
        ),
        *(f"{one.text!r} runs over the page's edge" for one in words if not _within(one.box, scene.size)),
        *(
            f"{one.text!r} lies on the drawing"
            for one in words
            if _on_drawing(one, scene, drawn) and not _plated(one, layout)
        ),
        *lost(scene, layout),
    ]


def _less(box: Box) -> Box:
    return box[0] + INSIDE, box[1] + INSIDE, box[2] - INSIDE, box[3] - INSIDE


def _overlapping(written: Sequence[Written]) -> list[str]:
    found = []
    for i, a in enumerate(written):
        found += [f"{b.text!r} and {a.text!r} overlap" for b in written[:i] if boxes_meet(_less(a.box), _less(b.box))]
    return found


def _run_through(one: Written, layout: Layout) -> bool:
    return any(line_meets_box(stroke, _less(one.box)) for stroke in layout.strokes)


def _plated(one: Written, layout: Layout) -> bool:
    """Whether words lie on paper laid over the drawing."""
    a = _less(one.box)
    return any(b[0] <= a[0] and b[1] <= a[1] and a[2] <= b[2] and a[3] <= b[3] for b in layout.plates)


def _within(box: Box, size: tuple[int, int]) -> bool:
    return box[0] >= 0 and box[1] >= 0 and box[2] <= size[0] and box[3] <= size[1]


def _on_drawing(one: Written, scene: Scene, drawn: Bools) -> bool:
    """Whether words lie on what is drawn; numbers of strands do, and captions may, on paper."""
    allowed = {chip.text for panel in scene.panels for chip in panel.chips}
    captions = {word for panel in scene.panels for word in (panel.letter, *panel.caption.split())}
    free = one.text in allowed or set(one.text.split()) <= captions
    return not free and FreeSpace(drawn).drawn_in(one.box) > 0


def lost(scene: Scene, layout: Layout) -> list[str]:
    """Words of a scene that are not on the page, but for those of what is hidden."""
    there = " ".join(one.text for one in layout.written)
    found = [f"{one.letter}: no room for {one.text!r}" for one in layout.left_out if one.why is Reason.NO_ROOM]
    wanted = [*_wanted(scene)]
    return [*found, *(f"{text!r} is lost" for text in wanted if not set(text.split()) <= set(there.split()))]


def _wanted(scene: Scene) -> Iterable[str]:
    """Titles, captions, notes and columns of a scene."""
    yield scene.title
    for panel in scene.panels:
        yield f"{panel.letter} {panel.caption}"
        yield from (callout.letter for callout in panel.callouts)
    yield from scene.notes
    for words in scene.words:
        for section in words.sections:
            yield section.heading
            yield from (f"{before} {text}" for before, text in section.paragraphs)


def lost_words(scene: Scene, layout: Layout) -> list[str]:
    """Words of labels that are cut down to their letters."""
    there = {one.text for one in layout.written}
    hidden = {one.text for one in layout.left_out}
    labels = [label for panel in scene.panels for label in panel.labels]
    shown = (label for label in labels if f"{label.mark} {label.text}".strip() not in hidden)
    return [
        f"only {label.mark} of {label.text!r}" for label in shown if not set(label.text.split("\n")) <= {*there, ""}
    ]
