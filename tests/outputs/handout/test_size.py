"""Mark strip and sleeves at true size, read back from the PDF's own path operators and from its pixels."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from fidpath.job.job import Job
from fidpath.methods.registry import method_of
from fidpath.outputs.handout import handout
from fidpath.outputs.handout.mark_strip import strip_marks, tile_drawing, tiles
from fidpath.outputs.handout.true_size import BOLD
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from jobs import a_job
from readback.handout import boxes, page_lines, pixels

BOUND_MM = 0.01


def made(job: Job, paper: str = "a4", name: str = "locked-captive") -> tuple[Plan, bytes]:
    plan = make_plan(job)
    return plan, handout(plan, method_of(name), {}, paper)  # type: ignore[arg-type]


def pages_of(pdf: bytes, word: str, folder: Path) -> list[int]:
    return sorted({page for page, *_, text in boxes(pdf, folder) if text == word})


def level(lines: np.ndarray) -> np.ndarray:
    return lines[np.abs(lines[:, 1] - lines[:, 3]) < 1e-4]


def inches() -> Job:
    job = a_job(12.7)
    return replace(job, length_unit="in", tools=replace(job.tools, tape_division_mm=25.4 / 16))


@pytest.mark.parametrize(("job", "paper"), [(a_job(), "a4"), (a_job(), "letter"), (inches(), "letter")])
def test_bar_and_tiles_measure_right_in_the_file(job: Job, paper: str, tmp_path: Path) -> None:
    plan, pdf = made(job, paper)
    strip = pages_of(pdf, "tile", tmp_path)
    assert strip
    for page in strip:
        long = level(page_lines(pdf, page)[0])
        assert np.min(np.abs(np.abs(long[:, 0] - long[:, 2]) - 200.0)) <= BOUND_MM
    long = np.concatenate([level(page_lines(pdf, page)[0]) for page in strip])
    lengths = np.abs(long[:, 0] - long[:, 2])
    tile = tiles(plan)[0].last - tiles(plan)[0].first
    assert np.sum(np.abs(lengths - tile) <= BOUND_MM) >= 2 * (len(tiles(plan)) - 1)
    assert tile <= 200.0


@pytest.mark.parametrize("job", [a_job(), a_job(2.0), a_job(24.0), inches()], ids=["10", "2", "24", "inches"])
def test_every_mark_stands_at_its_place_beside_its_letter(job: Job, tmp_path: Path) -> None:
    plan, pdf = made(job)
    found = boxes(pdf, tmp_path)
    cut = tiles(plan)
    rows = sorted((page, top, left) for page, left, top, _, _, text in found if text == "tile")
    assert len(rows) == len(cut)
    at = {}
    for tile, (page, top, _) in zip(cut, rows, strict=True):
        lines, _ = page_lines(pdf, page)
        near = level(lines)
        tops = near[
            (np.abs(np.abs(near[:, 0] - near[:, 2]) - (tile.last - tile.first)) < BOUND_MM) & (near[:, 1] < top)
        ]
        edge = tops[np.argmax(tops[:, 1])]
        zero, low = min(edge[0], edge[2]), edge[1]
        up = lines[(np.abs(lines[:, 0] - lines[:, 2]) < 1e-4)]
        marks = up[
            (np.minimum(up[:, 1], up[:, 3]) < low - 11.5) & (np.abs(np.maximum(up[:, 1], up[:, 3]) - low) < 0.05)
        ]
        for mark in tile.marks:
            off = np.min(np.abs(marks[:, 0] - zero - (mark.station - tile.first)))
            letter = mark.letter.split()[0]
            x = zero + mark.station - tile.first
            offs = [left - x for p, left, t, *_, text in found if p == page and text == letter and 0 < top - t < 60]
            beside = [off for off in offs if abs(off - 0.9) < 0.6 or -40 < off < -5]
            assert off <= BOUND_MM, mark
            assert beside, mark
            at[mark.letter] = x
    assert set(at) == {mark.letter for mark in strip_marks(plan)}


def test_marks_are_those_of_the_plan() -> None:
    plan = make_plan(a_job())
    at = {mark.letter: mark.station for mark in strip_marks(plan)}
    assert at["H2"] - at["H1"] == pytest.approx(plan.needed_lock().picks_h1_to_h2 * plan.pick)
    assert at["X"] - at["B"] == pytest.approx(72 * 10.0)
    assert at["H1"] - at["E"] == pytest.approx(2 * plan.needed_lock().diamonds_entry_to_h1 * plan.pick)
    assert at["T1"] - at["B"] == pytest.approx(plan.taper.drops[0])


def test_the_bar_is_right_to_a_pixel_once_drawn(tmp_path: Path) -> None:
    _, pdf = made(a_job())
    page = pages_of(pdf, "tile", tmp_path)[0]
    dark = pixels(pdf, page, tmp_path) < 128
    wanted = 200 / 25.4 * 300
    best = []
    for row in dark:
        edges = np.flatnonzero(np.diff(np.concatenate([[0], row.astype(int), [0]])))
        runs = edges[1::2] - edges[::2]
        best.append(runs[np.abs(runs - wanted) < 20])
    runs = np.concatenate(best)
    width = 0.25 / 25.4 * 300
    assert len(runs) and np.min(np.abs(runs - wanted - width)) <= 1


BRAIDS = [
    (10.0, 12, "over-two"), (10.0, 8, "over-two"), (10.0, 16, "over-two"), (10.0, 12, "over-one"),
    (2.0, 12, "over-two"), (24.0, 12, "over-two"), (10.0, 16, "over-one"), (10.0, 8, "over-one"),
]  # fmt: skip


@pytest.mark.parametrize(("d", "strands", "weave"), BRAIDS)
def test_sleeve_is_the_braid_unrolled(d: float, strands: int, weave: str, tmp_path: Path) -> None:
    """Helix: tan a = pi d/P (exact); N/2 strands a hand, so lines a pitch/(N/2) apart along the rope."""
    _, pdf = made(a_job(d, strands=strands, weave=weave))  # type: ignore[arg-type]
    page = pages_of(pdf, "Sleeves", tmp_path)[-1]
    lines, _ = page_lines(pdf, page)
    pitch, girth = 7 * d, math.pi * d
    upright = np.abs(lines[:, 0] - lines[:, 2]) < 1e-4
    frames = lines[upright & (np.abs(np.abs(lines[:, 1] - lines[:, 3]) - girth) <= BOUND_MM)]
    assert len(frames) >= 2
    left, top = frames[:, 0].min(), np.minimum(frames[:, 1], frames[:, 3]).min()
    run, rise = lines[:, 2] - lines[:, 0], lines[:, 3] - lines[:, 1]
    inside = (np.minimum(lines[:, 1], lines[:, 3]) > top - 0.01) & (
        np.maximum(lines[:, 1], lines[:, 3]) < top + girth + 0.01
    )
    inside &= (np.minimum(lines[:, 0], lines[:, 2]) > left - 0.01) & (
        np.maximum(lines[:, 0], lines[:, 2]) < left + pitch + 9
    )
    steep = inside & (np.abs(run) > 0.05) & (np.abs(np.abs(rise) - np.abs(run) * girth / pitch) < 2e-3 * max(d, 5) / 5)
    slopes = rise[steep & (np.abs(run) > 0.7 * pitch / strands)] / run[steep & (np.abs(run) > 0.7 * pitch / strands)]
    assert len(slopes) > 2 * strands
    assert np.allclose(np.abs(slopes), math.pi * d / pitch, rtol=0.01)
    for hand in (1, -1):
        mine = lines[
            steep & (np.sign(rise / np.where(run == 0, 1, run)) == hand) & (np.abs(run) > 0.7 * pitch / strands)
        ]
        where = (mine[:, 0] - hand * (mine[:, 1] - top) * pitch / girth - left) / (pitch / (strands // 2)) % 1
        turned = np.angle(np.exp(2j * np.pi * where).mean())
        assert np.abs(np.exp(2j * np.pi * where).mean()) > 0.999, turned


@pytest.mark.parametrize("name", ["locked-captive", "locked-free", "plain"])
def test_every_method_has_its_strip_and_sleeves(name: str, tmp_path: Path) -> None:
    _, pdf = made(a_job(splice=name), "letter", name)  # type: ignore[arg-type]
    found = [text for *_, text in boxes(pdf, tmp_path)]
    assert "tile" in found and "Sleeves" in found
    assert ("H2" in found) == (name != "plain")


@pytest.mark.parametrize("job", [a_job(), a_job(2.0), a_job(24.0), inches()], ids=["10", "2", "24", "inches"])
def test_no_marks_line_runs_through_another_marks_words(job: Job) -> None:
    plan = make_plan(job)
    cut = tiles(plan)
    for tile in cut:
        drawing = tile_drawing(tile, len(cut), plan)
        lines = [s for s in drawing.strokes if s.width == BOLD]
        for label in (one for one in drawing.labels if one.bold):
            left = label.at[0] - (label.reach if label.anchor == "right" else 0.0)
            for line in lines:
                across = left < line.a[0] < left + label.reach
                assert not (across and line.a[1] < label.at[1] + 1.0), (tile.number, label.text)


@pytest.mark.parametrize("job", [a_job(), a_job(2.0), a_job(24.0), inches()], ids=["10", "2", "24", "inches"])
def test_no_two_labels_of_a_tile_overlap(job: Job) -> None:
    plan = make_plan(job)
    cut = tiles(plan)
    for tile in cut:
        bold = [label for label in tile_drawing(tile, len(cut), plan).labels if label.bold]
        spans = [(one.at[0] - one.reach * (one.anchor == "right"), one.at[1], one.reach) for one in bold]
        for i, (left, y, wide) in enumerate(spans):
            for other, other_y, other_wide in spans[:i]:
                assert abs(y - other_y) > 1 or left + wide <= other or other + other_wide <= left, tile.number
