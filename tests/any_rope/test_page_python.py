"""The page's Python in node: the same figures, words and refusals as the program, and the same strands.

The bounds are those that the page is held to: figures within 1e-7 of themselves, strands within 1e-6 mm.
"""

from __future__ import annotations

import math
import random
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from anyrope.in_node import answers, needs_node, strands
from fidpath.errors import FidpathError
from fidpath.job.job import Job, Practice, Rope
from fidpath.job.reader import read_job
from fidpath.planning import make_plan
from fidpath.planning.sheet import as_data
from fidpath.settling.settled_states import STEP_BOUND
from fidpath.settling.solver import BOUND, settle
from fidpath.settling.thin_start import clearest
from fidpath.states import kind_of, made
from jobs import a_job

SCENES = sorted((Path(__file__).parents[2] / "scenes").glob("*.toml"))
RANDOM = 20
KINDS = {"buried": 1e-6, "h1-second-fid": 1e-6, "marking": 1e-6, "bight-entering": 1e-5, "h2-curled": 1e-5}
"""States, and how far strands may be off, mm: lines with free lengths are sought to 1e-7 of a diameter a step, and two
ways of least squares end that search at places so far apart."""


def planned(job: Job) -> dict[str, Any]:
    """What the program says of a job, as the engine says it."""
    try:
        return as_data(make_plan(job))
    except FidpathError as refused:
        return {"refused": str(refused)}


def differences(found: Any, wanted: Any, path: str = "") -> list[str]:
    """Where two plans differ: numbers by more than 1e-7 of themselves and the last digit written, others at all."""
    if isinstance(wanted, dict) and isinstance(found, dict) and found.keys() == wanted.keys():
        return [one for key in wanted for one in differences(found[key], wanted[key], f"{path}.{key}")]
    if isinstance(wanted, list) and isinstance(found, list) and len(found) == len(wanted):
        pairs = enumerate(zip(found, wanted, strict=True))
        return [one for k, pair in pairs for one in differences(*pair, f"{path}.{k}")]
    numbers = all(isinstance(one, int | float) and not isinstance(one, bool) for one in (found, wanted))
    same = math.isclose(found, wanted, rel_tol=1e-7, abs_tol=1.01e-6) if numbers else found == wanted
    return [] if same else [f"{path}: {found!r}, not {wanted!r}"]


def a_random_job(seed: int) -> Job:
    """A job of the demo's kind with another rope, practice and hand; some can't be made."""
    chance = random.Random(seed)
    base = read_job(SCENES[seed % len(SCENES)])
    d = base.rope.diameter_mm
    strands_of = chance.choice([8, 12, 16, 16, 10, base.rope.strands])
    rope: Rope = replace(
        base.rope,
        strands=strands_of,
        pitch_mm=chance.uniform(5.0, 9.0) * d,
        squeeze=chance.uniform(0.6, 0.9),
        pitch_guessed=chance.random() < 0.3,
    )
    practice: Practice = replace(
        base.practice,
        bury_diameters=chance.uniform(8, 100),
        hole_gap_diameters=chance.uniform(0.3, 3),
        throat_angle=chance.uniform(0.3, 1.6),
        taper_drops=max(1, strands_of // 2 - 2),
        hand=chance.choice(["right", "left"]),
    )
    return replace(base, rope=rope, practice=practice, length_unit=chance.choice(["mm", "in"]))


@pytest.fixture(scope="module")
def jobs() -> list[Job]:
    return [*(read_job(path) for path in SCENES), *(a_random_job(seed) for seed in range(RANDOM))]


@pytest.fixture(scope="module")
def found(jobs: list[Job], tmp_path_factory: pytest.TempPathFactory) -> list[dict[str, Any]]:
    return answers(tmp_path_factory.mktemp("plans"), [(job, ()) for job in jobs])


@needs_node
def test_figures_words_and_refusals_are_the_programs(jobs: list[Job], found: list[dict[str, Any]]) -> None:
    wrong = [f"{k} {one}" for k, job in enumerate(jobs) for one in differences(found[k]["plan"], planned(job))]
    assert wrong == []


@needs_node
def test_some_random_jobs_are_refused_and_most_are_not(found: list[dict[str, Any]]) -> None:
    refused = ["refused" in one["plan"] for one in found[len(SCENES) :]]
    assert 2 <= sum(refused) <= RANDOM // 2


@needs_node
def test_strands_are_the_programs_as_laid_and_settled(tmp_path: Path) -> None:
    job = a_job(bury=12.0)
    [answer] = answers(tmp_path, [(job, tuple(KINDS))])
    for kind, most in KINDS.items():
        _, state = made(make_plan(job), kind)
        start = clearest(state)
        settled = settle(start, bound=BOUND if kind_of(kind).finished else STEP_BOUND)
        laid = start.laid.points.reshape(-1, 3)
        assert np.abs(strands(tmp_path, 0, kind, laid=True) - laid).max() < most
        assert np.abs(strands(tmp_path, 0, kind) - settled.strands.points.reshape(-1, 3)).max() < most
        log = answer["logs"][kind]
        assert log["sweeps"] == settled.log.sweeps and log["told"] > 3
        assert log["certificate"] == pytest.approx(settled.log.certificate_min, abs=1e-6)
