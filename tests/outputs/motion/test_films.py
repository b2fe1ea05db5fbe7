"""Films: frames painted as the camera says, files that are read again within their bounds, captions, a calm camera."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest
from PIL import Image

from fidpath.errors import EnvironmentProblem, OutputError
from fidpath.geometry.parts import Part
from fidpath.geometry.strands import Strands
from fidpath.meshing.meshes import Mesh
from fidpath.outputs.motion import films
from fidpath.outputs.motion.film_files import MP4_RATE, QUALITIES, Still, write_film
from fidpath.outputs.pictures.bodies import bodies_of
from fidpath.outputs.pictures.raster import seen
from fidpath.outputs.pictures.rendering import render
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.scene.colours import PALETTE
from fidpath.scene.scene import Camera, Panel, Solid
from fidpath.settling.settled_states import laid_state
from fidpath.states.rope_state import RopeState
from jobs import a_job
from scenes.settled import settled

LIMIT = 200_000


@lru_cache
def _plan() -> Plan:
    return make_plan(a_job(bury=18.0, bearing=4.0))


@dataclass(frozen=True)
class _Moment:
    stretch: str
    share: float
    state: RopeState
    strands: Strands
    thinner: float = 1.0
    key: bool = False


@lru_cache
def _moments() -> tuple[_Moment, ...]:
    """Two steps' states, laid but not settled, each shown for some pictures."""
    found = []
    for kind in ("marking", "locked"):
        one = laid_state(_plan(), kind)
        found += [_Moment(f"to {kind}", i / 11, one.state, one.settled.strands) for i in range(12)]
    return tuple(found)


def _cube(size: float, middle: tuple[float, float, float] = (0.0, 0.0, 0.0)) -> Mesh:
    """A closed cube, faces looking outward."""
    corner = np.array([[x, y, z] for x in (-1, 1) for y in (-1, 1) for z in (-1, 1)], dtype=float)
    sides = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
    faces = np.array([f for a, b, c, d in sides for f in ((a, b, c), (a, c, d))])
    return Mesh(corner * size / 2 + np.array(middle), faces)


def _moving(count: int, size: tuple[int, int] = (160, 120)) -> list[Still]:
    """A square that crosses a white picture with some texture in it."""
    rng = np.random.default_rng(5)
    texture = rng.integers(0, 200, (30, 30, 3), dtype=np.uint8)
    stills = []
    for number in range(count):
        picture = np.full((size[1], size[0], 3), 255, dtype=np.uint8)
        picture[40:70, 10 + 5 * number : 40 + 5 * number] = texture
        stills.append(Still(picture, 500 if number == 0 else 80))
    return stills


def _read(path: Path) -> tuple[list[np.ndarray], list[int]]:
    pictures, times = [], []
    with Image.open(path) as image:
        for number in range(getattr(image, "n_frames", 1)):
            image.seek(number)
            pictures.append(np.asarray(image.convert("RGB")))
            times.append(int(image.info["duration"]))
    return pictures, times


def _off(a: np.ndarray, b: np.ndarray) -> float:
    return float(np.abs(a.astype(float) - b.astype(float)).mean())


def test_an_animated_webp_shows_every_picture_for_its_time(tmp_path: Path) -> None:
    stills = _moving(12)
    write_film(tmp_path / "a.webp", stills, LIMIT)
    pictures, times = _read(tmp_path / "a.webp")
    assert times == [500] + 11 * [80]
    for picture, still in zip(pictures, stills, strict=True):
        assert _off(picture, still.picture) < 6
    assert _off(pictures[0], stills[5].picture) > 10


def test_what_stands_still_is_not_written_again(tmp_path: Path) -> None:
    one = _moving(1)[0]
    write_film(tmp_path / "one.webp", [one], LIMIT)
    write_film(tmp_path / "many.webp", [one] * 20, LIMIT)
    single, many = ((tmp_path / name).stat().st_size for name in ("one.webp", "many.webp"))
    assert many - single < 20 * 120
    assert len(_read(tmp_path / "many.webp")[0]) == 20


