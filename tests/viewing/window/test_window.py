"""The desktop window: what it shows, and real keys and mouse on a virtual display."""

import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import numpy as np
import pytest

import shows
from fidpath.errors import EnvironmentProblem, OutputError
from fidpath.geometry.parts import Part
from fidpath.job import read_job
from fidpath.meshing.meshes import Cut, joined, part_strands, volume
from fidpath.methods.registry import method_of
from fidpath.planning.planner import make_plan
from fidpath.settling.settled_states import settled_state
from fidpath.viewing.interruptible_settling import Overtaken
from fidpath.viewing.window.actors import leaders
from fidpath.viewing.window.display import check_display, save_picture
from fidpath.viewing.window.step_scene import RAYS, REFINE, WindowView, entries, halves, plane, view_of
from fidpath.viewing.window.strand_numbers import in_sight
from fidpath.viewing.window.window import HELP, KEYS
from jobs import a_job

PATIENCE = 120.0
"""Seconds that a state may take to settle on a busy machine."""


@pytest.fixture(scope="module")
def view() -> WindowView:
    """The step at which the tail has come through and the terminator is back."""
    plan = make_plan(a_job(bury=20.0))
    steps = entries(plan, method_of("locked-captive"))
    entry = next(entry for entry in steps if entry.kind == "marking")
    return view_of(entry, settled_state(plan, "marking", lambda _share: None, RAYS, REFINE), None)


def test_entries_are_all_steps_then_all_mistakes() -> None:
    plan, steps = make_plan(a_job()), method_of("locked-captive")
    found = entries(plan, steps)
    kinds = [step.state for step in steps.steps] + [way.name for way in steps.mistakes]
    assert [entry.kind for entry in found] == kinds
    assert found[0].title.startswith("Step 1 of 14: ")
    assert [entry.number for entry in found[2:4]] == ["3a", "3b"]
    late = next(entry for entry in found if entry.kind == "tail-other-face")
    assert found[late.place].number == late.number == "7"
    assert not any("{" in word for entry in found for word in (entry.title, *entry.words))


def test_parts_follow_each_other_along_the_rope(view: WindowView) -> None:
    assert [part.part for part in view.parts] == [Part.STANDING_PART, Part.EYE, Part.BETWEEN_THE_HOLES, Part.TAIL]
    state = view.model.state
    ends = [state.first, *(part.end for part in view.parts)]
    assert [part.start for part in view.parts] == ends[:-1]
    assert ends[-1] == state.last


@pytest.mark.parametrize("way", ["level", "across"])
def test_both_sides_of_a_cut_make_the_whole(view: WindowView, way: str) -> None:
    keep = plane(view, way, 0.47)
    x, y, z = keep.normal
    rest = Cut((-x, -y, -z), -keep.offset)
    for part in view.parts:
        whole = volume(joined(part_strands(view.model.sections, part.start, part.end)))
        sides = [volume(joined(solid.mesh for solid in halves(view, part, side))) for side in (keep, rest)]
        assert sum(sides) == pytest.approx(whole, rel=1e-4)
        assert min(sides) > 0 or way == "across"


def test_nothing_kept_lies_beyond_the_cut(view: WindowView) -> None:
    keep = plane(view, "level", 0.5)
    for part in view.parts:
        for solid in halves(view, part, keep):
            assert (solid.mesh.points @ np.array(keep.normal) - keep.offset).min() > -1e-3


def test_every_key_is_in_the_help_and_in_the_docs() -> None:
    said = " ".join(HELP)
    written = (shows.ROOT / "docs" / "show.md").read_text(encoding="utf-8")
    for key in KEYS:
        if len(key) == 1 and key.isalpha():
            assert re.search(rf"\b{key.upper()}\b", said), key
            assert f"`{key.upper()}`" in written, key


def test_letters_stand_off_the_rope_and_apart() -> None:
    rope = np.column_stack([np.linspace(0, 800, 400), np.full(400, 300.0)])
    spots = np.array([[300.0, 310.0], [303.0, 310.0], [306.0, 310.0]])
    places = spots + np.array(leaders(spots, rope, 40.0))
    for number, place in enumerate(places):
        assert np.linalg.norm(rope - place, axis=1).min() >= 40.0
        assert all(np.linalg.norm(place - other) > 20 for other in places[:number])


def test_settling_stops_when_it_is_wanted_no_more() -> None:
    def look(share: float) -> None:
        if share > 0.1:
            raise Overtaken

    with pytest.raises(Overtaken):
        settled_state(make_plan(a_job()), "marking", look)


def test_a_picture_never_goes_over_another(tmp_path: Path) -> None:
    (tmp_path / "window-marking-02.png").write_bytes(b"mine")
    saved = [save_picture(tmp_path, "window-marking", b"new").name for _ in range(2)]
    assert saved == ["window-marking-01.png", "window-marking-03.png"]
    assert (tmp_path / "window-marking-02.png").read_bytes() == b"mine"


