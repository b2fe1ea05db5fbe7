"""Command `jig`: gauges and solids to print or to cut. Nothing heavy at the top."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fidpath.errors import FidpathError

if TYPE_CHECKING:
    from fidpath.job import Job


def register(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command("jig")(jig)


def _begun(name: str) -> list[str]:
    """Names of jigs that begin so, for the shell."""
    from fidpath.outputs.jigs import NAMES

    return [known for known in NAMES if known.startswith(name)]


def jig(
    job: Annotated[Path, typer.Argument(metavar="JOB", help="The job file.")],
    name: Annotated[
        str | None,
        typer.Argument(metavar="[NAME]", help="Name of one jig; default: all jigs.", autocompletion=_begun),
    ] = None,
    out: Annotated[Path | None, typer.Option("--out", metavar="DIR", help="Folder for the results.")] = None,
    formats: Annotated[
        list[str] | None, typer.Option("--format", help="stl, 3mf, svg, dxf or step; can be given more than once.")
    ] = None,
    step: Annotated[
        str, typer.Option("--step", metavar="STEP", help="The step that the model shows, by its number or state.")
    ] = "",
    scale: Annotated[float | None, typer.Option("--scale", help="Scale of the model, 2 to 5 times the rope.")] = None,
    halves: Annotated[bool, typer.Option("--halves", help="Make the model in two halves with pins.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print the report as JSON, with units in the keys.")] = False,
) -> None:
    """Write gauges, a mark sleeve, an eye former, models and other jigs to print or cut, and say how each prints."""
    from fidpath.building import Manifest
    from fidpath.job import read_job
    from fidpath.machine import files as output
    from fidpath.outputs import jigs
    from fidpath.planning import make_plan

    known = read_job(job)
    wanted = jigs.Wanted(_names(name), _formats(formats), _state(step, known), _scale(scale), halves)
    home = output.results_folder(known.name, out)
    folder = home / "jigs" if out is None else out
    output.make_folder(folder)
    output.sweep_parts(folder)
    report = "jigs.json" if as_json else "jigs.txt"
    shown = ""
    try:
        manifest = Manifest(home)
        for file, content in jigs.written(make_plan(known), wanted):
            manifest.claim([(folder / file).relative_to(home).as_posix()])
            output.write_bytes(folder / file, content)
            shown = content.decode("utf-8") if file == report else shown
    except FidpathError as error:
        error.file = error.file or str(job)
        raise
    typer.echo(shown, nl=False)
    typer.echo(f"wrote {folder}", err=True)


def _state(step: str, job: Job) -> str:
    """The state that a step's number, such as "9b", or a state's name stands for. Raises typer's BadParameter."""
    from fidpath.methods import method_of
    from fidpath.states import KINDS

    method = method_of(job.line.ends[0].splice)
    numbers = {method.numbered(index): one.state for index, one in enumerate(method.steps)}
    state = numbers.get(step, step)
    if state and state not in numbers.values() and state not in KINDS:
        names = ", ".join((*numbers, *numbers.values()))
        raise typer.BadParameter(f"there is no step {step!r}; there are {names}", param_hint="--step")
    return state


def _names(name: str | None) -> tuple[str, ...]:
    """The jigs asked for. Raises typer's BadParameter for one that isn't known."""
    from fidpath.outputs.jigs import NAMES

    if name is not None and name not in NAMES:
        raise typer.BadParameter(f"{name!r} is no jig; there are {', '.join(NAMES)}", param_hint="NAME")
    return NAMES if name is None else (name,)


def _formats(given: list[str] | None) -> tuple[str, ...]:
    """The formats asked for. Raises typer's BadParameter for one that isn't known."""
    from fidpath.outputs.jigs import FORMATS, USUAL

    strange = [each for each in given or () if each not in FORMATS]
    if strange:
        raise typer.BadParameter(f"{strange[0]!r} is no format; there are {', '.join(FORMATS)}", param_hint="--format")
    return tuple(given) if given else USUAL


def _scale(scale: float | None) -> float | None:
    """The model's scale, within its limits. Raises typer's BadParameter."""
    from fidpath.job import KeyedError, KeyPath, scale_within

    try:
        return None if scale is None else scale_within(scale, KeyPath(("--scale",)))
    except KeyedError as refused:
        raise typer.BadParameter(f"{refused.what}. {refused.remedy.rstrip('.')}", param_hint="--scale") from None
