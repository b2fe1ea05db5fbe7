"""Splices in braided rope, strand by strand: read a job, plan it, verify it, build what leaves the screen, draw it.

Geometry only: nothing here says anything of strength. The rope maker's data, local codes and a qualified rigger come
first.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from fidpath.api import build, offline_page, picture, plan, read, verify
    from fidpath.errors import FidpathError
    from fidpath.job import Job
    from fidpath.planning import Plan

__all__ = ["FidpathError", "Job", "Plan", "build", "offline_page", "picture", "plan", "read", "verify"]

_HOMES = {"FidpathError": "fidpath.errors", "Job": "fidpath.job.job", "Plan": "fidpath.planning.plan"}


def __getattr__(name: str) -> Any:
    """The names above, loaded when first used: `fidpath --help` needs none of them."""
    if name not in __all__:
        raise AttributeError(f"module 'fidpath' has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(_HOMES.get(name, "fidpath.api")), name)


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
