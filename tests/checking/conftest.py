"""One settled splice for the tests of the check."""

from __future__ import annotations

from typing import Any

import pytest

from broken_strands import Case
from fidpath.geometry.strands import Strands
from fidpath.meshing.sections import sections_of
from fidpath.planning.planner import make_plan
from fidpath.settling import settle
from fidpath.settling.thin_start import clearest
from fidpath.states.draft import draft_of
from fidpath.states.kinds import state_of
from jobs import a_job
from once import once


def settled_case() -> Case:
    plan = make_plan(a_job(bury=36.0, bearing=3.0))
    draft = clearest(state_of(plan, "buried"))
    strands = settle(draft).strands
    return Case(plan, draft, strands, sections_of(strands))


@pytest.fixture(scope="module")
def case() -> Case:
    return once("checked-splice", settled_case)


@pytest.fixture(scope="module")
def good(case: Case) -> dict[str, Any]:
    return once("checked-splice-report", case.report)


@pytest.fixture(scope="module")
def laid() -> Strands:
    """A short splice, laid and not settled."""
    return draft_of(state_of(make_plan(a_job(d=8.0, bury=12.0)), "buried")).laid
