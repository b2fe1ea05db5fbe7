"""The command line. No geometry here, and nothing heavy at the top: each command imports what it runs."""

from __future__ import annotations

import io
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from copy import copy
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer
from typer.core import TyperCommand
from typer.models import CommandInfo

from fidpath.cli import doctor_command as cli_doctor
from fidpath.cli import jig_command as cli_jig
from fidpath.cli import line_commands as cli_line
from fidpath.cli import mistake_command as cli_mistake
from fidpath.cli import show_command as cli_show
from fidpath.cli import start_command as cli_start
from fidpath.errors import CheckFailed, Exit, FidpathError
from fidpath.machine import for_one_command, one_blas_thread

if TYPE_CHECKING:
    from fidpath.planning import Plan


class _CommandLine(typer.Typer):
    """The commands. Where the first word names one, that one alone is made ready to run."""

    def __call__(self, *given: Any, args: Sequence[str] | None = None, **more: Any) -> Any:
        """Runs the command that these words ask for, or else the program's own."""
        words = sys.argv[1:] if args is None else args
        asked = [one for one in self.registered_commands if words and words[0] == _name(one)]
        alone = copy(self)
        alone.registered_commands = asked or self.registered_commands
        return typer.Typer.__call__(alone, *given, args=args, **more)


def _name(command: CommandInfo) -> str:
    """What a command is called on the command line."""
    return command.name or str(getattr(command.callback, "__name__", ""))


app = _CommandLine(
    name="fidpath",
    help="Plans, models and checks splices in hollow braided rope, strand by strand. Geometry only, never strength.",
    epilog="No terminal needed: `fidpath start` does all this on a page in the browser. "
    "Exit codes: 0 done, 2 usage, 3 job file, 4 impossible, 5 a check failed, 6 output, 7 machine, 130 stopped.",
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
)


class Look(StrEnum):
    """What pictures are finished for."""

    SCREEN = "screen"
    PRINT = "print"


JobFile = Annotated[Path, typer.Argument(metavar="JOB", help="The job file.")]


BothUnits = Annotated[bool, typer.Option("--both-units", help="Show millimetres and inches side by side.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON, with units in the keys.")]


def main(args: Sequence[str] | None = None) -> int:
    """Run the command line; returns its exit code. The one place where an error becomes a line and a code."""
    for_one_command()
    _print_anything()
    try:
        with one_blas_thread():
            app(args=args, prog_name="fidpath")
    except SystemExit as done:
        return done.code if isinstance(done.code, int) else int(Exit.OK)
    except FidpathError as error:
        _report(error)
        return int(error.code)
    except KeyboardInterrupt:
        return int(Exit.INTERRUPTED)
    return int(Exit.OK)


def _print_anything() -> None:
    """Let names in any script through a terminal that lacks their letters."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _report(error: FidpathError) -> None:
    """An error as one line on stderr, with the line of its key where a later phase didn't know it."""
    from fidpath.job import one_line, with_line

    typer.echo(one_line(str(with_line(error))), err=True)


@contextmanager
def _about(job: Path) -> Iterator[None]:
    """Errors of the later phases, which know no file, are about this one."""
    try:
        yield
    except FidpathError as error:
        error.file = error.file or str(job)
        raise


def _version(wanted: bool) -> None:
    """Print the version and stop."""
    if not wanted:
        return
    from importlib.metadata import PackageNotFoundError, version

    try:
        typer.echo(f"fidpath {version('fidpath')}")
    except PackageNotFoundError:
        typer.echo("fidpath, not installed")
    raise typer.Exit()


