"""STL, 3MF, SVG, DXF and STEP of jigs, read back by readers that are not ours; and the same bytes each time."""

from __future__ import annotations

import io
import json
import re
import sys
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest

from fidpath.errors import CannotBeMade, EnvironmentProblem
from fidpath.outputs.jigs import USUAL, Wanted, one, report_files, written
from fidpath.outputs.jigs.catalogue import JIGS, make
from fidpath.outputs.jigs.parts.eye_former import eye_former
from fidpath.outputs.jigs.parts.rope_gauge import rope_gauge
from fidpath.outputs.jigs.parts.taper_board import taper_board
from fidpath.outputs.jigs.paths import area, circle
from fidpath.outputs.jigs.printable import overhang, printability, thin_walls
from fidpath.outputs.jigs.tolerances import fine_mm, grade_mm
from fidpath.planning.plan import Plan
from jigs.plans import a_plan
from jigs.readback import from_stl
from jobs import a_job

FLAT = ("coupon", "rope-gauge", "taper-board")
WITHOUT_MODEL = tuple(JIGS)
KERF = 0.15


def made(plan: Plan, *names: str, formats: tuple[str, ...] = USUAL) -> dict[str, bytes]:
    return dict(written(plan, Wanted(names or WITHOUT_MODEL, formats)))


@pytest.fixture(scope="module")
def plan() -> Plan:
    return a_plan(a_job(bury=30.0))


@pytest.fixture(scope="module")
def files(plan: Plan) -> dict[str, bytes]:
    return made(plan)


def test_every_piece_is_an_stl_in_millimetres_and_a_3mf(files: dict[str, bytes]) -> None:
    solids = [name.removesuffix("-mm.stl") for name in files if name.endswith(".stl")]
    assert solids == [name.removesuffix(".3mf") for name in files if name.endswith(".3mf")]
    hole_jigs = {"hole-cone", "mark-sleeve-top", "mark-sleeve-under", "nose-cap"}
    assert hole_jigs | {"rope-gauge", "eye-former-base", "eye-former-cap"} <= set(solids)
    assert all(b"millimetres" in content[:80] for name, content in files.items() if name.endswith("-mm.stl"))


def test_every_3mf_passes_the_strict_reader_and_has_the_stls_volume(files: dict[str, bytes]) -> None:
    import lib3mf
    import trimesh

    library = lib3mf.get_wrapper()
    for name, content in files.items():
        if not name.endswith(".3mf"):
            continue
        model = library.CreateModel()
        reader = model.QueryReader("3mf")
        reader.SetStrictModeActive(True)
        reader.ReadFromBuffer(content)
        assert reader.GetWarningCount() == 0, name
        assert model.GetUnit() == lib3mf.ModelUnit.MilliMeter
        meshes = model.GetMeshObjects()
        assert meshes.MoveNext()
        mesh = meshes.GetCurrentMeshObject()
        assert mesh.GetName() == name.removesuffix(".3mf")
        assert mesh.IsManifoldAndOriented()
        assert not meshes.MoveNext()
        points = np.array([list(vertex.Coordinates) for vertex in mesh.GetVertices()])
        faces = np.array([list(triangle.Indices) for triangle in mesh.GetTriangleIndices()])
        read = trimesh.Trimesh(points, faces)
        other = trimesh.load(io.BytesIO(files[name.replace(".3mf", "-mm.stl")]), file_type="stl")
        assert read.volume == pytest.approx(other.volume, rel=1e-6)


def drawn(content: bytes) -> tuple[ElementTree.Element, list[str]]:
    """An SVG's root and the data of its cut paths."""
    root = ElementTree.fromstring(content)
    space = "{http://www.w3.org/2000/svg}"
    cut = next(group for group in root.iter(f"{space}g") if group.get("id") == "CUT")
    return root, [path.get("d", "") for path in cut.iter(f"{space}path")]


def widths_of_arcs(data: str) -> list[float]:
    """Widths of the round-bottomed slots in a path's data: twice the radius of two quarter turns to the right."""
    arcs = re.findall(r"A([\d.]+) [\d.]+ 0 0 ([01]) ", data)
    radii = [float(radius) for radius, sweep in arcs if sweep == "1"]
    return sorted(2 * radius for radius in set(radii) if radii.count(radius) == 2)


