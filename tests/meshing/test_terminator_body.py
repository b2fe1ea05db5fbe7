"""Terminators as meshes: closed, filling their seat and never more; bars grown together; holes that leave a wall."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from trimesh import Trimesh
from trimesh.sample import sample_surface

from fidpath.errors import CannotBeMade
from fidpath.geometry.seat import clearance, seat_of
from fidpath.job.bearing_body import Bar
from fidpath.meshing.bars import bar_mesh, bars_mesh
from fidpath.meshing.meshes import open_edges, volume
from fidpath.meshing.terminator_body import terminator_mesh
from shapes import RING
from terminators import a_shackle, a_terminator, depth_in_bars

KINDS = {
    "ring": RING,
    "ring with sharp lips": a_terminator("ring", 40.0, 7.0, 5.5, hole=24.0),
    "teardrop": a_terminator("teardrop", 30.0, 14.0, 5.5, hole=15.0, length=52.0, nose=4.0),
    "deadeye": a_terminator("deadeye", 50.0, 16.0, 5.5, holes=3, hole=10.0),
    "pin": a_terminator("pin", 20.0, 80.0),
    "sheave": a_terminator("sheave", 60.0, 16.0, 5.5, bore=16.0),
    "small sheave": a_terminator("sheave", 20.0, 12.0, 5.5, bore=10.0),
}


@pytest.mark.parametrize("name", KINDS)
def test_terminators_are_closed_and_fill_no_more_than_their_seat(name: str) -> None:
    seat = seat_of(KINDS[name])
    mesh = terminator_mesh(KINDS[name])
    off = clearance(seat, mesh.points)
    assert open_edges(mesh) == 0
    assert volume(mesh) > 0
    assert off.max() < 1e-5
    bearing = np.abs(np.linalg.norm(mesh.points[:, :2], axis=1) - seat.crown) < 1e-6
    assert bearing.any()


def test_a_pins_volume_is_its_cylinders_less_the_rounded_edges() -> None:
    pin = KINDS["pin"]
    cylinder = np.pi * (pin.bearing_diameter_mm / 2) ** 2 * pin.body.width
    assert 0.975 * cylinder < volume(terminator_mesh(pin)) < cylinder


def test_a_ring_goes_round_its_hole() -> None:
    mesh = terminator_mesh(RING, np.array([100.0, 0.0, 0.0]))
    from_axis = np.linalg.norm(mesh.points[:, :2] - [100.0, 0.0], axis=1)
    assert from_axis.min() == pytest.approx(RING.body.bore / 2)


def test_lashing_holes_take_their_volume_out() -> None:
    drilled = KINDS["deadeye"]
    whole = a_terminator("deadeye", 50.0, 16.0, 5.5)
    holes = 3 * np.pi * 5.0**2 * 16.0
    gone = volume(terminator_mesh(whole)) - volume(terminator_mesh(drilled))
    assert gone == pytest.approx(holes, rel=0.01)


def test_holes_without_a_wall_are_refused() -> None:
    with pytest.raises(CannotBeMade, match="leaves no wall"):
        terminator_mesh(a_terminator("ring", 40.0, 14.0, 5.5, hole=39.0))
    with pytest.raises(CannotBeMade, match="don't fit"):
        terminator_mesh(a_terminator("deadeye", 50.0, 16.0, 5.5, holes=6, hole=18.0))


@pytest.mark.parametrize("on", ["pin", "bow"])
def test_a_shackle_fills_no_more_than_its_seat_where_the_rope_is_and_bears_at_its_crown(on: str) -> None:
    """The rope is in the eye's plane, as far to either side as the seat is wide and a rope's thickness outside it."""
    shackle = a_shackle(on)
    seat, mesh = seat_of(shackle), terminator_mesh(shackle)
    assert open_edges(mesh) == 0 and volume(mesh) > 0
    places = np.asarray(sample_surface(Trimesh(mesh.points, mesh.faces), 40_000, seed=1)[0])
    near = places[(np.abs(places[:, 2]) < seat.half_width - 1e-3) & (places[:, 0] < seat.crown + 8.0)]
    assert clearance(seat, near).max() < 0.02  # the chords of the bow's round
    assert near[np.abs(near[:, 2]) < 1.0, 0].max() > seat.crown - 0.05
    crown = np.array([[seat.crown - 0.1, 0.0, 0.0], [seat.crown + 0.1, 0.0, 0.0]])
    inside, outside = (depth_in_bars(place[None], shackle.body.bars) for place in crown)
    assert inside == pytest.approx(0.1, abs=0.01) and outside < 0


def test_a_bows_inside_is_hollow_like_the_saddle_that_its_seat_has_for_a_groove() -> None:
    """Seen along the eye's plane the bar's inner edge is a circle of the bow's inside radius, 22 mm."""
    shackle = a_shackle("bow")
    seat = seat_of(shackle)
    z = np.linspace(-5.5, 5.5, 9)
    edge = seat.crown + 22.0 - np.sqrt(22.0**2 - z**2)
    places = np.column_stack([edge, np.zeros_like(z), z])
    assert clearance(seat, places) == pytest.approx(0.0, abs=1e-9)
    for place in places:
        assert depth_in_bars(place[None], shackle.body.bars) == pytest.approx(0.0, abs=0.03)


