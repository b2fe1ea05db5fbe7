"""Scale models: one sound body of fused strands, as large as asked, in halves that lie flat and pin together."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fidpath.errors import CannotBeMade
from fidpath.job.job import Printing
from fidpath.meshing.sections import sections_of
from fidpath.outputs.jigs import Wanted, one
from fidpath.outputs.jigs.catalogue import make
from fidpath.outputs.jigs.manifolds import NotClosed
from fidpath.outputs.jigs.parts.pins import DEPTH
from fidpath.outputs.jigs.parts.step_model import WALL, Scaled, enlarged, fused_model, model, places_of_interest
from fidpath.outputs.stl import stl
from fidpath.settling.settled_states import SettledState
from jigs.plans import a_plan
from jigs.readback import at_height, from_stl, sound
from jobs import a_job
from scenes.settled import settled

SCALE = 3.0


@pytest.fixture(scope="module")
def locked() -> SettledState:
    return settled(a_plan(a_job(bury=15.0, bearing=3.0)), "locked")


@pytest.fixture(scope="module")
def whole(locked: SettledState):  # type: ignore[no-untyped-def]
    return model(locked, SCALE, False, locked.plan.job.printing)


@pytest.fixture(scope="module")
def fused(locked: SettledState) -> Scaled:
    return fused_model(locked, SCALE, locked.plan.job.printing)


@pytest.fixture(scope="module")
def halves(locked: SettledState):  # type: ignore[no-untyped-def]
    return model(locked, SCALE, True, locked.plan.job.printing)


def test_the_model_is_one_sound_body_that_fits_the_bed(locked: SettledState, whole) -> None:  # type: ignore[no-untyped-def]
    body = from_stl(whole.pieces[0])
    assert sound(body)
    bed = locked.plan.job.printing.bed_mm
    assert sorted(body.extents[:2])[1] <= bed[0] and body.extents[2] <= bed[2]
    assert body.extents[2] > SCALE * locked.plan.braid.diameter


def test_it_says_what_it_leaves_out_and_what_it_is_not(whole) -> None:  # type: ignore[no-untyped-def]
    assert any("doesn't fit the bed" in note for note in whole.notes)
    assert any("never load it" in sentence for sentence in whole.use)
    assert any("0.4 mm into one another" in sentence for sentence in whole.use)


def test_neighbouring_strands_are_fused(locked: SettledState, fused: Scaled) -> None:
    """Apart, the drawn strands are many bodies; run into one another by the stated overlap they are one."""
    printing = locked.plan.job.printing
    assert len(fused.solid.decompose()) == 1
    with pytest.raises(CannotBeMade, match="bodies"):
        fused_model(locked, SCALE, replace(printing, fuse_mm=-2.0))


def test_where_surfaces_touch_along_an_edge_strands_are_fused_a_little_more(
    locked: SettledState, monkeypatch: pytest.MonkeyPatch
) -> None:
    from fidpath.outputs.jigs.parts import step_model as module

    met: list[float] = []

    def stubborn(made: SettledState, scale: float, halves: bool, printing: Printing, close_up: bool) -> float:
        met.append(printing.fuse_mm)
        if len(met) < 3 or scale > 4:
            raise NotClosed("no closed solid")
        return printing.fuse_mm

    monkeypatch.setattr(module, "_model", stubborn)
    assert model(locked, SCALE, False, locked.plan.job.printing) == pytest.approx(0.4 * 1.02)  # type: ignore[comparison-overlap]
    with pytest.raises(NotClosed):
        model(locked, 5.0, False, locked.plan.job.printing)
    assert met[:3] == pytest.approx([0.4, 0.404, 0.408])


def test_no_strand_is_thinner_than_the_wall(locked: SettledState) -> None:
    strands = locked.settled.strands
    small = enlarged(sections_of(strands, rays=14, refine=1), 0.2, 0.1)
    ring = small.rings[0, : small.count[0]] - small.centres[0, : small.count[0], None, :]
    side = np.roll(ring, -1, axis=1) - ring
    share = np.clip(-(ring * side).sum(axis=2) / (side * side).sum(axis=2), 0, 1)
    nearest = np.linalg.norm(ring + share[..., None] * side, axis=2)
    assert WALL / 2 - 1e-9 <= nearest.min() < WALL / 2 + 0.05


def test_strands_overlap_by_what_is_stated(locked: SettledState) -> None:
    """A ray that reached the plane midway to its neighbour reaches half the overlap beyond it."""
    sections = sections_of(locked.settled.strands, rays=14, refine=1)
    grown = enlarged(sections, SCALE, 0.6)
    before = np.linalg.norm(sections.rings - sections.centres[:, :, None], axis=3)
    after = np.linalg.norm(grown.rings - grown.centres[:, :, None], axis=3)
    live = before > 0.3
    assert (after[live] - SCALE * before[live] / 0.97 >= 0.3 - 1e-9).all()


def test_halves_lie_flat_and_their_holes_take_the_pin(locked: SettledState, halves) -> None:  # type: ignore[no-untyped-def]
    upper, lower, pin = (from_stl(piece) for piece in halves.pieces)
    assert sound(upper) and sound(lower) and sound(pin)
    for half in (upper, lower):
        cut = at_height(half, 0.01)
        assert np.ptp(cut[:, :, 0]) > 100
    radius = halves.pieces[2].sizes[0].value / 2
    assert pin.extents[0] == pytest.approx(4 * DEPTH * radius, abs=0.01)
    assert upper.extents[2] + lower.extents[2] > SCALE * locked.plan.braid.diameter


def test_the_holes_in_both_halves_face_each_other(locked: SettledState, halves, fused: Scaled) -> None:  # type: ignore[no-untyped-def]
    play = locked.plan.job.printing.clearance_mm
    radius = halves.pieces[2].sizes[0].value / 2 + play
    found = []
    for piece, side in zip(halves.pieces, (1, -1), strict=False):
        mesh = from_stl(piece)
        wall = mesh.vertices[np.abs(mesh.vertices[:, 2] - 2 * DEPTH * radius) < 1.5] * [1, side, 1]
        found.append(wall)
    from fidpath.outputs.jigs.parts.pins import pins_for

    pins = pins_for(fused.solid, play, WALL)
    for x, y in pins.places:
        for wall in found:
            away = np.hypot(wall[:, 0] - x, wall[:, 1] - y)
            assert (np.abs(away - radius) < 0.02).sum() > 20


def test_the_larger_the_scale_the_less_rope_is_shown(locked: SettledState) -> None:
    printing = locked.plan.job.printing

    def shown(scale: float) -> float:
        return sum(end - start for start, end in fused_model(locked, scale, printing).spans)

    assert shown(2.0) > shown(4.0)


def test_a_step_with_nothing_open_shows_the_place_of_h1() -> None:
    plan = a_plan(a_job(bury=15.0, bearing=3.0))
    jig = make(plan, "model", Wanted(("model",), step="laid-out"))
    assert sound(from_stl(jig.pieces[0]))
    assert places_of_interest(settled(plan, "laid-out")) == [0.0]


def test_a_settled_step_is_not_settled_again(locked: SettledState, whole, monkeypatch: pytest.MonkeyPatch) -> None:  # type: ignore[no-untyped-def]
    monkeypatch.setattr(
        "fidpath.settling.settled_states.settle", lambda *given, **options: pytest.fail("settled again")
    )
    content, entry = one(locked.plan, "model", Wanted(("model",), ("stl",), scale=SCALE), lambda _step: locked)
    assert entry.files == ("model-locked-mm.stl",)
    assert content[0][1] == stl(whole.pieces[0].mesh, "model-locked")


def test_unknown_steps_and_beds_too_small_are_refused(locked: SettledState) -> None:
    with pytest.raises(CannotBeMade, match="no step"):
        make(locked.plan, "model", Wanted(("model",), step="tied"))
    tiny = replace(locked.plan.job.printing, bed_mm=(90.0, 90.0, 90.0))
    with pytest.raises(CannotBeMade, match="no room on the bed") as refused:
        fused_model(locked, 5.0, tiny)
    assert refused.value.key == "print.scale" and "bed of" in refused.value.remedy
    with pytest.raises(CannotBeMade, match="no room on the bed") as refused:
        fused_model(locked, 5.0, replace(tiny, bed_mm=(180.0, 180.0, 180.0)))
    most = float(refused.value.remedy.split()[-1])
    assert fused_model(locked, most, replace(tiny, bed_mm=(180.0, 180.0, 180.0))).solid.volume() > 0
