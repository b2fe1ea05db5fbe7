"""For programs that use fidpath: read, plan, verify, build, draw. Also how a job is shown in Jupyter."""

from __future__ import annotations

import html
import io
import sys
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from fidpath.errors import FidpathError, NoSuchName
from fidpath.job import Job, parse_job, read_job
from fidpath.planning import Plan, make_plan

if TYPE_CHECKING:
    from PIL.Image import Image

    from fidpath.scene import Scene

Look = Literal["screen", "print"]
JobLike = Job | Path | str
"""A job, the path of a job file, or a job file's text (told by its line ends)."""


def read(source: JobLike) -> Job:
    """The job in a file or a text. Raises JobError: file, line, key, what is wrong, what to do."""
    if isinstance(source, Job):
        return source
    if isinstance(source, str) and "\n" in source:
        return parse_job(source)
    return read_job(Path(source))


def plan(job: JobLike) -> Plan:
    """Every number of a job's splice, lengths in mm, angles in radians. Raises CannotBeMade where it can't be made."""
    return make_plan(read(job))


def verify(job: JobLike, steps: bool = False, loaded: bool = False) -> dict[str, Any]:
    """What the check measures on the settled splice, units in the keys; an empty `failures` means it holds.

    steps: also every step of the method and the usual mistakes, in `steps` and `mistakes`. loaded: also how the
    finished splice changes under load, in `loaded`. Raises CannotBeMade.
    """
    from fidpath.building import verify_job

    return verify_job(read(job), steps, loaded)


def build(
    job: JobLike,
    out: Path | str | None = None,
    *,
    steps: bool = True,
    motion: bool = False,
    film: bool = False,
    look: Look = "screen",
    transparent: bool = False,
) -> list[Path]:
    """Writes all that leaves the screen into `out`, or exports/<job name>; returns the files.

    A script that calls it needs `if __name__ == "__main__":`, since helping processes load the script again.
    Raises CannotBeMade, OutputError, EnvironmentProblem.
    """
    from fidpath.building import build as build_job
    from fidpath.machine import results_folder
    from fidpath.outputs import PictureStyle

    known = read(job)
    folder = results_folder(known.name, None if out is None else Path(out))
    style = PictureStyle(look, transparent)
    return build_job(known, folder, steps=steps, motion=motion, film=film, style=style)


def picture(
    job: JobLike,
    name: str = "whole",
    *,
    look: Look = "screen",
    transparent: bool = False,
) -> Image:
    """One picture, 1600 pixels wide: of the finished splice, of a step, or of a mistake beside the right way.

    name: "whole", "throat", "entry" or "taper"; a step's number ("9b") or state ("bight-in-h2"); a mistake's name
    ("no-taper"). Raises NoSuchName for a name there is none of, CannotBeMade where the state can't be made.
    """
    from PIL import Image as Images

    from fidpath.outputs.pictures import png

    made = plan(job)
    content = png(_scene(made, name), made.braid.thickness, look, transparent)
    with Images.open(io.BytesIO(content)) as opened:
        opened.load()
        return opened


def offline_page(job: JobLike, *, steps: bool = False) -> str:
    """The offline page as HTML text: of the finished splice, or with `steps` of every step and mistake."""
    from fidpath.loading import all_in_hand, state_in_hand
    from fidpath.methods import method_of
    from fidpath.outputs.page import splice_page

    planned = plan(job)
    method = method_of(planned.job.line.ends[0].splice)
    if not steps:
        return splice_page(planned, [state_in_hand(planned, method.finished)], method)
    states = dict.fromkeys([step.state for step in method.steps] + [wrong.name for wrong in method.mistakes])
    return splice_page(planned, list(all_in_hand(planned, list(states))), method)


