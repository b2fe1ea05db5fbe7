"""The main job from end to end: plan, settle, measure, draw, write. No geometry here."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from fidpath.arrays import Progress
from fidpath.building import assembly as together
from fidpath.building import tasks as worklist
from fidpath.building import worker as bench_hand
from fidpath.building.assembly import without_time
from fidpath.building.manifest import Kept
from fidpath.building.pool import Crew, crew
from fidpath.building.settled_splice import Finished, finished_splice
from fidpath.building.tasks import Piece
from fidpath.building.worker import SCREEN, Finish
from fidpath.errors import CannotBeMade, NotOurs
from fidpath.job.job import Job
from fidpath.machine import files as output
from fidpath.machine.digest import digest_of
from fidpath.methods.method import Method
from fidpath.methods.method_file import method
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.states.kinds import state_of

MOTION, TURNED = ("motion.json", "motion.webp"), ("turntable.webp",)
"""What moves."""


def finished(job: Job, progress: Progress | None = None) -> Finished:
    """Plans, settles and measures the job's splice. Raises CannotBeMade where it can't be planned or settled."""
    tell = progress or _silent
    return finished_splice(make_plan(job), lambda share: tell("settling the strands", share))


def verify_job(job: Job, method_name: str | None = None) -> dict[str, Any]:
    """What the check measures on the job's finished splice, and with a method's name on all its steps and mistakes."""
    with _bar() as tell:
        report: dict[str, Any] = {"name": job.name, "finished": finished(job, tell).report}
        return report if method_name is None else report | verify_steps(job, method_name, tell)


def verify_steps(job: Job, method_name: str, tell: Progress | None = None) -> dict[str, Any]:
    """`steps` and `wrong_ways`: name, measures and failures of every state of a method."""
    plan, way = make_plan(job), method(method_name)
    names = [*dict.fromkeys(step.state for step in way.steps), *(wrong.name for wrong in way.wrong_ways)]
    with crew(plan, way) as hands:
        waiting = {name: hands.hand_out(bench_hand.measured, name) for name in names}
        reports = {}
        for number, (name, one) in enumerate(waiting.items()):
            (tell or _silent)(f"checking {name}", number / len(names))
            reports[name] = {"name": name} | one.result()
    wrong = {wrong.name for wrong in way.wrong_ways}
    return {
        "steps": [report for name, report in reports.items() if name not in wrong],
        "wrong_ways": [report for name, report in reports.items() if name in wrong],
    }


def build(
    job: Job,
    out: Path,
    *,
    steps: bool = True,
    method_name: str | None = None,
    motion: bool = False,
    film: bool = False,
    finish: Finish = SCREEN,
) -> list[Path]:
    """Writes everything that leaves the screen into `out`; returns the files written.

    Without `steps` only the finished splice; the steps stay where they are there already. `motion` adds the way from
    step to step, `film` that and a turntable.
    Raises CannotBeMade where a state can't be made or doesn't pass its own check: it is never drawn wrong; NotOurs
    where a file of the user's own would be written over.
    """
    work = _work_asked(make_plan(job), method(method_name or job.line.ends[0].splice), steps, finish, out)
    for piece in work.outdated:
        if piece.state is not None:
            state_of(work.plan, piece.state)
    moving = (*(MOTION if motion or film else ()), *(TURNED if film else ()))
    work.kept.refuse((*worklist.NAMES, *moving))
    output.make_folder(out)
    for folder in (out, *(path for path in out.iterdir() if path.is_dir())):
        output.sweep_parts(folder)
    with _bar() as tell:
        with crew(work.plan, work.way, finish) as hands:
            written = _built(work, hands, tell)
        work.kept.claim(moving)
        return sorted([*written, *_moving(work.plan, out, tell, motion or film, film)])


@dataclass(frozen=True)
class _Work:
    """One build: the pieces it is made of, those known to need making again, and what there is from before.

    first: the digest of the finished splice, without which none of its pieces is drawn.
    """

    plan: Plan
    way: Method | None
    finish: Finish
    first: str
    pieces: tuple[Piece, ...]
    outdated: tuple[Piece, ...]
    kept: Kept
    small: together.Small


def _work(plan: Plan, way: Method | None, finish: Finish, out: Path) -> _Work:
    pieces = worklist.splice_pieces(plan, finish)
    if way is not None:
        steps, wrongs = worklist.step_pieces(plan, way, finish), worklist.wrong_pieces(plan, way, finish)
        pieces = [*steps, *wrongs, *pieces, worklist.jig_piece(plan)]
    kept = Kept(out)
    outdated = tuple(piece for piece in pieces if kept.outdated(piece.name, piece.digest))
    first = worklist.finished_digest(plan)
    return _Work(plan, way, finish, first, tuple(pieces), outdated, kept, together.Small())


def _work_asked(plan: Plan, way: Method, steps: bool, finish: Finish, out: Path) -> _Work:
    """With the steps, also where they weren't asked for and are all there already: they'd be swept away otherwise."""
    whole = _work(plan, way, finish, out)
    if steps or all(whole.kept.data(piece.name, piece.digest) is not None for piece in whole.pieces):
        return whole
    return _work(plan, None, finish, out)


def _moving(plan: Plan, out: Path, tell: Progress, motion: bool, turned: bool) -> list[Path]:
    """What moves, where it is asked for."""
    if not motion:
        return []
    from fidpath.building import motion_files as moving
    from fidpath.settling.settled_states import settled_state
    from fidpath.states.kinds import FINISHED

    written = moving.write_motion(plan, out, tell)
    return written + (moving.write_turntable(plan, settled_state(plan, FINISHED), out, tell) if turned else [])


def _built(work: _Work, hands: Crew, tell: Progress) -> list[Path]:
    """Has done by the crew what isn't there from before, puts it together; only this process writes."""
    try:
        _put_together(work, _pieces(work, hands, tell), tell)
    except (CannotBeMade, NotOurs):
        work.kept.withdraw()
        raise
    work.kept.sweep()
    return work.kept.files()


