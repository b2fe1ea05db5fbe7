"""3MF, the core specification's least: one object in millimetres in three parts, the same bytes each time."""

from __future__ import annotations

import io
import zipfile
from xml.sax.saxutils import escape, quoteattr

from fidpath.machine import in_xml
from fidpath.meshing import Mesh

CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
PACKAGE = "http://schemas.openxmlformats.org/package/2006"
MODEL = "3D/3dmodel.model"
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


def threemf(mesh: Mesh, name: str, title: str, notes: str) -> bytes:
    """The mesh as the bytes of a file, with its name, a title, and what must be known about it."""
    shown = io.BytesIO()
    with zipfile.ZipFile(shown, "w", zipfile.ZIP_DEFLATED, compresslevel=6) as package:
        for path, text in (("[Content_Types].xml", TYPES), ("_rels/.rels", RELATIONS)):
            package.writestr(_entry(path), text)
        package.writestr(_entry(MODEL), _model(mesh, name, title, notes))
    return shown.getvalue()


def _entry(path: str) -> zipfile.ZipInfo:
    """An entry without the clock's time."""
    entry = zipfile.ZipInfo(path, (1980, 1, 1, 0, 0, 0))
    entry.compress_type = zipfile.ZIP_DEFLATED
    return entry


def _model(mesh: Mesh, name: str, title: str, notes: str) -> str:
    """The model part."""
    points = "".join(
        f'<vertex x="{_number(x)}" y="{_number(y)}" z="{_number(z)}"/>' for x, y, z in mesh.points.tolist()
    )
    faces = "".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in mesh.faces.tolist())
    return (
        f'{DECLARED}<model unit="millimeter" xml:lang="en" xmlns="{CORE}">'
        f'<metadata name="Title">{escape(in_xml(title))}</metadata>'
        f'<metadata name="Description">{escape(in_xml(notes))}</metadata>'
        f'<metadata name="Application">fidpath</metadata>'
        f'<resources><object id="1" type="model" name={quoteattr(in_xml(name))}><mesh><vertices>{points}</vertices>'
        f'<triangles>{faces}</triangles></mesh></object></resources><build><item objectid="1"/></build></model>'
    )


def _number(value: float) -> str:
    """A coordinate on the solids' grid."""
    return f"{value:.4f}".rstrip("0").rstrip(".") if value else "0"
