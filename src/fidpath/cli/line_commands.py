"""Commands about whole lines: `line`, `calibrate`, `set`, `compare`. Nothing heavy at the top."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from fidpath.errors import CannotBeMade, CheckFailed, FidpathError

if TYPE_CHECKING:
    from fidpath.job import Job
    from fidpath.lines import Loft, SetPlan, TakeUpEstimate
    from fidpath.planning import Plan

JobFile = Annotated[Path, typer.Argument(metavar="JOB", help="The job file of the line.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON, with units in the keys.")]
LoftFile = Annotated[
    Path | None, typer.Option("--loft", metavar="LOFT", help="Practice file: the loft's rules and test splices.")
]
BothUnits = Annotated[bool, typer.Option("--both-units", help="Show millimetres and inches side by side.")]
Out = Annotated[Path | None, typer.Option("--out", metavar="DIR", help="Folder for the results.")]


def register(app: typer.Typer) -> None:
    """Add these commands to the command line."""
    for name, command in (("line", line), ("calibrate", calibrate), ("set", a_set), ("compare", compare)):
        app.command(name)(command)


@contextmanager
def _about(file: Path) -> Iterator[None]:
    """Errors of the later phases, which know no file, are about this one."""
    try:
        yield
    except FidpathError as error:
        error.file = error.file or str(file)
        raise


def with_loft(job: Job, loft: Path | None) -> tuple[Job, TakeUpEstimate | None]:
    """The job by the loft's rules, and what the loft believes of its rope."""
    if loft is None:
        return job, None
    from fidpath.lines import by_loft

    return by_loft(job, loft)


def take_up_by_loft(made: Plan, estimate: TakeUpEstimate | None) -> dict[str, Any]:
    """A splice's take-up as the loft's test splices have it, as plain data; nothing without any."""
    if estimate is None:
        return {}
    from fidpath.lines import basis, line_sheet

    level = made.job.line.confidence
    value, half = estimate.mean * made.take_up, estimate.half_width(level) * made.take_up
    own = {"take_up_by_loft_mm": round(value, 6), "take_up_by_loft_half_width_mm": round(half, 6)}
    return {**own, "take_up_factor": line_sheet.estimate_data(estimate, level), "take_up_basis": basis(estimate)}


def take_up_words(made: Plan, estimate: TakeUpEstimate | None) -> str:
    """The same in words, under a sheet."""
    if estimate is None:
        return ""
    data, level = take_up_by_loft(made, estimate), made.job.line.confidence
    value, half = data["take_up_by_loft_mm"], data["take_up_by_loft_half_width_mm"]
    said = f"{value:.0f} mm, give or take {half:.0f} mm at confidence {level:.3g}: {data['take_up_basis']}"
    return f"\nTAKE-UP BY THE LOFT'S TEST SPLICES\n  {said}\n"


def line(job: JobFile, loft: LoftFile = None, as_json: Json = False, both_units: BothUnits = False) -> None:
    """Plan a whole line between two pins: the rope to cut, every mark, and the uncertainty of its length."""
    from fidpath.job import read_job
    from fidpath.lines import line_sheet, make_line

    known, estimate = with_loft(read_job(job), loft)
    with _about(job):
        made = make_line(known, estimate)
    typer.echo(line_sheet.as_json(made) if as_json else line_sheet.bench_sheet(made, both_units), nl=False)


def _confidence(text: str) -> float:
    """A share as a number or in per cent. Raises typer's BadParameter."""
    from fidpath.units import UnitError, read_share

    try:
        share = read_share(text if "%" in str(text) else float(text)).value
    except (UnitError, ValueError):
        share = 0.0
    if not 0.5 <= share <= 0.999:
        raise typer.BadParameter(f'{text!r} is no confidence; write 0.5 to 0.999, or "95 %"')
    return share


def calibrate(
    loft: Annotated[Path, typer.Argument(metavar="LOFT", help="The practice file.")],
    as_json: Json = False,
    job: Annotated[
        Path | None, typer.Option("--job", metavar="JOB", help="First say what to expect of this job's splices.")
    ] = None,
    confidence: Annotated[
        float,
        typer.Option(
            "--confidence", parser=_confidence, metavar="SHARE", help="Confidence of the intervals, 50 to 99.9 %."
        ),
    ] = 0.95,
    plot: Annotated[Path | None, typer.Option("--plot", metavar="PNG", help="Plot the residuals to this file.")] = None,
) -> None:
    """Learn from the loft's test splices how much a bury shortens the rope, rope by rope."""
    from fidpath.job import read_job
    from fidpath.lines import calibrate as fit
    from fidpath.lines import loft_sheet, read_loft

    known = read_loft(loft)
    with _about(loft):
        found = fit(known)
    wanted = None if job is None else with_loft(read_job(job), loft)[0]
    text = loft_sheet.as_json if as_json else loft_sheet.table
    typer.echo(text(known, found, confidence, wanted), nl=False)
    if plot is not None:
        loft_sheet.write_plot(plot, loft_sheet.plot(known, found, confidence))
        typer.echo(f"wrote {plot}", err=True)