@app.callback()
def _options(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    """Options before the command."""


@app.command()
def new(file: Annotated[Path, typer.Argument(metavar="FILE", help="The job file to write.")]) -> None:
    """Write a valid job file with a note at every key. It never replaces a file."""
    from fidpath.job import write_new

    write_new(file)
    typer.echo(f"wrote {file}")


@app.command()
def plan(
    job: JobFile,
    as_json: Json = False,
    both_units: BothUnits = False,
    full: Annotated[bool, typer.Option("--full", help="Print every figure with its formula and source.")] = False,
    loft: cli_line.LoftFile = None,
) -> None:
    """Print the card, the warnings and the cautions; with --full every length and mark."""
    from fidpath.job import read_job
    from fidpath.planning import make_plan, sheet

    with _about(job):
        known, estimate = cli_line.with_loft(read_job(job), loft)
        made = make_plan(known)
    if as_json:
        data = sheet.as_data(made, both_units)
        typer.echo(sheet.as_json(data | cli_line.take_up_by_loft(made, estimate)), nl=False)
        return
    shown = sheet.bench_table(made, both_units) if full else f"{_card(made, both_units)}\n{sheet.below(made)}"
    typer.echo(shown + cli_line.take_up_words(made, estimate), nl=False)


@app.command()
def card(job: JobFile, both_units: BothUnits = False) -> None:
    """Print the whole splice in at most twelve lines, in the order of the work."""
    from fidpath.job import read_job
    from fidpath.planning import make_plan

    with _about(job):
        made = make_plan(read_job(job))
    typer.echo(_card(made, both_units), nl=False)


def _card(made: Plan, both_units: bool) -> str:
    """The card of a plan, by the method of its splice."""
    from fidpath.methods import card as card_of
    from fidpath.methods import head_of

    return card_of(head_of(made.job.line.ends[0].splice), made, both_units)


@app.command()
def verify(
    job: JobFile,
    as_json: Json = False,
    steps: Annotated[bool, typer.Option("--steps", help="Check every step and the usual mistakes as well.")] = False,
    loaded: Annotated[bool, typer.Option("--loaded", help="Say how the finished splice changes under load.")] = False,
) -> None:
    """Settle the splice and measure it. If a check fails, say which and where."""
    from fidpath.job import read_job

    checked = read_job(job)
    from fidpath.building import verify_job

    with _about(job):
        report = verify_job(checked, steps, loaded)
    from fidpath.checking import as_text

    typer.echo(_as_json(report) if as_json else as_text(report), nl=False)
    failed = _failed(report)
    if failed:
        raise CheckFailed("; ".join(failed), "Don't work from any result of this job", file=str(job))


def _failed(report: Mapping[str, Any]) -> list[str]:
    """Checks that failed: of the finished splice, of steps, and mistakes that the check doesn't name."""
    from fidpath.checking import failure_words

    failed = [failure_words(failure) for failure in report["finished"]["failures"]]
    for step in report.get("steps", ()):
        failed += [f"step {step['name']}: {failure_words(failure)}" for failure in step["failures"]]
    wrong = report.get("mistakes", ())
    return failed + [f"mistake {way['name']} is named {way['named']}" for way in wrong if way["named"] != way["name"]]


class _BuildCommand(TyperCommand):
    """`build`, whose help lists what the registered outputs write."""

    def format_epilog(self, _context: Any, formatter: Any) -> None:
        """The list."""
        from fidpath.outputs.registered import all_outputs

        with formatter.section("Files"):
            formatter.write_dl([(", ".join(one.patterns), one.title) for one in all_outputs() if one.files])


@app.command(cls=_BuildCommand)
def build(
    job: JobFile,
    out: Annotated[Path | None, typer.Option("--out", metavar="DIR", help="Folder for the results.")] = None,
    steps: Annotated[
        bool, typer.Option("--steps/--no-steps", help="Build every step and the usual mistakes as well.")
    ] = True,
    models: Annotated[
        bool, typer.Option("--models", help="Build models of the hard steps to print, for teaching, as well.")
    ] = False,
    motion: Annotated[bool, typer.Option("--motion", help="Build the motion from step to step as well.")] = False,
    film: Annotated[
        bool, typer.Option("--film", help="Build the motion and a turntable of the splice as well.")
    ] = False,
    look: Annotated[
        Look, typer.Option("--look", help="Make pictures for the screen, or flat ones for print.")
    ] = Look.SCREEN,
    transparent: Annotated[
        bool, typer.Option("--transparent", help="Make pictures with a transparent background.")
    ] = False,
) -> None:
    """Write plan, check, pictures, page, handout, line art, jigs and solids to exports/<job name>/."""
    from fidpath.job import read_job

    checked = read_job(job)
    from fidpath.building import build as build_job
    from fidpath.machine import results_folder
    from fidpath.outputs import PictureStyle

    folder = results_folder(checked.name, out)
    with _about(job):
        build_job(
            checked,
            folder,
            steps=steps,
            models=models,
            motion=motion,
            film=film,
            style=PictureStyle(look.value, transparent),
        )
    typer.echo(f"wrote {folder}")


def _as_json(report: Mapping[str, Any]) -> str:
    """A report as JSON text."""
    import json

    return json.dumps(report, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


cli_line.register(app)
cli_mistake.register(app)
cli_jig.register(app)
cli_show.register(app)
cli_start.register(app)
cli_doctor.register(app)
