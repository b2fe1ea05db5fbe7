"""Compiled loops: numba, imported late and with its cache in a folder that can be written.

numba fails at import where no cache folder is writable, so its folder is settled before it is imported.
Import this module only from modules that are themselves loaded when used.
"""

from __future__ import annotations

import os
import tempfile
import threading
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any, TypeVar, cast

from fidpath.machine.files import locked

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
    """The function compiled at its first call with given types, kept in the cache folder for later runs.

    Of all processes that call it one compiles it; those that come meanwhile wait, and load what it has made.
    """
    compiled: Any = numba.njit(cache=True, fastmath=False, nogil=True)(function)
    if hasattr(compiled, "compile"):  # not where NUMBA_DISABLE_JIT is set
        compiled.compile = _one_at_a_time(compiled.compile, f"{function.__module__}.{function.__qualname__}")
    return cast(Function, compiled)


_compiling = threading.RLock()
"""Held by the thread of this process that compiles: what it compiles may call for another function's lock."""


def _one_at_a_time(compile_: Callable[[Any], Any], name: str) -> Callable[[Any], Any]:
    """numba's own compiling, which looks into the cache first, done by one process at a time.

    A function's lock is asked for while holding those of its callers alone, so no two processes wait for each other.
    """

    @wraps(compile_)
    def compile_once(signature: Any) -> Any:
        with _compiling, locked(Path(os.environ["NUMBA_CACHE_DIR"]) / f"{name}.lock"):
            return compile_(signature)

    return compile_once
