"""The pieces of work a build is made of, each with the digest of all that it comes of."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from fidpath.building import worker as bench_hand
from fidpath.building.worker import Drawn, Finish
from fidpath.machine.digest import digest_of, source_digest
from fidpath.methods.method import Method
from fidpath.outputs.handout import PAPERS
from fidpath.planning.plan import Plan
from fidpath.scene.finished_views import FINISHED as VIEWS
from fidpath.states.kinds import KINDS

NAMES = (
    "plan.json", "verify.json", "contact-sheet.png", "splice.html", "splice.glb",
    *(f"handout-{paper}.pdf" for paper in PAPERS), *(f"{name}.png" for name in VIEWS),
)  # fmt: skip
"""Files whose names are known before anything is made."""


@dataclass(frozen=True)
class Piece:
    """One piece of work: its name, its digest, and what a process is asked to do.

    finished: whether it needs the finished splice settled; state: which one the plan must leave room for.
    """

    name: str
    digest: str
    task: Callable[..., Drawn]
    arguments: tuple[Any, ...] = ()
    finished: bool = False
    state: str | None = None


def splice_pieces(plan: Plan, finish: Finish) -> list[Piece]:
    """Pictures and solids of the finished splice."""
    base = _base(plan)
    drawn = [
        Piece(name, digest_of(base, finish, name), bench_hand.draw_finished, (name,), finished=True) for name in VIEWS
    ]
    return [*drawn, Piece("splice", digest_of(base, "splice"), bench_hand.finished_solids, finished=True)]


def step_pieces(plan: Plan, way: Method, finish: Finish) -> list[Piece]:
    """The states of the method's steps, in order, and then their pictures."""
    base, states, pictures = _base(plan), [], []
    for index, step in enumerate(way.steps):
        name, last, whole = bench_hand.file_name(way, index), index == len(way.steps) - 1, KINDS[step.state].finished
        before = way.steps[index - 1].state if index else ""
        state = digest_of(base, name, step.state, last)
        states.append(Piece(f"state-{name}", state, bench_hand.step_state, (index,), whole, step.state))
        picture = digest_of(base, finish, name, step, before, way.steps[-1].number)
        pictures.append(Piece(f"step-{name}", picture, bench_hand.draw_step, (index,), whole, step.state))
    return [*states, *pictures]


def wrong_pieces(plan: Plan, way: Method, finish: Finish) -> list[Piece]:
    """The states of the method's wrong ways, in order, and then their pictures."""
    base, states, pictures = _base(plan), [], []
    for wrong in way.wrong_ways:
        name, whole = wrong.name, KINDS[wrong.beside].finished
        state = digest_of(base, name, wrong.beside)
        states.append(Piece(f"mistake-{name}", state, bench_hand.wrong_state, (name,), whole))
        pictures.append(Piece(f"wrong-{name}", digest_of(base, finish, wrong), bench_hand.draw_wrong, (name,), whole))
    return [*states, *pictures]


def jig_piece(plan: Plan) -> Piece:
    """The jigs to print and to cut."""
    return Piece("jigs", digest_of(_base(plan), "jigs"), bench_hand.make_jigs)


def finished_digest(plan: Plan) -> str:
    """The digest of the finished splice's settled strands."""
    return digest_of(_base(plan), "finished")


def whole_digest(plan: Plan, way: Method | None) -> str:
    """The digest of what is put together of all pieces."""
    return digest_of(_base(plan), way)


def _base(plan: Plan) -> str:
    """What every piece comes of: this program and the plan, wherever the job's file lies."""
    return digest_of(source_digest(), replace(plan, job=replace(plan.job, source="")))