def _scene(planned: Plan, name: str) -> Scene:
    """What a picture of that name shows."""
    from fidpath.loading import moments_in_hand, state_in_hand
    from fidpath.methods import method_of, worded, worded_mistake
    from fidpath.outputs.registered.steps import step_name
    from fidpath.scene import FINISHED as VIEWS
    from fidpath.scene import finished_scene, step_scene, wrong_scene
    from fidpath.settling import laid_state

    method = method_of(planned.job.line.ends[0].splice)
    views = {view.split("-")[1]: view for view in VIEWS} | {view: view for view in VIEWS}
    if name in views:
        one = state_in_hand(planned, method.finished)
        return finished_scene(views[name], planned, one.settled.strands, one.sections)
    for index, step in enumerate(method.steps):
        if name not in (step.state, method.numbered(index), step_name(method, index)):
            continue
        one = state_in_hand(planned, step.state)
        before = laid_state(planned, method.steps[index - 1].state) if index else None
        return step_scene(
            worded(step, planned),
            one,
            before,
            planned,
            of=method.steps[-1].number,
            part=method.part(index),
            moments=moments_in_hand(partial(state_in_hand, planned), step.states[1:]),
        )
    for wrong in method.mistakes:
        if wrong.name == name:
            return wrong_scene(
                worded_mistake(wrong, planned),
                state_in_hand(planned, name),
                state_in_hand(planned, wrong.beside),
                planned,
                {kind: state_in_hand(planned, kind) for kind in wrong.moments},
            )
    numbers = map(method.numbered, range(len(method.steps)))
    known = [*views, *numbers, *(step.state for step in method.steps), *(wrong.name for wrong in method.mistakes)]
    raise NoSuchName(f"there is no picture {name!r}", f"There are {', '.join(known)}")


def plan_html(planned: Plan) -> str:
    """A plan as tables: marks, lengths, angles, each with what it is measured from, its formula and its source."""
    from fidpath.cautions import BESIDE_FIGURES
    from fidpath.planning import figures, lengths, marks, shown, warnings

    parts = [f"<h3>{html.escape(f'{planned.job.name}: {planned.job.rope.name}')}</h3>"]
    blocks = (("Lay out and mark", marks(planned)), ("Lengths", lengths(planned)), ("Angles", figures(planned)))
    for title, entries in blocks:
        rows = (
            (figure.label, shown(figure, planned), figure.measured_from, f"{figure.formula} [{figure.source}]")
            for figure in entries
        )
        body = "".join("<tr>" + "".join(f"<td>{html.escape(cell)}</td>" for cell in row) + "</tr>" for row in rows)
        head = "".join(f"<th>{word}</th>" for word in (title, "", "measured from", "formula and source"))
        parts.append(f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>")
    said = [f"{warning.text} ({warning.source})" for warning in warnings(planned)]
    parts += [f"<p>{html.escape(text)}</p>" for text in (*said, *BESIDE_FIGURES)]
    return "".join(parts)


_shown: dict[str, str] = {}


def job_html(job: Job) -> str:
    """A job as a notebook shows it: its plan as tables, its finished splice as the page; or why it can't be made."""
    key = repr(job)
    if key in _shown:
        return _shown[key]
    try:
        tables, frame = plan_html(make_plan(job)), html.escape(offline_page(job), quote=True)
    except FidpathError as refused:
        return f"<p>{html.escape(job.name)}: {html.escape(str(refused))}</p>"
    _shown[key] = tables + (
        f'<iframe sandbox="allow-scripts" srcdoc="{frame}" title="the splice in 3D" '
        'style="width:100%;height:640px;border:1px solid #999"></iframe>'
    )
    return _shown[key]


def show_in_notebooks() -> None:
    """Tells a running IPython how jobs and plans show themselves; nothing where there is none."""
    ipython = sys.modules.get("IPython")
    shell = ipython.get_ipython() if ipython is not None else None
    if shell is None:
        return
    formatter = shell.display_formatter.formatters["text/html"]
    formatter.for_type(Job, job_html)
    formatter.for_type(Plan, plan_html)


show_in_notebooks()
