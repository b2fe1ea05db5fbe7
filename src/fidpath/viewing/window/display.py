"""What the window needs of the machine: a display to open on, and a free name for a picture."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from pathlib import Path

from fidpath.errors import EnvironmentProblem, OutputError
from fidpath.machine import make_folder, write_new

MOST_PICTURES = 9999


def check_display() -> None:
    """Raises EnvironmentProblem where this machine has no display to open a window on."""
    problem = EnvironmentProblem(
        "there is no display to open a window on", "Use a desktop session, or `fidpath show JOB --browser`"
    )
    if not sys.platform.startswith("linux"):
        return
    os.environ.pop("VTK_DEFAULT_OPENGL_WINDOW", None)  # drawing off screen, which a parent process may have asked for
    if not os.environ.get("DISPLAY"):
        raise problem
    import ctypes
    import ctypes.util

    name = ctypes.util.find_library("X11")
    if name is None:
        raise EnvironmentProblem("the X11 library is missing, which a window needs", "Install libX11")
    x11 = ctypes.CDLL(name)
    x11.XOpenDisplay.restype = ctypes.c_void_p
    x11.XCloseDisplay.argtypes = [ctypes.c_void_p]
    found = x11.XOpenDisplay(None)
    if not found:
        raise problem
    x11.XCloseDisplay(found)


def free_name(folder: Path, stem: str) -> Iterator[Path]:
    """Names for pictures in a folder, the first that is free and those after it."""
    for number in range(1, MOST_PICTURES + 1):
        target = folder / f"{stem}-{number:02d}.png"
        if not target.exists():
            yield target


def save_picture(folder: Path, stem: str, content: bytes) -> Path:
    """Writes a picture under the next free number, never over a file that is there. Raises OutputError."""
    make_folder(folder)
    for target in free_name(folder, stem):
        try:
            write_new(target, content)
        except FileExistsError:
            continue
        except OSError as problem:
            raise OutputError(
                f"can't write {target}: {problem.strerror}", "Choose another folder with --out"
            ) from problem
        return target
    raise OutputError(f"{folder} is full of pictures", "Choose another folder with --out")
