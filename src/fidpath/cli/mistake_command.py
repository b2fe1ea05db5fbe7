"""The command `mistake`: asks what is seen at the bench, and answers. Nothing heavy at the top."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fidpath.errors import FidpathError

if TYPE_CHECKING:
    from fidpath.methods import Method, diagnosis, diagnosis_questions
    from fidpath.planning import Plan

JobFile = Annotated[Path | None, typer.Argument(metavar="JOB", help="The job file, for the job's own figures.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON, with units in the keys.")]
Like = Annotated[
    str | None, typer.Option("--like", metavar="N", help="The picture it looks like, by its number on the sheet.")
]
Pictures = Annotated[bool, typer.Option("--pictures", help="List the mistakes by number, and open the sheet of them.")]
AtStep = Annotated[
    str | None, typer.Option("--at-step", metavar="N", help="The last step that was done; default: all of them.")
]
SplitH1 = Annotated[str | None, typer.Option("--split-h1", metavar="5/7", help="Strands on each side of H1.")]
SplitH2 = Annotated[str | None, typer.Option("--split-h2", metavar="5/7", help="Strands on each side of H2.")]
SplitEntry = Annotated[str | None, typer.Option("--split-entry", metavar="5/7", help="Strands on each side of E.")]
OnStrand = Annotated[bool, typer.Option("--mark-on-strand", help="A mark lies on a strand, and the fid slides off it.")]
Turns = Annotated[str | None, typer.Option("--turns", metavar="N", help="Turns left in each group of H2.")]
Hand = Annotated[str | None, typer.Option("--hand", metavar="left|right", help="Hand of the turns in the top group.")]
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
    like: Like = None,
    pictures: Pictures = False,
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
    """Pick the picture that looks like your rope, or say what you see; answers with the mistake and the remedy."""
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
    if like is not None and (said or pictures):
        raise typer.BadParameter("it says all: leave the other options out", param_hint="--like")
    typer.echo(_pictures(job) if pictures else _answer(job, like, said, as_json), nl=False)


def _answer(job: Path | None, like: str | None, said: dict[str, str], as_json: bool) -> str:
    """What the picture that was picked, or the sightings, point to, in words or as JSON."""
    from fidpath.methods import diagnosis_sheet

    plan, method = _known(job)
    answer = _picked(method, plan, like) if like is not None or not said else _sighted(method, plan, said)
    shown = diagnosis_sheet.as_json if as_json else diagnosis_sheet.as_text
    return shown(answer, None if plan is None else plan.job.name)


def _known(job: Path | None) -> tuple[Plan | None, Method]:
    """The job's plan, and its method; without a job, the usual method."""
    from fidpath.job import USUAL_SPLICE
    from fidpath.methods import method_of

    plan = None if job is None else _plan_of(job)
    return plan, method_of(USUAL_SPLICE if plan is None else plan.job.line.ends[0].splice)


def _picked(method: Method, plan: Plan | None, like: str | None) -> diagnosis.Answer:
    """The mistake whose picture was picked, now or at the terminal; what is seen, where none was."""
    from fidpath.methods import diagnosis, diagnosis_questions

    if like is None:
        questions = diagnosis.diagnostics_of(method).questions(method)
        if not sys.stdin.isatty():
            options = ", ".join(("--like", *(f"--{question.key}" for question in questions)))
            what = "no sightings were given, and there is no terminal to ask"
            raise diagnosis_questions.SightingError(what, f"Give one of {options}")
        typer.echo(_listed(method, plan), nl=False, err=True)
        typer.echo("Which looks like yours? Its number, or Enter if none does: ", nl=False, err=True)
        like = sys.stdin.readline().strip()
        if not like:
            return _sighted(method, plan, _asked(questions, plan))
    return diagnosis.like_picture(method, like, plan)


def _sighted(method: Method, plan: Plan | None, said: dict[str, str]) -> diagnosis.Answer:
    """What the sightings point to."""
    from fidpath.methods import diagnosis

    return diagnosis.diagnose(method, diagnosis.diagnostics_of(method).read(method, said, plan), plan)


def _listed(method: Method, plan: Plan | None) -> str:
    """The mistakes by number, and where their pictures are."""
    from fidpath.methods import worded_mistake

    ways = [worded_mistake(mistake, plan) for mistake in method.mistakes_in_order]
    lines = [f"{number:>3}  {way.title} (step {way.step_number})" for number, way in enumerate(ways, 1)]
    return "\n".join([*lines, _where(plan)]) + "\n"


def _where(plan: Plan | None) -> str:
    """Where the sheet of the mistakes' pictures is."""
    if plan is None:
        return "Name the job file to see their pictures."
    sheet = _sheet_of(plan)
    return f"Their pictures: {sheet}" if sheet.is_file() else f"`fidpath build` draws their pictures, as {sheet}."


def _sheet_of(plan: Plan) -> Path:
    """The sheet of mistakes that the last build into the usual folder made."""
    from fidpath.machine import results_folder

    return results_folder(plan.job.name, None) / "mistakes.png"


def _pictures(job: Path | None) -> str:
    """The mistakes by number; opens the sheet of their pictures where it is there and somebody is looking."""
    plan, method = _known(job)
    if plan is not None and _sheet_of(plan).is_file() and sys.stdout.isatty():
        typer.launch(str(_sheet_of(plan)))
    return _listed(method, plan)


def _plan_of(job: Path) -> Plan:
    from fidpath.job import read_job
    from fidpath.planning import make_plan

    try:
        return make_plan(read_job(job))
    except FidpathError as error:
        error.file = error.file or str(job)
        raise


def _asked(questions: Sequence[diagnosis_questions.Question], plan: Plan | None) -> dict[str, str]:
    """Every question asked in turn; an empty answer leaves it open. Raises SightingError where nobody can answer."""
    from fidpath.methods import diagnosis_questions

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
        raise diagnosis_questions.SightingError("no question was answered", "Answer at least one question")
    return said


def _reply(question: diagnosis_questions.Question, plan: Plan | None) -> str:
    """The answer to one question, asked again until it can be read."""
    from fidpath.methods import diagnosis_questions

    while True:
        typer.echo(f"{question.ask} [{question.answer}]: ", nl=False, err=True)
        text = sys.stdin.readline().strip()
        if not text:
            return ""
        try:
            diagnosis_questions.answered(question, text, plan)
        except diagnosis_questions.SightingError as problem:
            typer.echo(f"{problem.what}. {problem.remedy}", err=True)
        else:
            return text
