"""Measuring on the page, held against the strands that the check measured."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from fidpath.meshing.meshes import part_strands
from fidpath.meshing.sections import middle
from fidpath.settling.settled_states import SettledState
from pages import Tab, drawn

Floats = NDArray[np.float64]


def test_measuring_agrees_with_the_strands(tab: Tab, demo: Any) -> None:
    """Two touched places: straight and along the rope as the meshes that the check measured have them, to 0.1 mm."""
    tab.go("step-11")
    tab.page.click("#tab-measure")
    box = tab.page.locator("#canvas").bounding_box()
    assert box is not None
    made = demo[1]["locked"]
    spots = [_spot(made, tab.camera(), station) for station in (-25.0, 90.0)]
    for x, y in spots:
        assert 0 < x < box["width"] and 0 < y < box["height"]
        tab.page.mouse.click(box["x"] + x, box["y"] + y)
    found = tab.ask("() => window.fidpathPage.measured()")
    assert found is not None
    expected = [_hit(made, tab.camera(), spot) for spot in spots]
    straight = float(np.linalg.norm(expected[1][0] - expected[0][0]))
    along = abs(expected[1][1] - expected[0][1])
    assert straight > 5
    assert found["straight"] == pytest.approx(straight, abs=0.1)
    assert found["along"] == pytest.approx(along, abs=0.1)
    assert f"{found['straight']:.1f} mm" in tab.page.locator("#measured").inner_text()


def _spot(made: SettledState, camera: dict[str, Any], station: float) -> tuple[float, float]:
    """Where the rope's middle at a station shows on the canvas."""
    strands = made.settled.strands
    off = strands.axis[int(np.abs(strands.station - station).argmin())] - np.array(camera["centre"])
    across, upward = (camera["scale"] * float(off @ np.array(camera[name])) for name in ("right", "up"))
    return camera["width"] / 2 + across, camera["height"] / 2 - upward


def _hit(made: SettledState, camera: dict[str, Any], spot: tuple[float, float]) -> tuple[Floats, float]:
    """Place and station where a line of sight first meets the drawn strands."""
    axes = {name: np.array(camera[name]) for name in ("right", "up", "toward", "centre")}
    start = axes["centre"] + axes["right"] * (spot[0] - camera["width"] / 2) / camera["scale"]
    start = start + axes["up"] * (camera["height"] / 2 - spot[1]) / camera["scale"]
    best, found = -np.inf, (start, 0.0)
    station = made.settled.strands.station
    for mesh in part_strands(made.sections, station[0], station[-1], weld=False):
        assert mesh.station is not None
        a, b, c = (mesh.points[mesh.faces[:, i]] for i in range(3))
        across = np.cross(-axes["toward"], c - a)
        size = np.einsum("ij,ij->i", b - a, across)
        size = np.where(np.abs(size) < 1e-12, np.inf, size)
        away = start - a
        u = np.einsum("ij,ij->i", away, across) / size
        side = np.cross(away, b - a)
        v = side @ -axes["toward"] / size
        depth = np.einsum("ij,ij->i", c - a, side) / size
        hit = (u >= 0) & (v >= 0) & (u + v <= 1) & np.isfinite(size)
        if hit.any() and (-depth[hit]).max() > best:
            i = np.flatnonzero(hit)[int((-depth[hit]).argmax())]
            best = float(-depth[i])
            at = mesh.station[mesh.faces[i]]
            found = (start - axes["toward"] * depth[i], float(at @ [1 - u[i] - v[i], u[i], v[i]]))
    assert np.isfinite(best)
    return found


def test_measuring_between_marks(tab: Tab, demo: Any) -> None:
    plan, made = demo
    tab.go("step-5")
    tab.page.click("#tab-measure")
    tab.page.select_option("#mark-a", "H1")
    tab.page.select_option("#mark-b", "H2")
    found = tab.ask("() => window.fidpathPage.measured()")
    strands = made["marking"].settled.strands
    line, _ = middle(strands.points, strands.count)
    ends = [np.array([np.interp(u, strands.station, line[:, c]) for c in range(3)]) for u in (0.0, plan.station_h2)]
    assert found["along"] == pytest.approx(plan.station_h2, abs=0.01)
    assert found["straight"] == pytest.approx(float(np.linalg.norm(ends[1] - ends[0])), abs=0.1)
    assert "280.0 mm" in tab.page.locator("#measured").inner_text()
    tab.page.click("#measure-clear")
    assert tab.ask("() => window.fidpathPage.measured()") is None


def test_a_finger_beside_the_rope_measures_the_rope(phone: Tab) -> None:
    """At the last step the rope is a few pixels wide: a finger 15 pixels off still takes it, one 60 off doesn't."""
    phone.go("step-14")
    phone.page.tap("#tab-measure")
    box = phone.page.locator("#canvas").bounding_box()
    assert box is not None
    there = drawn(phone.picture())
    columns = np.flatnonzero(there.any(axis=0))
    column = int(columns[0] + 0.35 * (columns[-1] - columns[0]))
    rows = np.flatnonzero(there[:, column])
    x, low = box["x"] + column / 2, box["y"] + rows[-1] / 2
    phone.page.touchscreen.tap(x, low + 15)
    assert "second place" in phone.page.locator("#measured").inner_text()
    phone.page.touchscreen.tap(x + 60, low + 60)
    assert "No rope there" in phone.page.locator("#note").inner_text()
    phone.page.touchscreen.tap(x + 60, low + 15)
    found = phone.ask("() => window.fidpathPage.measured()")
    assert found["straight"] == pytest.approx(60 / phone.camera()["scale"], rel=0.2)
    phone.page.tap("#measure-clear")
