"""The command `mistake`: asks what is seen at the bench, and answers. Nothing heavy at the top."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fidpath.errors import FidpathError

if TYPE_CHECKING:
    from fidpath.methods import Question
    from fidpath.planning import Plan

JobFile = Annotated[Path | None, typer.Argument(metavar="JOB", help="The job file, for the job's own figures.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON, with units in the keys.")]
AtStep = Annotated[
    str | None, typer.Option("--at-step", metavar="N", help="The last step that was done; default: all of them.")
]
SplitH1 = Annotated[str | None, typer.Option("--split-h1", metavar="5/7", help="Strands on each side of H1.")]
SplitH2 = Annotated[str | None, typer.Option("--split-h2", metavar="5/7", help="Strands on each side of H2.")]
SplitEntry = Annotated[str | None, typer.Option("--split-entry", metavar="5/7", help="Strands on each side of E.")]
OnStrand = Annotated[bool, typer.Option("--mark-on-strand", help="A mark lies on a strand, and the fid slides off it.")]
Turns = Annotated[str | None, typer.Option("--turns", metavar="N", help="Turns left in each group of H2.")]
Hand = Annotated[str | None, typer.Option("--hand", metavar="left|right", help="Hand of the turns in the upper group.")]
Standing = Annotated[
    str | None,
    typer.Option("--standing-part", metavar="dotted|plain", help="The face of H2 by which the standing part goes in."),
]
Daylight = Annotated[bool, typer.Option("--daylight", help="There is daylight between the legs of the lock.")]
Gap = Annotated[str | None, typer.Option("--gap", metavar="LENGTH", help="Clear rope between the holes.")]
Loose = Annotated[str | None, typer.Option("--loose", metavar="LENGTH", help='Eye too loose by: "3 picks", "12 mm".')]
Tight = Annotated[str | None, typer.Option("--tight", metavar="LENGTH", help='Eye too tight by: "3 picks", "12 mm".')]
WontGoIn = Annotated[bool, typer.Option("--wont-go-in", help="The eye is too small for the terminator.")]
Bury = Annotated[str | None, typer.Option("--bury", metavar="LENGTH", help="Bury, from the entry to the tail's tip.")]
CoverStep = Annotated[bool, typer.Option("--cover-step", help="The cover has a step at the tail's tip.")]


def register(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(mistake)


def mistake(
    job: JobFile = None,
    at_step: AtStep = None,
    split_h1: SplitH1 = None,
    split_h2: SplitH2 = None,
    split_entry: SplitEntry = None,
    mark_on_strand: OnStrand = False,
    turns: Turns = None,
    hand: Hand = None,
    standing_part: Standing = None,
    daylight: Daylight = False,
    gap: Gap = None,
    loose: Loose = None,
    tight: Tight = None,
    wont_go_in: WontGoIn = False,
    bury: Bury = None,
    cover_step: CoverStep = False,
    as_json: Json = False,
) -> None:
    """Ask what you see at the bench, and answer with the likely mistake, how far off it is, and the remedy."""
    given = {
        "at-step": at_step,
        "split-h1": split_h1,
        "split-h2": split_h2,
        "split-entry": split_entry,
        "mark-on-strand": mark_on_strand,
        "turns": turns,
        "hand": hand,
        "standing-part": standing_part,
        "daylight": daylight,
        "gap": gap,
        "loose": loose,
        "tight": tight,
        "wont-go-in": wont_go_in,
        "bury": bury,
        "cover-step": cover_step,
    }
    said = {key: "yes" if value is True else str(value) for key, value in given.items() if value not in (None, False)}
    typer.echo(_answer(job, said, as_json), nl=False)


def _answer(job: Path | None, said: dict[str, str], as_json: bool) -> str:
    """What the sightings point to, in words or as JSON."""
    from fidpath.job import USUAL_SPLICE
    from fidpath.methods import diagnose, diagnosis_sheet, diagnostics_of, method_of

    plan = None if job is None else _plan_of(job)
    method = method_of(USUAL_SPLICE if plan is None else plan.job.line.ends[0].splice)
    known = diagnostics_of(method)
    sightings = known.read(method, said or _asked(known.questions(method), plan), plan)
    shown = diagnosis_sheet.as_json if as_json else diagnosis_sheet.as_text
    return shown(diagnose(method, sightings, plan), None if plan is None else plan.job.name)


def _plan_of(job: Path) -> Plan:
    from fidpath.job import read_job
    from fidpath.planning import make_plan

    try:
        return make_plan(read_job(job))
    except FidpathError as error:
        error.file = error.file or str(job)
        raise


def _asked(questions: Sequence[Question], plan: Plan | None) -> dict[str, str]:
    """Every question asked in turn; an empty answer leaves it open. Raises SightingError where nobody can answer."""
    from fidpath.methods import SightingError

    if not sys.stdin.isatty():
        options = ", ".join(f"--{question.key}" for question in questions)
        raise SightingError("no sightings were given, and there is no terminal to ask", f"Give {options}")
    typer.echo("Press Enter if you haven't looked.", err=True)
    said: dict[str, str] = {}
    for question in questions:
        if question.key == "hand" and said.get("turns", "0") == "0":
            continue
        if question.key == "tight" and "loose" in said:
            continue
        text = _reply(question, plan)
        if text:
            said[question.key] = text
    if not said:
        raise SightingError("no question was answered", "Answer at least one question")
    return said


def _reply(question: Question, plan: Plan | None) -> str:
    """The answer to one question, asked again until it can be read."""
    from fidpath.methods import SightingError, answered

    while True:
        typer.echo(f"{question.ask} [{question.answer}]: ", nl=False, err=True)
        text = sys.stdin.readline().strip()
        if not text:
            return ""
        try:
            answered(question, text, plan)
        except SightingError as problem:
            typer.echo(f"{problem.what}. {problem.remedy}", err=True)
        else:
            return text
