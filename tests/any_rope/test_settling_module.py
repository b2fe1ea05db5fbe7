"""The settling as WebAssembly: of the source that is there, and the same bytes as the native loops on every scene."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

import settling_module
from anyrope.wasm_kernels import ASSETS, WasmKernels
from fidpath.errors import CannotBeMade
from fidpath.job.reader import read_job
from fidpath.planning import Plan
from fidpath.planning.planner import make_plan
from fidpath.settling import neighbour_kernels as listing
from fidpath.settling import settle, thin_start
from fidpath.settling import sweep_kernels as kernels
from fidpath.settling.settled_states import STEP_BOUND
from fidpath.settling.solver import BOUND
from fidpath.states import made
from fidpath.states.draft import Draft
from jobs import a_job
from wasm_file import Reader, functions, imports, number, sections

SCENES = sorted((Path(__file__).parents[2] / "scenes").glob("*.toml"))
MODULE = (ASSETS / "settling.wasm").read_bytes()


@pytest.fixture(scope="module")
def wasm() -> WasmKernels:
    return WasmKernels()


@pytest.fixture
def _in_wasm(wasm: WasmKernels, monkeypatch: pytest.MonkeyPatch) -> None:
    """The program's loops replaced by the module's."""
    monkeypatch.setattr(listing, "list_neighbours", lambda *given: int(wasm.call("list_neighbours", *given)))
    monkeypatch.setattr(thin_start, "near_pairs", lambda *given: int(wasm.call("near_pairs", *given)))
    monkeypatch.setattr(kernels, "sweeps", lambda *given: int(wasm.call("sweeps", *given)))


def test_the_module_is_of_this_source() -> None:
    """Where this fails, run `make any-rope` and commit what it writes."""
    assert json.loads((ASSETS / "settling.json").read_text())["source"] == settling_module.source_digest()


def test_the_module_asks_for_nothing_but_memory() -> None:
    assert imports(MODULE) == ["__linear_memory", "__stack_pointer"]
    assert 0 not in dict(sections(MODULE))
    assert len(MODULE) < 24_000


def same_bytes(plan: Plan, kind: str, bound: float, request: pytest.FixtureRequest) -> None:
    """Settles a state natively, then in the module, and compares every bit."""
    _, state = made(plan, kind)
    start = thin_start.clearest(state)
    native = settle(start, bound=bound)
    request.getfixturevalue("_in_wasm")
    again = thin_start.clearest(state)
    assert again.thin.tobytes() == start.thin.tobytes()
    ours = settle(again, bound=bound)
    assert ours.strands.points.tobytes() == native.strands.points.tobytes()
    assert replace(ours.log, settle_seconds=0.0) == replace(native.log, settle_seconds=0.0)


@pytest.mark.parametrize("path", SCENES, ids=lambda path: path.stem)
def test_every_scene_settles_to_the_native_bytes(path: Path, request: pytest.FixtureRequest) -> None:
    same_bytes(make_plan(read_job(path)), "buried", BOUND, request)


@pytest.mark.parametrize("kind", ["h1-second-fid", "marking", "bight-entering"])
def test_steps_settle_to_the_native_bytes(kind: str, request: pytest.FixtureRequest) -> None:
    """With a fid in the hole, and without a terminator: branches that a finished splice doesn't take."""
    same_bytes(make_plan(a_job(bury=12.0)), kind, STEP_BOUND, request)


def test_a_lost_certificate_is_told_by_the_module_too(wasm: WasmKernels, monkeypatch: pytest.MonkeyPatch) -> None:
    _, state = made(make_plan(a_job(bury=15.0, bearing=3.0)), "buried")
    start: Draft = thin_start.clearest(state)
    monkeypatch.setattr(kernels, "sweeps", lambda *given: int(wasm.call("sweeps", *given)))
    crossed = start.thin.copy()
    crossed[1] = crossed[0] + 1e-9
    with pytest.raises(CannotBeMade, match="certificate fell"):
        settle(Draft(start.laid, crossed, start.rest))
    assert settle(start, guarded=False).log.certificate_min < 0


@pytest.mark.parametrize("value", [0, 1, 127, 128, 300, 16384, 2**32 - 1])
def test_numbers_are_read_as_written(value: int) -> None:
    assert Reader(number(value)).number() == value


def test_a_module_without_functions_to_export_has_none() -> None:
    assert functions(MODULE[:8]) == {}
    assert imports(MODULE[:8]) == []


def test_arrays_of_no_length_can_be_given(wasm: WasmKernels) -> None:
    """A job without a terminator gives an empty seat."""
    pairs, active = np.zeros((0, 2), np.int64), np.zeros(0, np.int64)
    least = np.zeros(2)
    assert wasm.call("near_pairs", np.zeros((2, 3)), pairs, np.ones(2), 0.1, np.zeros(0), 0.0, active, least) == 0
    assert least[0] > 1e100
