"""Settled states, each settled once in a run of the tests, whichever process and whichever build asks for it first."""

from __future__ import annotations

import os
from collections.abc import Callable
from contextlib import AbstractContextManager, nullcontext
from dataclasses import replace
from pathlib import Path

from fidpath.building.state_cache import StateCache
from fidpath.machine.digest import digest_of, source_digest
from fidpath.planning.plan import Plan
from fidpath.settling.settled_states import SettledState
from once import FOLDER


def states_of(plan: Plan) -> Path:
    """The folder of this run's settled states of a plan, made if it isn't there."""
    known = digest_of(source_digest(), replace(plan, job=replace(plan.job, source="")))
    folder = Path(os.environ[FOLDER]) / f"states-{known}"
    folder.mkdir(exist_ok=True)
    return folder


def settled(plan: Plan, kind: str) -> SettledState:
    """A state of a plan, settled."""
    folder = states_of(plan)
    return _caches.setdefault(folder, StateCache(plan, folder)).settled(kind)


_caches: dict[Path, StateCache] = {}
"""By folder: each has some states at hand."""


def shared(plan: Plan) -> Callable[[], AbstractContextManager[Path]]:
    """In the place of a build's own `shared_folder`: the states of the plan that are settled already are there."""
    return lambda: nullcontext(states_of(plan))
