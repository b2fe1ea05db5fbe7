"""Compiled loops: numba, imported when the first of them is called, with its cache in a folder that can be written.

numba fails at import where no cache folder is writable, so its folder is settled before it is imported.
"""

from __future__ import annotations

import hashlib
import os
import tempfile
import threading
from collections.abc import Callable
from enum import Enum
from functools import cached_property, lru_cache, update_wrapper, wraps
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


def jit(function: Function) -> Function:
    """The function compiled at its first call with given types, kept in the cache folder for later runs.

    Of all processes that call it one compiles it; those that come meanwhile wait, and load what it has made.
    """
    return cast(Function, _Loop(function))


def jit_part(function: Function) -> Function:
    """As `jit`, for a function that compiled functions alone call: it takes less time to compile.

    Called from Python, it runs as it was written.
    """
    return cast(Function, _Loop(function, no_cpython_wrapper=True))


def jit_largest(function: Function) -> Function:
    """As `jit_part`, for a function that looks for the largest of numbers none of which is NaN.

    Many are then compared at a time. Nothing else is rounded otherwise: sums and products stay in their order.
    """
    return cast(Function, _Loop(function, no_cpython_wrapper=True, fastmath={"nnan", "nsz"}))


def as_written(function: Function) -> Function:
    """A function that `jit` would compile, as it was written: a few calls take less time than loading numba."""
    return cast(Function, getattr(function, "__wrapped__", function))


class _Loop:
    """A function to be compiled: stands for numba's own object, and in other compiled functions for its type.

    Most processes that load it never call it, and numba takes longer to load than they have to live.
    """

    def __init__(self, function: Callable[..., Any], **options: Any) -> None:
        update_wrapper(self, function)
        self.options = options

    def __call__(self, *given: Any) -> Any:
        return as_written(self)(*given) if self.options else self.compiled(*given)

    def __getattr__(self, name: str) -> Any:
        if name.startswith("__"):
            raise AttributeError(name)
        return getattr(self.compiled, name)

    @property
    def _numba_type_(self) -> Any:
        """Its type, asked for by numba where another compiled function calls it."""
        return self.compiled._numba_type_

    @cached_property
    def compiled(self) -> Any:
        """What numba makes of the function; the function itself where NUMBA_DISABLE_JIT is set."""
        function: Any = self.__dict__["__wrapped__"]
        plain = {"cache": True, "fastmath": False, "nogil": True, "no_cfunc_wrapper": True}
        made = _numba().njit(**{**plain, **self.options})(function)
        if hasattr(made, "compile"):
            kept = made._cache._cache_file
            kept._source_stamp = (kept._source_stamp, content_stamp(function))
            _forget_unreadable(kept)
            made.compile = _one_at_a_time(made.compile, f"{function.__module__}.{function.__qualname__}")
        return made


def _forget_unreadable(kept: Any) -> None:
    """Drops kept code whose index can't be read: it names a type that an earlier version of this program had."""
    try:
        kept._load_index()
    except (AttributeError, ImportError):
        kept.flush()


def content_stamp(function: Callable[..., Any]) -> str:
    """A digest of what a compiled function is made of: its code, the loops it calls, the constants of its module.

    numba's own cache looks at the file of the function alone, and keeps code with the old value of a constant that is
    imported from another one.
    """
    parts: list[str] = []
    seen: set[str] = set()
    waiting = [function]
    while waiting:
        one = waiting.pop()
        name = f"{one.__module__}.{one.__qualname__}"
        if name in seen:
            continue
        seen.add(name)
        parts.append(f"{name} {one.__code__.co_code.hex()} {_plain(one.__code__.co_consts)}")
        for used in one.__code__.co_names:
            value = one.__globals__.get(used)
            if isinstance(value, _Loop):
                waiting.append(value.__dict__["__wrapped__"])
            elif value is not None:
                parts.append(f"{used} {_plain(value)}")
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()


def _plain(value: Any) -> str:
    """A constant as text; of what is none, such as a module or a piece of code, nothing."""
    if isinstance(value, tuple | frozenset):
        return f"({' '.join(sorted(map(_plain, value)) if isinstance(value, frozenset) else map(_plain, value))})"
    if isinstance(value, type) and issubclass(value, Enum):
        return " ".join(repr(member) for member in value)
    if isinstance(value, bool | int | float | complex | str | bytes | None):
        return repr(value)
    return repr(value.tolist()) if hasattr(value, "tolist") else ""


@lru_cache(maxsize=1)
def _numba() -> Any:
    """numba, its cache folder settled first."""
    os.environ["NUMBA_CACHE_DIR"] = str(cache_folder())
    import numba

    return numba


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