def test_the_svg_is_one_to_one_and_half_the_kerf_outside(plan: Plan, files: dict[str, bytes]) -> None:
    root, data = drawn(files["rope-gauge.svg"])
    body = from_stl(rope_gauge(plan).pieces[0])
    wide, high = (float(root.get(side, "").removesuffix("mm")) for side in ("width", "height"))
    assert root.get("viewBox") == f"0 0 {wide:.4f} {high:.4f}"
    assert [wide, high] == pytest.approx(body.extents[:2] + 4.0 + KERF, abs=2e-3)
    rope = plan.job.rope
    asked = sorted([rope.diameter_min_mm, rope.diameter_mm, rope.diameter_max_mm, plan.swollen_diameter])
    assert len(data) == 1
    assert widths_of_arcs(data[0]) == pytest.approx([size - KERF for size in asked], abs=2e-4)


def test_a_printers_shrinkage_is_not_cut() -> None:
    plan = a_plan(slot_shrink_mm=0.3)
    cut = made(plan, "rope-gauge", formats=("svg",))["rope-gauge.svg"]
    assert cut == made(a_plan(), "rope-gauge", formats=("svg",))["rope-gauge.svg"]


def test_the_dxf_reads_without_errors_and_its_arcs_are_true(plan: Plan, files: dict[str, bytes]) -> None:
    import ezdxf
    from ezdxf.math import bulge_radius

    for name in (name for name in files if name.endswith(".dxf")):
        doc = ezdxf.read(io.StringIO(files[name].decode("utf-8")))
        assert not doc.audit().errors, name
        assert doc.units == ezdxf.units.MM
        cut = doc.modelspace().query('LWPOLYLINE[layer=="CUT"]')
        assert len(cut) == 1 and cut[0].closed
        assert len(doc.modelspace().query('LWPOLYLINE[layer=="ENGRAVE"]')) > 10
    doc = ezdxf.read(io.StringIO(files["rope-gauge.dxf"].decode("utf-8")))
    corners = list(doc.modelspace().query('LWPOLYLINE[layer=="CUT"]')[0].get_points("xyb"))
    runs = zip(corners, [*corners[1:], corners[0]], strict=True)
    radii = [bulge_radius(a[:2], b[:2], a[2]) for a, b in runs if a[2] < 0]
    rope = plan.job.rope
    for size in (rope.diameter_min_mm, rope.diameter_mm, rope.diameter_max_mm, plan.swollen_diameter):
        assert sum(abs(radius - (size - KERF) / 2) < 1e-4 for radius in radii) == 2


def test_a_kerf_too_wide_for_an_inner_corner_is_refused() -> None:
    with pytest.raises(CannotBeMade, match="kerf") as refused:
        made(a_plan(kerf_mm=0.7), "taper-board", formats=("svg",))
    assert refused.value.key == "print.kerf"


def test_same_job_same_bytes(plan: Plan, files: dict[str, bytes]) -> None:
    assert made(plan) == files


def test_step_without_its_extra_says_what_to_install(plan: Plan, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "OCP", None)
    with pytest.raises(EnvironmentProblem, match="geometry kernel") as refused:
        made(plan, "rope-gauge", formats=("step",))
    assert "fidpath[step]" in refused.value.remedy


def volume_of_step(content: bytes, path: Path) -> float:
    """Volume in mm3 of a STEP file's body as its reader has it."""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps
    from OCP.STEPControl import STEPControl_Reader

    path.write_bytes(content)
    reader = STEPControl_Reader()
    reader.ReadFile(str(path))
    reader.TransferRoots()
    found = GProp_GProps()
    BRepGProp.VolumeProperties_s(reader.OneShape(), found)
    return float(found.Mass())


@pytest.mark.parametrize("name", FLAT)
def test_step_reads_back_as_the_exact_plate(plan: Plan, tmp_path: Path, name: str) -> None:
    pytest.importorskip("OCP", reason='needs the extra: pip install "fidpath[step]"', exc_type=ImportError)
    content = made(plan, name, formats=("step",))
    assert content == made(plan, name, formats=("step",))
    for piece in JIGS[name](plan).pieces:
        plate, flat = content[f"{piece.name}.step"], piece.flat
        assert flat is not None
        assert b"SI_UNIT(.MILLI.,.METRE.)" in plate and b"1980-01-01T00:00:00" in plate
        assert volume_of_step(plate, tmp_path / "plate.step") == pytest.approx(
            area(flat.outline) * flat.thickness, rel=1e-9
        )


def test_a_jig_made_alone_is_the_same_as_one_made_with_the_rest(plan: Plan) -> None:
    """Jigs made in other processes come back by pickle; together with the report they are what `written` gives."""
    import pickle

    names = ("coupon", "hole-cone", "nose-cap")
    crossed = [pickle.loads(pickle.dumps(one(plan, name, Wanted(names)))) for name in names]
    together = [file for content, _ in crossed for file in content]
    assert [*together, *report_files(plan, [entry for _, entry in crossed])] == list(written(plan, Wanted(names)))