def test_quality_gives_way_to_the_limit_and_no_more_than_it_must(tmp_path: Path) -> None:
    def size(limit: int) -> int:
        write_film(tmp_path / "a.webp", _moving(14), limit)
        return (tmp_path / "a.webp").stat().st_size

    best, least = size(1_000_000), size(1)
    between = size(best - 1)
    assert least < between < best
    assert size(best) == best
    assert len(QUALITIES) == len(set(QUALITIES)) and list(QUALITIES) == sorted(QUALITIES, reverse=True)


@pytest.mark.parametrize("suffix", [".webp", ".gif"])
def test_same_pictures_same_bytes(tmp_path: Path, suffix: str) -> None:
    for name in ("a", "b"):
        write_film(tmp_path / f"{name}{suffix}", _moving(6), LIMIT)
    assert (tmp_path / f"a{suffix}").read_bytes() == (tmp_path / f"b{suffix}").read_bytes()


def test_a_gif_keeps_within_the_limit_by_being_smaller(tmp_path: Path) -> None:
    stills = _moving(8, (640, 480))
    write_film(tmp_path / "large.gif", stills, 10_000_000)
    write_film(tmp_path / "small.gif", stills, 4_000)
    (large, times), (small, _) = _read(tmp_path / "large.gif"), _read(tmp_path / "small.gif")
    assert large[0].shape == (480, 640, 3) and small[0].shape[1] < 640
    assert times[:2] == [500, 80]
    assert _off(large[3], stills[3].picture) < 12


