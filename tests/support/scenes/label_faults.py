"""What is wrong with the labels of a picture."""

from __future__ import annotations

from collections.abc import Sequence

from fidpath.arrays import Bools
from fidpath.outputs.pictures.labels import FreeSpace, PlacedLabel, boxes_meet, lines_cross


def label_faults(placed: Sequence[PlacedLabel], drawn: Bools) -> list[str]:
    """What is wrong with a picture's labels: on the rope, over one another, leaders crossing; empty when right."""
    room = FreeSpace(drawn)
    found = [f"label {i} lies on the drawing" for i, label in enumerate(placed) if room.drawn_in(label.box) > 0]
    for i, a in enumerate(placed):
        for j, b in enumerate(placed[:i]):
            if boxes_meet(a.box, b.box):
                found.append(f"labels {j} and {i} overlap")
            if a.leader[0] != a.leader[1] and b.leader[0] != b.leader[1] and lines_cross(a.leader, b.leader):
                found.append(f"leaders {j} and {i} cross")
    return found
