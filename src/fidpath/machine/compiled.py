"""Compiled loops: numba, imported late and with its cache in a folder that can be written.

numba fails at import where no cache folder is writable, so its folder is settled before it is imported.
Import this module only from modules that are themselves loaded when used.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar, cast

Function = TypeVar("Function", bound=Callable[..., Any])


def cache_folder() -> Path:
    """A folder for compiled code that this user can write: `~/.cache/fidpath`, else one for temporary files."""
    asked = os.environ.get("NUMBA_CACHE_DIR")
    home = Path(os.environ.get("XDG_CACHE_HOME") or Path("~/.cache").expanduser()) / "fidpath"
    spare = Path(tempfile.gettempdir()) / f"fidpath-{os.getuid() if hasattr(os, 'getuid') else 'user'}"
    for folder in ([Path(asked)] if asked else []) + [home, spare]:
        if _writable(folder):
            return folder
    return Path(tempfile.mkdtemp(prefix="fidpath-"))


def _writable(folder: Path) -> bool:
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            return True
    except OSError:
        return False


os.environ["NUMBA_CACHE_DIR"] = str(cache_folder())

import numba  # noqa: E402  (its cache folder has to be settled first)


def jit(function: Function) -> Function:
    """The function compiled at its first call with given types, kept in the cache folder for later runs."""
    compiled: Any = numba.njit(cache=True, fastmath=False, nogil=True)(function)
    return cast(Function, compiled)
