"""Broken-length views: what they keep, how it is moved up, and the signs where rope is left out."""

from __future__ import annotations

import numpy as np
import pytest

from fidpath.geometry.parts import Part
from fidpath.meshing.meshes import open_edges
from fidpath.methods import fill
from fidpath.scene.broken_view import BAND, GAP, break_signs, is_left_out, kept_of, merged, run_on_signs, shortened
from fidpath.scene.paint import model_of
from fidpath.scene.scene import Scene, project
from fidpath.scene.step_picture import step_scene
from scenes.steps import scene_of_step, settled_state, small_plan, worded_step


def scene_with_moments(kind: str) -> Scene:
    step = worded_step(kind)
    moments = {moment: settled_state(moment) for moment in step.states[1:]}
    return step_scene(step, settled_state(kind), None, small_plan(), moments=moments)


def test_stretches_that_nearly_meet_are_one() -> None:
    assert merged([(50.0, 60.0), (0.0, 10.0), (8.0, 20.0), (24.0, 30.0)], 5.0) == ((0.0, 30.0), (50.0, 60.0))
    assert merged([(0.0, 10.0), (2.0, 5.0)], 1.0) == ((0.0, 10.0),)


def test_what_is_kept_keeps_its_shape_and_the_rest_closes_to_the_gap() -> None:
    model = model_of(settled_state("laid-out"))
    x = model.lines[0][:, 0]
    shown = [(float(x[0]), float(x[0]) + 60.0), (float(x[-1]) - 70.0, float(x[-1]))]
    short = shortened(model, shown)
    (a, b), (c, e) = short.kept
    for start, end in short.kept:
        inside = (model.stations() >= start) & (model.stations() <= end)
        for was, now in (
            (model.points()[:, inside], short.points()[:, inside]),
            (model.line[inside], short.line[inside]),
        ):
            assert np.ptp((now - was).reshape(-1, 3), axis=0) == pytest.approx([0.0, 0.0, 0.0], abs=1e-9)
    assert short.at(e) == pytest.approx(model.at(e))
    assert short.at(c)[0] - short.at(b)[0] == pytest.approx(
        GAP * model.d, abs=3 * float(np.diff(model.stations()).max())
    )
    (gap,) = short.gaps
    assert short.at(b)[0] < gap < short.at(c)[0]
    assert is_left_out(short, np.array([gap, 0.0, 0.0])) and not is_left_out(short, short.at(a))
    assert kept_of(short, [(a - 5.0, a + 5.0), (b + 1.0, c - 1.0)]) == [(a, a + 5.0)]
    assert kept_of(model, [(1.0, 2.0)]) == [(1.0, 2.0)]


def test_a_band_covers_every_cut_end() -> None:
    model = model_of(settled_state("laid-out"))
    x = model.lines[0][:, 0]
    short = shortened(model, [(float(x[0]), float(x[0]) + 60.0), (float(x[-1]) - 70.0, float(x[-1]))])
    band, *edges = break_signs(short)
    assert band.part is Part.BREAK and open_edges(band.mesh) == 0 and len(edges) == 2
    for _, end in short.kept[:1]:
        cut = short.points()[:, short.column(end)]
        near = np.abs(band.mesh.points[None, :, 1] - cut[:, None, 1]) < model.d
        low = np.where(near, band.mesh.points[None, :, 0], np.inf).min(axis=1)
        assert (low < cut[:, 0]).all() and (low > cut[:, 0] - BAND * model.d).all()
        assert band.mesh.points[:, 2].min() > cut[:, 2].max()
    assert break_signs(model) == []


def test_the_laid_out_tail_is_shown_at_its_marks_with_both_lengths_the_tape_and_the_sleeve() -> None:
    wide = scene_of_step("laid-out").panels[0]
    parts = {solid.part for solid in wide.solids}
    assert {Part.MEASURING_TAPE, Part.MARK_SLEEVE, Part.BREAK, Part.MARKER_BARREL} <= parts
    assert wide.scale * small_plan().braid.diameter > 40
    whole, rough = (fill("{" + name + "}", small_plan()) for name in ("tail_to_lay_out", "rough_bury_mark"))
    assert [measure.text for measure in wide.dimensions] == [
        f"H1 to the tail's end {whole}",
        f"R to the tail's end {rough}",
    ]
    for solid in wide.solids:
        if solid.part in (Part.MARK_SLEEVE, Part.MARKER_BARREL):
            spots = project(wide, solid.mesh.points)
            x, y, width, height = wide.box
            assert (spots > (x, y)).all() and (spots < (x + width, y + height)).all()


@pytest.mark.parametrize("kind", ["laid-out", "cut-and-tapered", "buried"])
def test_no_label_points_at_rope_that_is_left_out(kind: str) -> None:
    for panel in scene_with_moments(kind).panels:
        bands = [project(panel, solid.mesh.points) for solid in panel.solids if solid.part is Part.BREAK]
        for label in panel.labels:
            (spot,) = project(panel, np.array([label.at]))
            assert not any(band[:, 0].min() < spot[0] < band[:, 0].max() for band in bands), label.text


def test_an_end_is_waved_where_the_rope_runs_on_and_nowhere_else() -> None:
    """The standing part always runs on; a tail that is drawn whole ends where it ends."""
    for kind, count in (("tail-entering", 1), ("curl-closing", 2)):
        model = model_of(settled_state(kind))
        signs = [solid for solid in run_on_signs(model) if solid.part is Part.BREAK]
        ends = [model.at(model.state.first), model.at(model.state.last)][:count]
        assert len(signs) == count
        for sign, end in zip(signs, ends, strict=True):
            assert np.linalg.norm((sign.mesh.points.mean(axis=0) - end)[:2]) < 0.5 * model.d
            assert open_edges(sign.mesh) == 0
