"""Numbers on the strands of both groups in the window, each left out where another strand lies before it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np

from fidpath.arrays import Floats
from fidpath.scene import CHIPS_FROM, Chip, Model, clearness

HALF_WIDTH = 0.6
"""Half a strand's width as it is drawn, in strand thicknesses."""

LIFT = 1.5
"""How far toward the viewer a number stands off its strand's middle, in strand thicknesses: tools before it hide it."""

Holes = Sequence[Sequence[Chip]]


def in_sight(model: Model, holes: Holes, toward: Floats) -> list[bool]:
    """Whether each number, hole by hole, can be seen by a viewer along `toward` `(3,) float`."""
    found: list[bool] = []
    for hole in holes:
        clear = clearness(model, np.array([chip.at for chip in hole]), toward)
        found += (clear > HALF_WIDTH * model.braid.thickness).tolist()
    return found


class Numbers:
    """The numbers in one renderer of VTK's."""

    def __init__(self, renderer: Any, typed: Callable[[Any, Chip], None]) -> None:
        self._renderer = renderer
        self._typed = typed
        self._actors: list[Any] = []
        self._holes: Holes = ()
        self._model: Model | None = None

    def put(self, model: Model, holes: Holes) -> None:
        """Puts these numbers in place of those before."""
        for actor in self._actors:
            self._renderer.RemoveViewProp(actor)
        self._model, self._holes = model, holes
        self._actors = [self._actor(chip) for hole in holes for chip in hole]
        self.look()

    def look(self) -> None:
        """Shows those that are in sight of the camera now, from near enough to be told apart."""
        if self._model is None or not self._actors:
            return
        camera = self._renderer.GetActiveCamera()
        near = self._renderer.GetSize()[1] * self._model.d / (2 * camera.GetParallelScale()) > CHIPS_FROM
        seen = in_sight(self._model, self._holes, -np.array(camera.GetDirectionOfProjection()))
        lift = LIFT * self._model.braid.thickness * -np.array(camera.GetDirectionOfProjection())
        every = (chip for hole in self._holes for chip in hole)
        for actor, chip, shown in zip(self._actors, every, seen, strict=True):
            actor.SetPosition(*(np.array(chip.at) + lift))
            actor.SetVisibility(near and shown)

    def _actor(self, chip: Chip) -> Any:
        from vtkmodules.vtkRenderingCore import vtkBillboardTextActor3D

        actor = vtkBillboardTextActor3D()
        actor.SetInput(chip.text)
        self._typed(actor.GetTextProperty(), chip)
        self._renderer.AddViewProp(actor)
        return actor
