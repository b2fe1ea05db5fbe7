"""Whether this machine has what fidpath needs: each finding with what was found, and what to do where it isn't well."""

from __future__ import annotations

import os
import platform
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from importlib.metadata import PackageNotFoundError, requires, version
from pathlib import Path
from typing import Any, Literal

from fidpath.machine.resources import core_count, memory_mb

State = Literal["well", "lacking", "faulty"]

BROWSERS = ("chromium", "chromium-browser", "google-chrome", "chrome", "firefox", "msedge")
"""Browsers by their commands; any one that draws with WebGL2 shows the page."""

LEAST_MEMORY_MB = 3000
"""With less, a build may have room for one helping process only: it takes up to 1000 MB (benchmarks/bench_build.py)."""

DRAWING = """
import numpy as np
from fidpath.geometry.parts import Part
from fidpath.meshing.meshes import Mesh
from fidpath.outputs.pictures.raster import seen
from fidpath.outputs.pictures.rendering import render
from fidpath.scene.scene import Camera, Panel, Solid
mesh = Mesh(np.array([[-9.0, -9, 0], [9, -9, 0], [0, 9, 0]]), np.array([[0, 1, 2]]), None)
view = seen(Panel((0, 0, 40, 40), Camera((0.0, 0.0, 0.0), 30.0), (Solid(mesh, Part.LOCK_STITCH),)))
colour = render(view, 1.0)
assert view.solid.sum() > 50 and colour[22, 20, 0] > colour[22, 20, 2]
"""
"""Draws a red triangle as pictures are drawn."""

SHOWING = """
import os
os.environ.setdefault("VTK_DEFAULT_OPENGL_WINDOW", "vtkEGLRenderWindow")
import pyvista
plotter = pyvista.Plotter(off_screen=True, window_size=(40, 40))
plotter.set_background("white")
plotter.add_mesh(pyvista.Triangle(), color="red", lighting=False)
assert plotter.screenshot(None)[..., 2].min() < 50
"""
"""Draws one as the window does, in a process of its own: a driver that crashes is a finding, not a crash."""

OPENGL = "Install the system's OpenGL and EGL libraries (Mesa's do); nothing but the window needs them"

WRITING = """
from fidpath.outputs.pictures.pen import Pen
from PIL import Image, ImageDraw
image = Image.new("RGB", (200, 60), "white")
Pen(ImageDraw.Draw(image)).text((5, 5), "H1 Ø 12.5 mm")
assert image.convert("L").getextrema()[0] < 100
import typst
assert typst.compile(b"Bury: 720 mm", format="pdf").startswith(b"%PDF")
"""
"""Writes a line into a picture and another into a PDF."""


@dataclass(frozen=True)
class Finding:
    """One thing that was looked at. `lacking`: something can do without it; `faulty`: something can't."""

    name: str
    state: State
    found: str
    remedy: str = ""


def findings() -> Iterator[Finding]:
    """Everything that is looked at, in order."""
    yield _python()
    yield from findings_of_packages()
    yield _tried("drawing", DRAWING, "pictures", "Install fidpath's dependencies again")
    yield _tried("fonts", WRITING, "words in pictures and PDFs", "Install fidpath's dependencies again")
    yield findings_of_folder("folder", Path.cwd(), "Work in a folder that you can write into, or name one with --out")
    yield _cache()
    yield _temporary()
    yield _browser()
    yield _display()
    yield _tried("window", SHOWING, "what `fidpath show` draws", OPENGL, lacking="lacking")
    yield _machine()


def as_data(findings: list[Finding]) -> dict[str, Any]:
    """The findings as plain data."""
    return {"well": all(one.state != "faulty" for one in findings), "findings": [asdict(one) for one in findings]}


def as_lines(findings: list[Finding]) -> str:
    """The findings for a terminal; ends with a line end."""
    lines = []
    for one in findings:
        lines.append(f"{one.state:<8} {one.name:<10} {one.found}")
        if one.state != "well" and one.remedy:
            lines.append(f"{'':<19} {one.remedy}")
    return "\n".join(lines) + "\n"


def _python() -> Finding:
    said = platform.python_version()
    good = sys.version_info >= (3, 11)
    return Finding("python", "well" if good else "faulty", said, "fidpath needs Python 3.11 or later")