def test_the_report_lists_every_file_and_cautions(files: dict[str, bytes]) -> None:
    data = json.loads(files["jigs.json"])
    listed = {name for jig in data["jigs"] for name in jig["files"]}
    assert listed == set(files) - {"jigs.txt", "jigs.json"}
    assert [jig["name"] for jig in data["jigs"]] == list(WITHOUT_MODEL)
    text = files["jigs.txt"].decode("utf-8")
    for said in ("no strength", "rope maker's data", "qualified rigger", "from memory", "caliper", "no source"):
        assert said in text
    assert all(jig["pieces"] for jig in data["jigs"])


def test_a_gauge_finer_than_a_printer_is_said_to_be(plan: Plan, files: dict[str, bytes]) -> None:
    assert "closer together than a printer holds" in made(a_plan(a_job(d=2.0)), "rope-gauge")["jigs.txt"].decode()
    wide = a_plan(a_job(d=24.0))
    assert "closer together than a printer holds" not in made(wide, "rope-gauge")["jigs.txt"].decode()


def test_what_cannot_be_made_is_in_the_report_with_its_reason() -> None:
    plan = a_plan(bed_mm=(80.0, 80.0, 200.0), text_height_mm=10.0)
    data = json.loads(made(plan, "taper-board", "rope-gauge")["jigs.json"])
    assert [jig["made"] for jig in data["jigs"]] == [False, True]
    assert "room for its words" in data["jigs"][0]["why"]
    with pytest.raises(CannotBeMade, match="room for its words"):
        made(plan, "taper-board")


def test_every_flat_jig_has_drawings_and_no_other_has(files: dict[str, bytes]) -> None:
    drawings = {name.removesuffix(".svg") for name in files if name.endswith(".svg")}
    assert drawings == {name.removesuffix(".dxf") for name in files if name.endswith(".dxf")}
    assert {re.sub(r"-\d+$", "", name) for name in drawings} == set(FLAT)


def test_an_unknown_jig_is_refused(plan: Plan) -> None:
    with pytest.raises(CannotBeMade, match="no jig"):
        make(plan, "spanner", Wanted())
    assert list(JIGS) == list(WITHOUT_MODEL)


def test_bed_walls_and_overhangs_are_found() -> None:
    from fidpath.outputs.jigs.manifolds import closed, extruded, region
    from fidpath.outputs.jigs.paths import box
    from fidpath.outputs.jigs.pieces import JigPiece

    printing = a_plan().job.printing
    stem = extruded(region([box(0, 0, 4, 4)]), 0.0, 10.0)
    roof = extruded(region([box(-3, 0, 7, 4)]), 10.0, 12.0)
    fin = extruded(region([box(-0.2, 4, 0.3, 20)]), 0.0, 10.0) + extruded(region([box(-0.2, 3, 4, 5)]), 0.0, 10.0)
    piece = JigPiece("shelf", closed(stem + roof + fin, "shelf"))
    assert overhang(piece)[0] == pytest.approx(6 * 4, rel=0.05)
    thin, height = thin_walls(piece, 0.8)
    assert thin == pytest.approx(0.5 * 15, rel=0.1)
    assert height is not None and height < 10
    found = printability(piece, printing)
    assert found.fits_bed and found.overhang_mm2 > 20
    plain = JigPiece("post", closed(stem, "post"))
    assert thin_walls(plain, 0.8) == (0.0, None)
    assert overhang(plain)[0] == 0
    small = type(printing)(bed_mm=(5.0, 30.0, 11.0))
    assert not printability(piece, small).fits_bed
    assert printability(plain, small).fits_bed


def test_the_former_prints_without_support() -> None:
    for piece in eye_former(a_plan()).pieces:
        assert overhang(piece)[0] == pytest.approx(0.0, abs=1.0)


def test_the_boards_segments_fit_the_bed() -> None:
    for side in (120.0, 220.0, 300.0):
        plan = a_plan(bed_mm=(side, 100.0, 100.0))
        assert all(printability(piece, plan.job.printing).fits_bed for piece in taper_board(plan).pieces)


def test_grades_are_those_remembered() -> None:
    """From memory of ISO 286-1 (IT7 of 18 to 30 mm: 21 um, IT14 of 6 to 10 mm: 360 um) and of ISO 2768-1 fine."""
    assert grade_mm((18 * 30) ** 0.5, 7) == pytest.approx(0.021, rel=0.02)
    assert grade_mm((6 * 10) ** 0.5, 14) == pytest.approx(0.360, rel=0.02)
    assert fine_mm(10.0) == 0.1
    assert fine_mm(31.0) == 0.15
    assert area(circle(0, 0, 1)) == pytest.approx(np.pi)