def test_the_other_of_pin_and_bow_lies_as_far_off_as_the_shackle_is_long_inside() -> None:
    for on, other in (("pin", 10.0 + 66.0), ("bow", 9.0 + 66.0)):
        bars = a_shackle(on).body.bars
        assert depth_in_bars(np.array([[other - 0.2, 0.0, 0.0]]), bars) < 0
        assert depth_in_bars(np.array([[other + 0.2, 0.0, 0.0]]), bars) > 0


def test_a_straight_bar_is_its_cylinder_and_a_closed_one_its_ring() -> None:
    straight = bar_mesh(Bar(((0.0, 0.0, -3.0), (0.0, 0.0, 7.0)), (2.0, 2.0)))
    turn = np.linspace(0, 2 * np.pi, 121)
    ring = bar_mesh(Bar(tuple((5 * np.cos(t), 5 * np.sin(t), 0.0) for t in turn), (1.0,) * 121))
    for mesh, size in ((straight, np.pi * 4 * 10), (ring, 2 * np.pi**2 * 5)):
        assert open_edges(mesh) == 0
        assert volume(mesh) == pytest.approx(size, rel=0.005)


def test_bars_that_cross_are_one_body_and_count_their_common_room_once() -> None:
    one = Bar(((-5.0, 0.0, 0.0), (5.0, 0.0, 0.0)), (1.0, 1.0))
    across = Bar(((0.0, -5.0, 0.0), (0.0, 5.0, 0.0)), (1.0, 1.0))
    both = bars_mesh([one, across])
    assert open_edges(both) == 0
    assert volume(both) == pytest.approx(2 * np.pi * 10 - 16 / 3, rel=0.005)


def test_a_sheaves_web_is_thinner_than_its_rim_and_open_round_its_hub() -> None:
    sheave = KINDS["sheave"]
    flat = replace(sheave, body=replace(sheave.body, faces=(), holes=()))
    closed = replace(sheave, body=replace(sheave.body, holes=()))
    bodies = [volume(terminator_mesh(one)) for one in (sheave, closed, flat)]
    assert bodies == sorted(bodies) and bodies[0] < 0.97 * bodies[1] < 0.9 * bodies[2]
    at = terminator_mesh(closed).points
    hub = at[np.isclose(np.hypot(at[:, 0], at[:, 1]), sheave.body.faces[2][0])]
    assert {round(float(z), 6) for z in np.abs(hub[:, 2])} == {round(0.45 * 8.0, 6), 8.0}


def test_holes_too_near_to_one_another_are_refused() -> None:
    sheave = KINDS["sheave"]
    holes = tuple(replace(hole, radius=2.3 * hole.radius) for hole in sheave.body.holes)
    with pytest.raises(CannotBeMade, match=r"6 holes of .* don't fit in a sheave"):
        terminator_mesh(replace(sheave, body=replace(sheave.body, holes=holes)))