def test_a_picture_into_a_file_instead_of_a_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "folder").write_text("no folder")
    with pytest.raises(OutputError):
        save_picture(tmp_path / "folder", "window", b"new")


def test_a_picture_cut_short_by_a_full_disk_is_not_left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    opened = Path.open

    def full(name: Path, _mode: str) -> Any:
        name.touch()
        return opened(Path("/dev/full"), "wb")

    if not Path("/dev/full").exists():
        pytest.skip("this system has no device that is always full")
    monkeypatch.setattr(Path, "open", full)
    with pytest.raises(OutputError, match="No space left"):
        save_picture(tmp_path, "window", b"new")
    monkeypatch.undo()
    assert list(tmp_path.iterdir()) == []


def test_numbers_of_both_groups_are_seen_from_their_own_sides() -> None:
    plan = make_plan(a_job(bury=20.0))
    entry = next(e for e in entries(plan, method_of("locked-captive")) if e.step is not None and e.step.number == 4)
    shown = view_of(entry, settled_state(plan, entry.kind, lambda _share: None, RAYS, REFINE), None)
    assert [chip.text for chip in shown.numbers[0]] == [*"123456"] * 2
    above, below = (in_sight(shown.model, shown.numbers[:1], np.array([0.0, 0.0, z])) for z in (1.0, -1.0))
    assert 2 <= sum(above) < 12
    assert above != below


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="displays by name are X11's")
@pytest.mark.parametrize("display", ["", ":987"])
def test_no_display_is_said_in_one_sentence(monkeypatch: pytest.MonkeyPatch, display: str) -> None:
    monkeypatch.setenv("DISPLAY", display)
    with pytest.raises(EnvironmentProblem) as problem:
        check_display()
    assert "no display" in str(problem.value)
    assert problem.value.code == 7


# ---- on a virtual display

needs_display = pytest.mark.skipif(
    not (shutil.which("Xvfb") and shutil.which("xdotool")), reason="Xvfb or xdotool is missing"
)


@pytest.fixture(scope="module")
def display() -> Iterator[str]:
    """A virtual display's name."""
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", "1", "-screen", "0", "1600x1000x24", "-nolisten", "tcp", "-noreset"],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
    )
    assert server.stdout is not None
    yield f":{server.stdout.readline().decode().strip()}"
    server.terminate()
    server.communicate()


class Desk:
    """The window opened by the command, and hands on its keyboard and mouse."""

    def __init__(self, display: str, out: Path, job: Path) -> None:
        self.out = out
        self.environment = {**os.environ, "DISPLAY": display, "VTK_DEFAULT_OPENGL_WINDOW": "vtkEGLRenderWindow"}
        self.name = read_job(job).name
        self.said = out.with_suffix(".txt")
        with self.said.open("w") as stderr:
            self.process = shows.started(job, "--out", out, err=stderr, DISPLAY=display)
        self.window = ""

    def open(self) -> None:
        """Waits for the window and puts the keyboard to it."""
        self.window = self.wait(lambda: self.tool("search", "--name", self.name).split())[0]
        self.tool("windowfocus", self.window)

    def tool(self, *order: str) -> str:
        """What xdotool answers."""
        done = subprocess.run(
            ["xdotool", *order], env=self.environment, capture_output=True, text=True, check=False, timeout=30
        )
        return done.stdout.strip()

    def wait(self, found: Callable[[], Any]) -> Any:
        """What comes of a look as soon as it is something."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end and self.process.poll() is None:
            if answer := found():
                return answer
            time.sleep(0.05)
        said = self.said.read_text()
        raise AssertionError(f"nothing came; exit code {self.process.poll()}, title {self.title() or 'none'}; {said}")

    def title(self) -> str:
        """What the window is called, which says what it shows."""
        return self.tool("getwindowname", self.window)

    def key(self, *names: str) -> None:
        """Real key events."""
        for name in names:
            self.tool("key", name)

    def at(self, words: str) -> None:
        """Waits until the window shows a settled state of this title."""
        self.wait(lambda: words in self.title() and "(settling)" not in self.title())

    def picture(self) -> np.ndarray:
        """What the window saves on its key, `(h, w, 3)`."""
        from PIL import Image

        before = set(self.out.glob("*.png"))
        self.key("p")
        fresh = self.wait(lambda: [p for p in set(self.out.glob("*.png")) - before if p.stat().st_size > 1000])
        time.sleep(0.2)
        with Image.open(fresh[0]) as image:
            return np.asarray(image.convert("RGB")).astype(int)


@contextmanager
def at_desk(display: str, out: Path, job: Path = shows.DEMO) -> Iterator[Desk]:
    """An open window, which is closed at the end."""
    found = Desk(display, out, job)
    try:
        found.open()
        yield found
    finally:
        found.process.kill()
        found.process.wait()


@pytest.fixture(scope="module")
def shared(display: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """One window for several tests: its states settle once."""
    with at_desk(display, tmp_path_factory.mktemp("window") / "pictures") as found:
        yield found


@pytest.fixture
def desk(shared: Desk) -> Desk:
    """The window at its first step, seen as it opens."""
    shared.key("Home", "h")
    shared.at("Step 1 of 14")
    return shared


def changed(one: np.ndarray, other: np.ndarray) -> float:
    """Share of the splice's half of two pictures that differs."""
    half = one.shape[1] * 3 // 10
    return float((np.abs(one - other).sum(axis=2)[:, half:] > 40).mean())


