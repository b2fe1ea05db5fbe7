"""Teaching models: steps that are hard to see, close up, in colours that a reader of the 3MF file finds again."""

from __future__ import annotations

import io
from dataclasses import replace

import numpy as np
import pytest

from fidpath.errors import CannotBeMade
from fidpath.geometry import Part
from fidpath.outputs.jigs import BUILT, Wanted, one, taught
from fidpath.outputs.jigs.catalogue import TEACHING
from fidpath.outputs.jigs.parts.model_colours import part_at
from fidpath.outputs.jigs.parts.step_model import bights, fused_model, model
from fidpath.outputs.jigs.parts.teaching_models import STEPS, close_up, states_of, teaching_models
from fidpath.outputs.jigs.pieces import Jig, JigPiece
from fidpath.planning.plan import Plan
from fidpath.scene import PART_WORDS, colour_of
from fidpath.settling.settled_states import SettledState
from fidpath.states import KINDS
from jigs.plans import a_plan
from jigs.readback import from_stl, sound
from jobs import a_job
from scenes.settled import settled


@pytest.fixture(scope="module")
def plan() -> Plan:
    return a_plan(a_job(bury=15.0, bearing=3.0))


@pytest.fixture(scope="module")
def jig(plan: Plan) -> Jig:
    return teaching_models(plan, lambda state: settled(plan, state))


def test_each_step_is_a_sound_body_at_twice_the_rope_or_more(plan: Plan, jig: Jig) -> None:
    assert [piece.name for piece in jig.pieces] == [f"teaching-{state}" for state in STEPS["locked-captive"]]
    for piece in jig.pieces:
        assert sound(from_stl(piece))
        assert piece.sizes[0].value >= 2 * plan.braid.diameter
        assert max(np.ptp(piece.mesh.points[:, :2], axis=0)) <= max(plan.job.printing.bed_mm[:2])


def test_every_splices_steps_are_states_there_are() -> None:
    assert all(state in KINDS for states in STEPS.values() for state in states)


def test_a_splice_without_chosen_steps_is_refused(plan: Plan) -> None:
    ends = (replace(plan.job.line.ends[0], splice="another-splice"),)
    odd = replace(plan, job=replace(plan.job, line=replace(plan.job.line, ends=ends)))
    with pytest.raises(CannotBeMade, match="no steps are chosen"):
        states_of(odd)


def test_a_build_makes_them_only_where_asked_and_says_why_there_are_none(plan: Plan) -> None:
    assert TEACHING not in BUILT.names
    ends = (replace(plan.job.line.ends[0], splice="another-splice"),)
    odd = replace(plan, job=replace(plan.job, line=replace(plan.job.line, ends=ends)))
    ((name, report),) = taught(odd, lambda state: settled(plan, state))
    assert name == "teaching-models.txt"
    assert "not made" in report.decode() and "no steps are chosen" in report.decode()


def test_both_groups_have_their_own_colour_on_their_own_side(plan: Plan, jig: Jig) -> None:
    """Step 7: of the faces beside H2, those above its middle show the top group, those below the bottom group."""
    piece = jig.pieces[0]
    colours = piece.colours
    assert colours is not None and len(colours.index) == len(piece.mesh.faces)
    assert {"top group", "bottom group"} <= set(colours.names)
    assert len(set(colours.colours)) == len(colours.colours)
    heights = {
        name: piece.mesh.points[piece.mesh.faces[colours.index == number]].mean(axis=(0, 1))[2]
        for number, name in enumerate(colours.names)
    }
    assert heights["top group"] > heights["bottom group"] + 0.5 * plan.braid.diameter


def test_faces_are_coloured_as_the_strand_they_lie_on(plan: Plan) -> None:
    made = settled(plan, "tail-end-in-h2")
    strands = made.settled.strands
    rope = strands.points[0, : int(strands.count[0])]
    far_on = int(np.abs(strands.station - (strands.station[-1] - 20.0)).argmin())
    assert Part(int(part_at(made, rope[far_on][None])[0])) is Part.TAIL
    assert Part(int(part_at(made, rope[2][None])[0])) is Part.STANDING_PART


def test_a_bight_is_kept_whole(plan: Plan) -> None:
    made = settled(plan, "bight-in-h2")
    ((start, end),) = bights(made)
    assert 5 < (end - start) / plan.braid.diameter < 15
    shown = fused_model(made, 2.0, plan.job.printing, close_up=True)
    assert any(low <= start and end <= high for low, high in shown.spans)


def test_what_has_no_room_is_made_smaller_and_then_refused(plan: Plan) -> None:
    made = settled(plan, "bight-in-h2")
    small = replace(plan.job.printing, bed_mm=(140.0, 140.0, 140.0))
    assert close_up(made, 3.0, small).pieces[0].sizes[0].value < 30.0
    with pytest.raises(CannotBeMade, match="no room on the bed"):
        close_up(made, 3.0, replace(plan.job.printing, bed_mm=(60.0, 60.0, 60.0)))


def test_halves_are_coloured_too(plan: Plan) -> None:
    made: SettledState = settled(plan, "locked")
    upper, lower, pin = model(made, 3.0, True, plan.job.printing).pieces
    assert upper.colours is not None and lower.colours is not None and pin.colours is None
    assert len(lower.colours.index) == len(lower.mesh.faces)
    whole = model(made, 3.0, False, plan.job.printing).pieces[0]
    low = float(made.settled.strands.points[..., 2].min())
    assert low < 0
    for half, side in ((upper, 1.0), (lower, -1.0)):
        assert _places(half, side) == {
            name: pytest.approx(place, abs=0.8 * 3.0 * plan.braid.diameter)
            for name, place in _places(whole, 1.0).items()
            if name in _places(half, side)
        }


def _places(piece: JigPiece, side: float) -> dict[str, float]:
    """Mean y of the faces of each colour, turned back over."""
    assert piece.colours is not None
    middle = side * piece.mesh.points[piece.mesh.faces].mean(axis=1)[:, 1]
    return {name: float(middle[piece.colours.index == k].mean()) for k, name in enumerate(piece.colours.names)}


def test_a_strict_reader_finds_the_colours_in_the_file(plan: Plan) -> None:
    import lib3mf

    content, _ = one(plan, TEACHING, Wanted((TEACHING,), ("3mf",)), lambda state: settled(plan, state))
    for _, data in content:
        read = lib3mf.get_wrapper().CreateModel()
        reader = read.QueryReader("3mf")
        reader.SetStrictModeActive(True)
        reader.ReadFromBuffer(data)
        assert reader.GetWarningCount() == 0
        groups = read.GetBaseMaterialGroups()
        assert groups.MoveNext()
        materials = groups.GetCurrentBaseMaterialGroup()
        names = {
            materials.GetName(number): materials.GetDisplayColor(number) for number in materials.GetAllPropertyIDs()
        }
        for part in (Part.TOP_GROUP, Part.BOTTOM_GROUP):
            shown = names[PART_WORDS[part]]
            assert (shown.Red, shown.Green, shown.Blue) == colour_of(part)
        meshes = read.GetMeshObjects()
        assert meshes.MoveNext()
        mesh = meshes.GetCurrentMeshObject()
        used = {prop.PropertyIDs[0] for prop in mesh.GetAllTriangleProperties()}
        assert len(used) == len(names)
    assert io.BytesIO(content[0][1]).read(2) == b"PK"
