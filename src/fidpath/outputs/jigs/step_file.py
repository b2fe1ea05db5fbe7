"""Flat gauges as STEP (ISO 10303-21): exact plates of planes and cylinders, without their engraving.

It needs the optional extra `step`, a large geometry kernel. Formers, fids and models have no exact form here: for
those use STL or 3MF.
"""

from __future__ import annotations

import re
import tempfile
from pathlib import Path
from typing import Any

import numpy as np

from fidpath.errors import EnvironmentProblem
from fidpath.outputs.jigs.paths import Outline
from fidpath.outputs.jigs.pieces import Plate

HEADER = (
    "FILE_DESCRIPTION(('{title}'),'2;1');\n"
    "FILE_NAME('{name}','1980-01-01T00:00:00',(''),(''),'fidpath','fidpath','');\n"
)
"""What stands in a file's header in place of the clock's time and the machine's names."""


def step(flat: Plate, name: str, title: str) -> bytes:
    """The plate as the bytes of a STEP file. Raises EnvironmentProblem where the extra isn't installed."""
    solid = _solid(flat)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "plate.step"
        _write(solid, path)
        text = path.read_text(encoding="ascii")
    header = HEADER.format(name=name, title=title)
    settled = re.sub(r"FILE_DESCRIPTION.*?(?=FILE_SCHEMA)", lambda _: header, text, count=1, flags=re.DOTALL)
    return re.sub(r"'Open CASCADE STEP[^']*'", f"'{name}'", settled).encode("ascii")


def _kernel() -> Any:
    """The kernel's packages by name."""
    try:
        from OCP import GC, BRepBuilderAPI, BRepPrimAPI, IFSelect, STEPControl, gp
    except ImportError as problem:
        raise EnvironmentProblem(
            "STEP needs a geometry kernel that isn't installed here",
            'Install it with pip install "fidpath[step]" (about 400 MB), or use DXF, which has the same outlines',
        ) from problem
    return BRepBuilderAPI, BRepPrimAPI, GC, IFSelect, STEPControl, gp


def _solid(flat: Plate) -> Any:
    """The plate as a solid of the kernel."""
    build, prim, _, _, _, gp = _kernel()
    face = build.BRepBuilderAPI_MakeFace(_wire(flat.outline), True)
    for hole in flat.cutouts:
        face.Add(_wire(hole).Reversed())
    return prim.BRepPrimAPI_MakePrism(face.Face(), gp.gp_Vec(0.0, 0.0, flat.thickness)).Shape()


def _wire(path: Outline) -> Any:
    """A path's lines and arcs as a closed wire in the plane z = 0."""
    build, _, arcs, _, _, gp = _kernel()
    wire = build.BRepBuilderAPI_MakeWire()
    for start, chord, bulge in zip(path.points, path.chord, path.bulge, strict=True):
        end = start + chord
        crown = start + chord / 2 + bulge / 2 * np.array([chord[1], -chord[0]])
        a, b, c = (gp.gp_Pnt(float(x), float(y), 0.0) for x, y in (start, crown, end))
        edge = arcs.GC_MakeArcOfCircle(a, b, c).Value() if bulge else None
        maker = build.BRepBuilderAPI_MakeEdge
        wire.Add((maker(edge) if edge is not None else maker(a, c)).Edge())
    return wire.Wire()


def _hush() -> None:
    """Keep the kernel's own reports off the terminal."""
    from OCP.Message import Message, Message_Gravity

    for printer in Message.DefaultMessenger_s().Printers():
        printer.SetTraceLevel(Message_Gravity.Message_Fail)


def _write(solid: Any, path: Path) -> None:
    """Write a solid. Raises EnvironmentProblem where the kernel can't."""
    _, _, _, status, control, _ = _kernel()
    _hush()
    writer = control.STEPControl_Writer()
    writer.Transfer(solid, control.STEPControl_StepModelType.STEPControl_AsIs)
    if writer.Write(str(path)) != status.IFSelect_ReturnStatus.IFSelect_RetDone:
        raise EnvironmentProblem("the geometry kernel can't write this plate", "Use DXF, which has the same outlines")