def straw(picture: np.ndarray) -> int:
    """Pixels in the standing part's colours."""
    r, g, b = picture.transpose(2, 0, 1)
    return int(((r - b > 45) & (r >= g) & (g - b > 20)).sum())


def plum(picture: np.ndarray) -> int:
    """Pixels in the tail's colours."""
    r, g, b = picture.transpose(2, 0, 1)
    return int(((r - g > 25) & (b - g > 12)).sum())


@needs_display
def test_the_slider_goes_through_the_steps(desk: Desk) -> None:
    desk.at("Step 1 of 14")
    first, low = 0.27 + 0.73 * 0.075, 0.94
    desk.tool("mousemove", "--window", desk.window, str(round(1280 * first)), str(round(860 * low)))
    desk.tool("mousedown", "1")
    for x in range(450, 801, 50):
        desk.tool("mousemove", "--window", desk.window, str(x), str(round(860 * low)))
    desk.tool("mouseup", "1")
    desk.wait(lambda: "Step 1 of" not in desk.title())
    assert "Step 14 of" not in desk.title()


@needs_display
def test_parts_cut_and_translucency_show_in_saved_pictures(desk: Desk) -> None:
    desk.key("End")
    desk.at("Step 14 of 14")
    desk.key("v")
    whole = desk.picture()
    desk.key("t")
    clear = desk.picture()
    assert plum(clear) > 1.3 * plum(whole)
    desk.key("t", "c")
    cut = desk.picture()
    assert plum(cut) > 1.3 * plum(whole)
    assert changed(cut, clear) > 0.02
    desk.key("c", "c", "1")
    bare = desk.picture()
    assert straw(bare) < 0.3 * straw(whole)
    desk.key("1", "d", "d")
    turned = desk.picture()
    assert changed(turned, whole) > 0.05
    assert len(list(desk.out.glob("*.png"))) == 5


@needs_display
def test_a_folder_that_has_gone_does_not_end_the_window(desk: Desk) -> None:
    desk.picture()
    kept = desk.out.with_name("kept")
    desk.out.rename(kept)
    desk.out.write_text("no folder")
    desk.key("p", "Right")
    desk.at("Step 2 of 14")
    assert desk.process.poll() is None
    desk.out.unlink()
    kept.rename(desk.out)


@needs_display
def test_dragging_turns_and_help_of_the_keys_comes_on_a_key(desk: Desk) -> None:
    desk.at("Step 1 of 14")
    still = desk.picture()
    desk.tool("mousemove", "--window", desk.window, "800", "300", "mousedown", "1")
    desk.tool("mousemove", "--window", desk.window, "880", "420")
    desk.tool("mouseup", "1")
    plain = desk.picture()
    assert changed(plain, still) > 0.005
    desk.key("question")
    helped = desk.picture()
    half = plain.shape[1] * 27 // 100
    assert (np.abs(plain - helped).sum(axis=2)[:, :half] > 40).mean() > 0.02


@needs_display
def test_keys_go_through_the_steps_and_close(desk: Desk) -> None:
    desk.at("Step 1 of 14")
    desk.key("Right")
    desk.at("Step 2 of 14")
    desk.key("Right", "Right")
    desk.at("Step 3b of 14")
    desk.key("Left")
    desk.at("Step 3a of 14")
    desk.key("w")
    desk.at("Wrong at step 3")
    desk.key("Home")
    desk.at("Step 1 of 14")
    desk.key("q")
    assert desk.process.wait(PATIENCE) == 0


@needs_display
def test_an_interrupt_ends_the_window_of_another_method_and_its_threads(display: str, tmp_path: Path) -> None:
    with at_desk(display, tmp_path / "pictures", shows.PLAIN) as desk:
        desk.at("Step 1 of 6")
        desk.process.send_signal(signal.SIGINT)
        assert desk.process.wait(PATIENCE) == 130
        assert "Traceback" not in desk.said.read_text()


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="displays by name are X11's")
def test_the_command_without_a_display_ends_with_its_code() -> None:
    done = shows.finished(shows.DEMO, DISPLAY="")
    assert done.returncode == 7
    assert done.stderr.count("\n") == 1
    assert "no display" in done.stderr