def test_a_small_spot_of_its_own_colour_stays_so_in_a_gif(tmp_path: Path) -> None:
    rng = np.random.default_rng(2)
    green = np.array(PALETTE.eye[0]) * rng.uniform(0.4, 1.0, (120, 160, 1))
    picture = green.round().astype(np.uint8)
    picture[50:58, 70:78] = PALETTE.between[1]
    write_film(tmp_path / "a.gif", [Still(picture, 80)] * 2, LIMIT)
    found = _read(tmp_path / "a.gif")[0][0].astype(int)
    height, width = found.shape[:2]
    spot = found[54 * height // 120, 74 * width // 160]
    assert np.abs(spot - np.array(PALETTE.between[1])).max() < 40


def test_an_mp4_repeats_pictures_for_their_time(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    sent: list[Any] = []

    def write_frames(path: str, size: tuple[int, int], **options: Any) -> Any:
        assert size == (160, 120) and options["fps"] == MP4_RATE
        assert options["bitrate"] * sum(s.shown for s in _moving(3)) / 8000 < LIMIT
        try:
            while True:
                sent.append((yield))
        finally:
            Path(path).write_bytes(b"film")

    monkeypatch.setitem(sys.modules, "imageio_ffmpeg", SimpleNamespace(write_frames=write_frames))
    write_film(tmp_path / "a.mp4", _moving(3), LIMIT)
    assert (tmp_path / "a.mp4").read_bytes() == b"film"
    assert len(sent) == 15 + 2 + 2


def test_a_missing_encoder_or_an_unknown_format_is_said_in_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "imageio_ffmpeg", None)
    with pytest.raises(EnvironmentProblem, match="imageio-ffmpeg") as refused:
        write_film(tmp_path / "a.mp4", _moving(2), LIMIT)
    assert ".webp" in refused.value.remedy
    with pytest.raises(EnvironmentProblem, match=r"\.avi"):
        write_film(tmp_path / "a.avi", _moving(2), LIMIT)
    assert list(tmp_path.iterdir()) == []


def test_a_film_that_fails_half_way_leaves_nothing(tmp_path: Path) -> None:
    def stills():  # type: ignore[no-untyped-def]
        yield from _moving(2)
        raise RuntimeError("no more")

    (tmp_path / "a.webp").write_bytes(b"old")
    with pytest.raises(RuntimeError):
        write_film(tmp_path / "a.webp", stills(), LIMIT)
    assert [path.name for path in tmp_path.iterdir()] == ["a.webp"]
    assert (tmp_path / "a.webp").read_bytes() == b"old"
    with pytest.raises(OutputError):
        write_film(tmp_path / "missing" / "a.webp", _moving(2), LIMIT)


def painted(solids: list[Solid], camera: Camera, size: tuple[int, int], reach: float) -> np.ndarray:
    return render(seen(Panel((0, 0, *size), camera, tuple(solids)), films.FINE), reach)


def test_a_painted_cube_covers_the_pixels_its_camera_says() -> None:
    picture = painted([Solid(_cube(20.0), Part.TERMINATOR)], Camera((0.0, 0.0, 0.0), 60.0), (120, 80), 1.0)
    there = (picture < 250).any(axis=2)
    rows, columns = np.flatnonzero(there.any(axis=1)), np.flatnonzero(there.any(axis=0))
    assert picture.shape == (80, 120, 3)
    assert (columns[0], columns[-1], rows[0], rows[-1]) == (40, 79, 20, 59)


def test_nearer_bodies_hide_farther_ones_and_light_comes_from_the_lamps() -> None:
    near, far = Solid(_cube(20.0, (0.0, 0.0, 30.0)), Part.LOCK_STITCH), Solid(_cube(40.0), Part.TERMINATOR)
    picture = painted([far, near], Camera((0.0, 0.0, 0.0), 60.0), (120, 120), 1.0).astype(int)
    assert picture[60, 60, 0] > picture[60, 60, 2] + 60
    assert picture[60, 25, 2] > picture[60, 25, 0]
    turned = Camera((0.0, 0.0, 0.0), 60.0, (0.7071, 0.0, -0.7071))
    cube = painted([Solid(_cube(20.0), Part.TERMINATOR)], turned, (120, 120), 1.0).astype(int)
    assert abs(cube[60, 50].sum() - cube[60, 70].sum()) > 20, "two sides of a cube catch the light unlike"


def test_a_line_parts_strands_and_crevices_are_dark() -> None:
    cubes = [_cube(20.0, (-10.0, 0.0, 0.0)), _cube(20.0, (10.0, 0.0, 0.0))]
    points = np.concatenate([cube.points for cube in cubes])
    normals = np.tile([0.0, 0.0, 1.0], (16, 1))
    mesh = Mesh(points, np.concatenate([cubes[0].faces, cubes[1].faces + 8]), normals)
    camera = Camera((0.0, 0.0, 0.0), 60.0)

    def dark(group: np.ndarray) -> float:
        return float(
            painted([Solid(mesh, Part.EYE, group=group)], camera, (120, 120), 1.0)[60, 58:62].astype(float).min()
        )

    assert dark(np.repeat([0, 1], 8)) < dark(np.zeros(16, dtype=np.int64)) - 10
    step = [Solid(_cube(40.0), Part.EYE), Solid(_cube(10.0, (0.0, 0.0, 21.0)), Part.EYE)]
    picture = painted(step, camera, (240, 240), 4.0).astype(float)
    assert picture[120, 96].sum() < picture[120, 60].sum() - 30


def test_the_turntable_goes_round_once_and_stays_in_its_picture() -> None:
    shot = films.turntable(_plan(), settled(_plan(), "buried"))
    first, quarter, again = (shot(number) for number in (0, films.TURN_FRAMES // 4, films.TURN_FRAMES))
    assert np.allclose(first.camera.up, again.camera.up)
    assert abs(np.dot(first.camera.up, quarter.camera.up)) < 1e-9
    assert "finished splice" in first.words[0]
    for number in range(0, films.TURN_FRAMES, 15):
        camera = shot(number).camera
        off = first.bodies.points - np.asarray(camera.middle)
        assert np.abs(off @ np.asarray(camera.up)).max() < camera.width / 2 * (720 - films.HEAD - films.FOOT) / 960
        assert (off @ np.asarray(camera.right)).max() < camera.width / 2
    a, b = (films.still(one, _plan().braid.thickness).picture for one in (first, quarter))
    assert a.shape == (720, 960, 3) and _off(a, b) > 1
    assert (a == 255).all(axis=2).mean() > 0.4


def test_a_film_is_written_in_order_and_alike_each_time(tmp_path: Path) -> None:
    cube = bodies_of([Solid(_cube(10.0), Part.TERMINATOR)])
    told: list[float] = []

    def shot(number: int) -> films.Shot:
        return films.Shot(cube, Camera((4.0 * number, 0.0, 0.0), 60.0), (f"picture {number}", ""), 100)

    for name in ("a.webp", "b.webp"):
        films.film(tmp_path / name, 9, shot, 1.0, lambda _what, share: told.append(share))
    pictures, times = _read(tmp_path / "a.webp")
    middles = [float(np.nonzero((p[200:500] < 240).any(axis=(0, 2)))[0].mean()) for p in pictures]
    assert np.all(np.diff(middles) < -30) and times == 9 * [100]
    assert (tmp_path / "a.webp").read_bytes() == (tmp_path / "b.webp").read_bytes()
    assert told and 0 <= min(told) <= max(told) < 1


def _ink(still: Still, box: tuple[int, int, int, int]) -> int:
    left, top, right, low = box
    return int((still.picture[top:low, left:right].min(axis=2) < 120).sum())


def test_captions_name_the_stretch_and_own_up_to_thinner_rope_and_jumps() -> None:
    one = _moments()[0]
    kinds = [
        one,
        _Moment("to marking", 0.5, one.state, one.strands, 0.6),
        _Moment("to marking", 0.5, one.state, one.strands, 1.0, True),
    ]
    shots = [films.motion(_plan(), kinds)(number) for number in range(3)]
    assert [s.words for s in shots] == [("to marking", ""), ("to marking", films.THINNER), ("to marking", films.KEY)]
    assert [s.shown for s in shots] == [films.MOVE_SHOWN, films.MOVE_SHOWN, films.HELD]
    stills = [films.still(s, 1.6) for s in shots]
    note = (10, 42, 420, films.HEAD)
    assert _ink(stills[0], note) == 0
    assert min(_ink(s, note) for s in stills[1:]) > 100
    assert min(_ink(s, (10, 8, 300, 38)) for s in stills) > 100


def test_the_end_of_a_stretch_is_held() -> None:
    shots = [films.motion(_plan(), _moments())(number) for number in (10, 11)]
    assert [s.shown for s in shots] == [films.MOVE_SHOWN, films.HELD]


def test_the_motions_camera_holds_the_eye_and_moves_without_a_jerk() -> None:
    moments = _moments()
    shot = films.motion(_plan(), moments)
    cameras = [shot(number).camera for number in range(0, len(moments), 2)]
    widths = np.array([camera.width for camera in cameras])
    middles = np.array([camera.middle for camera in cameras])
    assert np.abs(np.diff(np.log(widths))).max() < 0.25
    assert np.linalg.norm(np.diff(middles, axis=0), axis=1).max() < 0.35 * widths.max()
    strands = moments[0].strands
    eye = strands.points[:, (strands.station > 0) & (strands.station < _plan().station_h2)].reshape(-1, 3)
    off = eye - np.asarray(cameras[0].middle)
    assert np.abs(off @ np.asarray(cameras[0].right)).max() < cameras[0].width / 2
    assert np.abs(off @ np.asarray(cameras[0].up)).max() < cameras[0].width / 2 * 0.65


def test_one_moment_makes_a_film_too() -> None:
    assert films.motion(_plan(), _moments()[:1])(0).camera.width > 0