def findings_of_packages() -> Iterator[Finding]:
    """One finding for all that is there, and one for each that isn't or is too old."""
    try:
        own, wanted = version("fidpath"), requires("fidpath") or []
    except PackageNotFoundError:
        yield Finding("packages", "faulty", "fidpath isn't installed", "Install it with pip")
        return
    needed = [line for line in wanted if "extra ==" not in line]
    bad = [problem for line in needed if (problem := _too_old(line))]
    for problem in bad:
        yield Finding("packages", "faulty", problem, "Install fidpath again with pip, which brings what it needs")
    if not bad:
        yield Finding("packages", "well", f"fidpath {own} and the {len(needed)} it needs")


def _too_old(requirement: str) -> str:
    """What is wrong with an installed package, or nothing."""
    match = re.match(r"([\w.\-]+)\s*>=\s*([\d.]+)", requirement)
    if match is None:
        return ""
    name, least = match.groups()
    try:
        there = version(name)
    except PackageNotFoundError:
        return f"{name} isn't there"
    return f"{name} {there} is older than {least}" if _parts(there) < _parts(least) else ""


def _parts(text: str) -> tuple[int, ...]:
    return tuple(int(part) for part in re.findall(r"\d+", text)[:3])


def _tried(name: str, program: str, what: str, remedy: str, lacking: State = "faulty") -> Finding:
    """What came of a small program in a process of its own; `lacking` is the state where it fails."""
    try:
        done = subprocess.run(
            [sys.executable, "-c", program], capture_output=True, text=True, errors="replace", timeout=120, check=False
        )
    except (OSError, subprocess.TimeoutExpired) as problem:
        return Finding(name, lacking, f"{what}: no answer ({type(problem).__name__})", remedy)
    if done.returncode == 0:
        return Finding(name, "well", f"{what} can be made")
    said = (done.stderr.strip().splitlines() or [f"ended with {done.returncode}"])[-1]
    return Finding(name, lacking, f"{what} can't be made: {said[:200]}", remedy)


def findings_of_folder(name: str, folder: Path, remedy: str) -> Finding:
    """Whether a folder can be written into and has room for a build."""
    try:
        with tempfile.TemporaryFile(dir=folder):
            pass
    except OSError as problem:
        return Finding(name, "faulty", f"can't write into {folder}: {problem.strerror}", remedy)
    free = shutil.disk_usage(folder).free / 1e6
    if free < 500:
        return Finding(name, "lacking", f"{folder} has {free:.0f} MB left", "A build of every step takes about 250 MB")
    return Finding(name, "well", f"{folder}, {free:.0f} MB left")


def _cache() -> Finding:
    from fidpath.machine.compiled import cache_folder

    folder = cache_folder()
    home = Path(os.environ.get("NUMBA_CACHE_DIR") or os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    if home in (folder, *folder.parents):
        return Finding("cache", "well", f"compiled code is kept in {folder}")
    return Finding("cache", "lacking", f"compiled code is kept in {folder} for now", f"Make {home} writable")


def _temporary() -> Finding:
    try:
        return findings_of_folder("temporary", Path(tempfile.gettempdir()), "Name a folder with room in TMPDIR")
    except OSError as problem:
        return Finding("temporary", "faulty", str(problem.strerror), "Name a folder with room in TMPDIR")


def _browser() -> Finding:
    there = next((path for name in BROWSERS if (path := shutil.which(name))), None)
    if there is not None:
        return Finding("browser", "well", there)
    return Finding("browser", "lacking", "none found by its command", "splice.html opens in any browser with WebGL2")


def _display() -> Finding:
    if sys.platform in ("win32", "darwin") or os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"):
        return Finding("display", "well", "there is one for the window")
    return Finding(
        "display", "lacking", "none: the window of `fidpath show` can't open", "Use `fidpath show --browser`"
    )


def _machine() -> Finding:
    cores, memory = core_count(), memory_mb()
    said = f"{cores} cores" + (f", {memory:.0f} MB of memory" if memory else "")
    if memory and memory < LEAST_MEMORY_MB:
        return Finding("machine", "lacking", said, "Build with --no-steps: every step takes more memory")
    return Finding("machine", "well", said)