def _pieces(work: _Work, hands: Crew, tell: Progress) -> dict[str, Any]:
    """The data of every piece of work, by its name. Raises CannotBeMade for a state that doesn't pass its check."""
    kept = work.kept
    hands.begin(work.outdated, kept.outdated("finished", work.first))
    found = {piece.name: kept.data(piece.name, piece.digest) for piece in work.pieces}
    report = kept.data("finished", work.first)
    todo = [piece for piece in work.pieces if found[piece.name] is None]
    needed = report is None or any(piece.finished for piece in todo)
    hands.begin(todo, needed)
    if 0 < len(todo) < len(work.pieces) and work.way is not None:
        together.ahead(work.plan, work.way, kept.out, _there(found), work.small)
    if needed:
        tell("settling the strands", 0.0)
        measured = hands.settle().result()
        _check("the settled splice", measured, "Nothing was drawn; see `fidpath verify` for all figures")
        report = {"report": without_time(measured)}
        kept.keep("finished", work.first, {}, report)
    for piece in todo:
        hands.draw(piece)
    for number, piece in enumerate(todo):
        tell(piece.name.replace("-", " "), number / len(todo))
        drawn = hands.draw(piece).result()
        _judge(piece.name, drawn.data)
        data = dict(drawn.data)
        if "report" in data:
            data["report"] = without_time(data["report"])
        kept.keep(piece.name, piece.digest, drawn.files, data)
        found[piece.name] = data
    return _there(found) | {"finished": report}


def _there(found: Mapping[str, Any]) -> dict[str, Any]:
    return {name: data for name, data in found.items() if data is not None}


def _judge(name: str, data: Mapping[str, Any]) -> None:
    """Raises CannotBeMade for a step that fails its check, and for a mistake that the check doesn't name."""
    kind, _, rest = name.partition("-")
    if kind == "state":
        _check(f"the step {rest}", data["report"], "See `fidpath verify --steps` for all figures")
    elif kind == "mistake" and data["report"]["named"] != rest:
        said = data["report"]["named"] or "nothing"
        raise CannotBeMade(f"the check names {said} where {rest} is shown", "Report this job: a fault of ours")


def _check(what: str, report: Mapping[str, Any], remedy: str) -> None:
    parts = [f"{f['check']} is {f['value']}, bound {f['bound']}" for f in report["failures"]]
    if parts:
        raise CannotBeMade(f"{what} misses its bounds: " + "; ".join(parts), remedy)


def _put_together(work: _Work, data: dict[str, Any], tell: Progress) -> None:
    """What needs all pieces at once, each made again only where one of them changed."""
    tell("putting together", 0.9)
    plan, way, kept, small = work.plan, work.way, work.kept, work.small
    of = digest_of(worklist.whole_digest(plan, way), work.finish, data)
    made: dict[str, Callable[[], dict[str, bytes]]] = {"texts": lambda: together.texts(plan, way, data)}
    if way is not None:
        made["handout"] = lambda: together.handouts(plan, way, data)
        made["contact-sheet"] = lambda: {"contact-sheet.png": together.steps_sheet(plan, way, kept.out, small)}
        made["page"] = lambda: {"splice.html": together.whole_page(plan, way, kept.out, data, small)}
    with ThreadPoolExecutor(2) as hands:
        waiting = {name: hands.submit(task) for name, task in made.items() if kept.data(name, of) is None}
        for name, one in waiting.items():
            kept.keep(name, of, one.result(), {})


def _silent(_what: str, _share: float) -> None:
    return None


@contextmanager
def _bar() -> Iterator[Progress]:
    """A progress bar on stderr; nothing where that is no terminal."""
    if not sys.stderr.isatty():
        yield _silent
        return
    from rich.console import Console
    from rich.progress import BarColumn, TextColumn, TimeElapsedColumn
    from rich.progress import Progress as Bar

    columns = (TextColumn("{task.description:<28}"), BarColumn(), TimeElapsedColumn())
    with Bar(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("planning", total=1.0)
        yield lambda what, share: bar.update(task, description=what, completed=share)
