"""3MF by the core specification: one object in millimetres in three parts, the same bytes each time.

Faces with colours name a base material each.
"""

from __future__ import annotations

import io
import math
import zipfile
from xml.sax.saxutils import escape, quoteattr

import numpy as np

from fidpath.machine import in_xml
from fidpath.meshing import Mesh
from fidpath.outputs.jigs.element_rows import element_rows
from fidpath.outputs.jigs.manifolds import GRID
from fidpath.outputs.jigs.pieces import FaceColours

CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
PACKAGE = "http://schemas.openxmlformats.org/package/2006"
MODEL = "3D/3dmodel.model"
MATERIALS = 2
DECIMALS = round(-math.log10(GRID))
DECLARED = '<?xml version="1.0" encoding="UTF-8"?>\n'

TYPES = (
    f'{DECLARED}<Types xmlns="{PACKAGE}/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>'
)
RELATIONS = (
    f'{DECLARED}<Relationships xmlns="{PACKAGE}/relationships"><Relationship Id="rel0" Target="/{MODEL}" '
    'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>'
)


def threemf(mesh: Mesh, name: str, title: str, notes: str, colours: FaceColours | None = None) -> bytes:
    """The mesh as the bytes of a file, with its name, a title, what must be known about it, and its faces' colours."""
    shown = io.BytesIO()
    with zipfile.ZipFile(shown, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as package:
        for path, text in (("[Content_Types].xml", TYPES), ("_rels/.rels", RELATIONS)):
            package.writestr(_entry(path), text)
        package.writestr(_entry(MODEL), _model(mesh, name, title, notes, colours))
    return shown.getvalue()


def _entry(path: str) -> zipfile.ZipInfo:
    """An entry without the clock's time."""
    entry = zipfile.ZipInfo(path, (1980, 1, 1, 0, 0, 0))
    entry.compress_type = zipfile.ZIP_DEFLATED
    return entry


def _model(mesh: Mesh, name: str, title: str, notes: str, colours: FaceColours | None) -> bytes:
    """The model part."""
    steps = np.round(mesh.points / GRID).astype(np.int64)
    points = element_rows(('<vertex x="', '" y="', '" z="', '"/>'), tuple(steps.T), DECIMALS)
    corners = ('<triangle v1="', '" v2="', '" v3="')
    if colours is None:
        faces, materials, own = element_rows((*corners, '"/>'), tuple(mesh.faces.T)), "", ""
    else:
        rows = (*mesh.faces.T, colours.index)
        faces = element_rows((*corners, f'" pid="{MATERIALS}" p1="', '"/>'), rows)
        materials, own = _materials(colours), f' pid="{MATERIALS}" pindex="0"'
    before = (
        f'{DECLARED}<model unit="millimeter" xml:lang="en" xmlns="{CORE}">'
        f'<metadata name="Title">{escape(in_xml(title))}</metadata>'
        f'<metadata name="Description">{escape(in_xml(notes))}</metadata>'
        f'<metadata name="Application">fidpath</metadata><resources>{materials}'
        f'<object id="1" type="model" name={quoteattr(in_xml(name))}{own}><mesh><vertices>'
    )
    after = '</triangles></mesh></object></resources><build><item objectid="1"/></build></model>'
    return b"".join((before.encode("utf-8"), points, b"</vertices><triangles>", faces, after.encode("ascii")))


def _materials(colours: FaceColours) -> str:
    """The colours as base materials."""
    bases = "".join(
        f'<base name={quoteattr(in_xml(name))} displaycolor="#{red:02X}{green:02X}{blue:02X}"/>'
        for name, (red, green, blue) in zip(colours.names, colours.colours, strict=True)
    )
    return f'<basematerials id="{MATERIALS}">{bases}</basematerials>'