def a_set(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="The set file: TOML, or CSV with units in its header.")],
    as_json: Json = False,
    loft: LoftFile = None,
    job: Annotated[Path | None, typer.Option("--job", help="Job file for lines that name none.")] = None,
    spools: Annotated[
        Path | None, typer.Option("--spools", metavar="CSV", help="Spools in stock: name, rope, length.")
    ] = None,
    decimal_comma: Annotated[
        bool, typer.Option("--decimal-comma", help="The CSV has decimal commas and ; between cells.")
    ] = False,
    out: Out = None,
    build: Annotated[
        bool, typer.Option("--build", help="Build the strand model of every splice; equal splices are built once.")
    ] = False,
    workers: Annotated[int, typer.Option("--workers", min=1, max=256, help="Number of processes.")] = 1,
    scheduler: Annotated[
        str | None, typer.Option("--scheduler", metavar="ADDRESS", help="Address of a Dask cluster.")
    ] = None,
    fresh: Annotated[bool, typer.Option("--fresh", help="Build everything again.")] = False,
) -> None:
    """Plan many lines: one cut list, the marks for each line, totals per rope, and what to cut from which spool."""
    from fidpath.lines import make_set, read_loft, read_set, read_spools, set_sheet
    from fidpath.machine import files as output

    wanted = read_set(file, decimal_comma, job)
    practice = loft or wanted.loft
    known: Loft | None = None if practice is None else read_loft(practice)
    stock = () if spools is None else read_spools(spools, decimal_comma)
    done = make_set(wanted, known, stock)
    typer.echo(set_sheet.as_json(done) if as_json else set_sheet.cut_list(done), nl=False)
    if out is not None or build:
        folder = output.results_folder(done.name, out)
        _write_set(done, folder)
        problems = _build_set(done, folder, workers, scheduler, fresh) if build else []
        typer.echo(f"wrote {folder}", err=True)
    else:
        problems = []
    _finish(done, problems, file)


def _write_set(done: SetPlan, folder: Path) -> None:
    """The cut list in the three forms that leave the screen."""
    from fidpath.lines import set_sheet
    from fidpath.machine import files as output

    output.make_folder(folder)
    output.write_text(folder / "cut-list.txt", set_sheet.cut_list(done))
    output.write_text(folder / "cut-list.csv", set_sheet.as_csv(done))
    output.write_text(folder / "set.json", set_sheet.as_json(done))


def _build_set(done: SetPlan, folder: Path, workers: int, scheduler: str | None, fresh: bool) -> list[str]:
    """Every splice built; returns what could not be."""
    import json

    from fidpath.building import batch
    from fidpath.machine import files as output

    tasks, left = batch.tasks_of([(each.name, each.plan.job) for each in done.planned])

    def tell(count: int, total: int) -> None:
        typer.echo(f"built {count} of {total}", err=True)

    home = folder / "splices"
    results = batch.run(tasks, home, workers=workers, scheduler=scheduler, fresh=fresh, tell=tell)
    text = json.dumps(batch.ledger(results, left), indent=2, ensure_ascii=False) + "\n"
    output.write_text(folder / "built.json", text)
    reused = sum(result.reused for result in results)
    typer.echo(f"{len(results)} splices, {reused} of them there already", err=True)
    return [f"{result.task.used_by[0][0]}: {result.error}" for result in results if result.error]


def _finish(done: SetPlan, problems: list[str], file: Path) -> None:
    """The exit code says whether every line can be made, cut and built."""
    short = [total.pieces[i][0] for total in done.totals if total.allocation for i in total.allocation.unplaced]
    said = []
    if done.failed:
        said.append(f"{len(done.failed)} can't be made: {', '.join(each.name for each in done.failed)}")
    if short:
        said.append(f"{len(short)} have no room on the spools: {', '.join(short)}")
    if problems:
        said.append(f"{len(problems)} splices were not built: {'; '.join(problems)}")
    if said:
        raise CannotBeMade("; ".join(said), "All other lines are in the list", file=str(file))


def compare(
    job: JobFile,
    measured: Annotated[Path, typer.Argument(metavar="MEASURED", help="The file of measurements, TOML.")],
    loft: LoftFile = None,
    as_json: Json = False,
    out: Out = None,
) -> None:
    """Compare what was measured at the bench with the plan, and say what a difference means."""
    from fidpath.job import read_job
    from fidpath.lines import compare as held
    from fidpath.lines import planned_and_measured_sheet as compare_sheet
    from fidpath.lines import read_measured
    from fidpath.machine import files as output

    known, estimate = with_loft(read_job(job), loft)
    found = read_measured(measured, known)
    with _about(job):
        rows = held(known, found, estimate)
    text = compare_sheet.as_json(known, found, rows)
    folder = output.results_folder(known.name, out)
    output.make_folder(folder)
    record = folder / f"as-built-{output.folder_name(measured.stem)}.json"
    output.write_text(record, text)
    typer.echo(text if as_json else compare_sheet.table(known, found, rows), nl=False)
    typer.echo(f"wrote {record}", err=True)
    outside = [f"{row.label}: {compare_sheet.verdict(known, row)}" for row in rows if not row.within]
    if outside:
        raise CheckFailed("; ".join(outside), "What to do stands above, under each", file=str(measured))
