"""What of this machine a build may use: cores, memory, and one thread a process for linear algebra."""

from __future__ import annotations

import atexit
import contextlib
import ctypes
import gc
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

BLAS_THREADS = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS", "VECLIB_MAXIMUM_THREADS")
"""Environment variables that set how many threads the libraries behind numpy start; read when they are loaded."""


OBJECTS = 500_000
"""New objects after which rubbish is looked for; a plan makes fewer."""


@contextmanager
def one_blas_thread() -> Iterator[None]:
    """Libraries loaded in here, and in processes started in here, compute with one thread; a user's setting stands.

    Our matrices are small: more threads only wait for one another.
    """
    unset = [name for name in BLAS_THREADS if name not in os.environ]
    os.environ.update(dict.fromkeys(unset, "1"))
    try:
        yield
    finally:
        for name in unset:
            os.environ.pop(name, None)


def for_one_command() -> None:
    """Sets this process to run one command and end: no time goes into what only a long life or a host would need.

    Start-up makes many objects and hardly any rubbish, so it is looked for seldom, and not once more at the end. No
    package is searched for plugins that would change how files are checked, unless the user asks for it.
    """
    gc.set_threshold(OBJECTS, *gc.get_threshold()[1:])
    atexit.register(gc.freeze)
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")


def core_count() -> int:
    """Cores that this process may run on."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def memory_mb() -> float:
    """All memory, MB; 0 where it can't be told."""
    try:
        return os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES") / 1e6
    except (AttributeError, ValueError, OSError):
        return 0.0


def free_memory_mb() -> float:
    """Memory that new processes can have without driving out others, MB; all of it, or 0, where that can't be told."""
    try:
        lines = Path("/proc/meminfo").read_text(encoding="ascii").splitlines()
    except (OSError, ValueError):
        return memory_mb()
    found = [line.split()[1] for line in lines if line.startswith("MemAvailable:")]
    return int(found[0]) * 1024 / 1e6 if found else memory_mb()


def give_back_memory() -> None:
    """Looks for rubbish, and gives memory let go of back to the system where its allocator keeps it (glibc)."""
    gc.collect()
    if sys.platform == "linux":
        with contextlib.suppress(OSError, AttributeError):
            ctypes.CDLL(None).malloc_trim(0)
