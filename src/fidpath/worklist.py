"""The pieces of work a build is made of, each with the digest of all that it comes of."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from fidpath import bench_hand
from fidpath.bench_hand import Drawn, Finish
from fidpath.digest import digest_of, source_digest
from fidpath.method import Method
from fidpath.planning import Plan
from fidpath.steps import FINISHED
from fidpath.views import FINISHED as VIEWS


@dataclass(frozen=True)
class Piece:
    """One piece of work: its name, its digest, and what a process is asked to do.

    finished: whether it needs the finished splice settled.
    """

    name: str
    digest: str
    task: Callable[..., Drawn]
    arguments: tuple[Any, ...] = ()
    finished: bool = False


def splice_pieces(plan: Plan, finish: Finish) -> list[Piece]:
    """Pictures and solids of the finished splice."""
    base = _base(plan)
    drawn = [
        Piece(name, digest_of(base, finish, name), bench_hand.draw_finished, (name,), finished=True) for name in VIEWS
    ]
    return [*drawn, Piece("splice", digest_of(base, "splice"), bench_hand.finished_solids, finished=True)]


def step_pieces(plan: Plan, way: Method, finish: Finish) -> Iterator[Piece]:
    """The method's steps, in order."""
    base = _base(plan)
    for index, step in enumerate(way.steps):
        name = bench_hand.file_name(way, index)
        before = way.steps[index - 1].state if index else ""
        digest = digest_of(base, finish, name, step, before, index == len(way.steps) - 1, way.steps[-1].number)
        yield Piece(f"step-{name}", digest, bench_hand.draw_step, (index,), step.state == FINISHED)


def wrong_pieces(plan: Plan, way: Method, finish: Finish) -> Iterator[Piece]:
    """The method's wrong ways, in order."""
    base = _base(plan)
    for wrong in way.wrong_ways:
        digest = digest_of(base, finish, wrong)
        yield Piece(f"wrong-{wrong.name}", digest, bench_hand.draw_wrong, (wrong.name,), wrong.beside == FINISHED)


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
