"""A loft's calibration as text, as JSON, and as a plot of what the model leaves unexplained."""

from __future__ import annotations

import io
import json
import textwrap
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from fidpath.cautions import BESIDE_FIGURES
from fidpath.job import Job, rule
from fidpath.lines.line_sheet import LABEL, estimate_data
from fidpath.lines.loft import ASSUMPTIONS, Calibration, Tried, estimate_for
from fidpath.lines.loft_file import Loft
from fidpath.lines.terms import basis
from fidpath.lines.uncertainty import prior, t_quantile
from fidpath.planning import WIDTH, end_plan, rule_source
from fidpath.units import show_length

if TYPE_CHECKING:
    from matplotlib.axes import Axes

CALIBRATION_SCHEMA = 1
INK, BAND, MARKED = "#30343b", "#c9d3de", "#b3432b"
PLOT_INCHES = 6.4, 2.7


def as_data(
    loft: Loft, calibrations: tuple[Calibration, ...], confidence: float, job: Job | None = None
) -> dict[str, Any]:
    """Every rope's take-up as plain data, units in the keys; with a job, what to expect of its splices."""
    expected = () if job is None else expected_of(loft, job, confidence)
    splices = [
        {"end": name, "take_up_expected_mm": round(mm, 6), "take_up_give_or_take_mm": round(half, 6)}
        for name, mm, half in expected
    ]
    return {
        "calibration_schema": CALIBRATION_SCHEMA,
        "loft": loft.name,
        **({} if job is None else {"job": job.name, "splices": splices}),
        "assumptions": list(ASSUMPTIONS),
        "prior": estimate_data(prior(), confidence),
        "ropes": [_rope(each, confidence) for each in calibrations],
        "cautions": list(BESIDE_FIGURES),
    }


def as_json(loft: Loft, calibrations: tuple[Calibration, ...], confidence: float, job: Job | None = None) -> str:
    """The same as JSON text that ends with a line end."""
    data = as_data(loft, calibrations, confidence, job)
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _rope(each: Calibration, confidence: float) -> dict[str, Any]:
    return {
        "rope": each.rope.name,
        "bury_mm": round(each.bury, 6),
        "take_up_expected_mm": round(each.expected(each.bury), 6),
        "take_up_give_or_take_mm": round(each.give_or_take(each.bury, confidence), 6),
        "take_up_factor": estimate_data(each.estimate, confidence),
        "factor_half_width": round(t_quantile(confidence, each.estimate.freedom) * each.estimate.factor_scale, 6),
        "basis": basis(each.estimate),
        "test_splices": [_tried(tried) for tried in each.tried],
        "outliers": [tried.test.name for tried in each.outliers],
    }


def _tried(tried: Tried) -> dict[str, Any]:
    test = tried.test
    return {
        "name": test.name,
        "date": test.date,
        "before_mm": round(test.before, 6),
        "after_mm": round(test.after, 6),
        "bury_mm": round(test.bury, 6),
        "tension_n": test.tension,
        "take_up_mm": round(test.take_up, 6),
        "take_up_by_geometry_mm": round(tried.geometry, 6),
        "ratio": round(tried.ratio, 6),
        "off_in_scales": round(tried.off, 6),
        "passes_within_scales": round(tried.bound, 6),
        "outlier": tried.outlier,
        "factor_without_it": round(tried.factor_without, 6),
    }


def table(loft: Loft, calibrations: tuple[Calibration, ...], confidence: float, job: Job | None = None) -> str:
    """The calibration as it is read, that of a job's own splices first; ends with a line end."""
    blocks = [[f"{loft.name}: how much a bury shortens the rope, by your own test splices"]]
    blocks += [_job_block(loft, job, confidence)] if job is not None else []
    blocks += [_block(each, confidence) for each in calibrations]
    if not calibrations:
        blocks.append([*_wrapped("There are no ropes in this file: geometry's wide guess stands for every rope.", "")])
    blocks += [_listed("ASSUMPTIONS", ASSUMPTIONS), _listed("CAUTIONS", BESIDE_FIGURES)]
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def _listed(title: str, sentences: Iterable[str]) -> list[str]:
    return [title, *(line for text in sentences for line in _wrapped(text, "  - "))]


def _wrapped(text: str, start: str = "  ") -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=start, subsequent_indent=" " * len(start), break_long_words=False)


def expected_of(loft: Loft, job: Job, confidence: float) -> tuple[tuple[str, float, float], ...]:
    """Take-up to expect of each splice of a job's line, and how far it may be out: the end's name, mm, mm."""
    estimate = estimate_for(loft, job.rope)
    half = estimate.half_width(confidence)
    ends = [end_plan(job, place) for place in range(len(job.line.ends))]
    return tuple((end.name, estimate.mean * end.take_up, half * end.take_up) for end in ends if end.spliced)


def _job_block(loft: Loft, job: Job, confidence: float) -> list[str]:
    """What to expect of each splice of a job's line."""
    lines = [f"{job.name}, {job.rope.name}"]
    for name, *lengths in expected_of(loft, job, confidence):
        about, give = (show_length(mm, job.length_unit, job.tools.tape_division_mm) for mm in lengths)
        lines += _wrapped(f"{name}: expect about {about}, give or take {give} ({_share(confidence)}).")
    return lines


def _share(confidence: float) -> str:
    """How many splices come out within the interval, in words."""
    return f"{100 * confidence:.3g} % of splices come within that"


def _mm(length: float) -> str:
    return f"{length:.0f} mm"


def _block(each: Calibration, confidence: float) -> list[str]:
    """One rope: what to expect of the loft's usual bury, what that rests on, and each test splice."""
    bury, tests = each.bury, len(each.tried)
    about, give = _mm(each.expected(bury)), _mm(each.give_or_take(bury, confidence))
    geometry = _mm(each.expected(bury) / each.estimate.mean)
    said = f"expect about {about} for a bury of {_mm(bury)}, give or take {give} ({_share(confidence)})."
    if not tests:
        wide = rule_source(rule("take_up_spread"))
        guess = f"No test splice yet: {said} That is geometry's figure and a wide guess ({wide})."
        return [each.rope.name, *_wrapped(f"{guess} Three test splices make it much narrower.")]
    first = f"{said[0].upper()}{said[1:]} It rests on {tests} test splice{'s' if tests > 1 else ''}; "
    factor = t_quantile(confidence, each.estimate.freedom) * each.estimate.factor_scale * each.expected(bury)
    known = _mm(factor / each.estimate.mean)
    lines = [each.rope.name, *_wrapped(f"{first}geometry alone says {geometry}.")]
    lines += _wrapped(f"The average of many splices is known to {known} either way; a single one scatters about it.")
    lines.append(f"  {'test splice':<{LABEL - 16}} {'bury':>9} {'took up':>9} {'expected':>9} {'off by':>8}")
    return [
        *lines,
        *(_row(each, tried) for tried in each.tried),
        *(line for t in each.outliers for line in _outlier(t)),
    ]


def _row(each: Calibration, tried: Tried) -> str:
    """A test splice against what is now expected of such a bury."""
    took, expected = tried.test.take_up, each.estimate.mean * tried.geometry
    numbers = f"{_mm(tried.test.bury):>9} {_mm(took):>9} {_mm(expected):>9} {took - expected:>+5.0f} mm"
    return f"  {tried.test.name:<{LABEL - 16}} {numbers}"


def _outlier(tried: Tried) -> list[str]:
    expected = _mm(tried.factor_without * tried.geometry)
    return _wrapped(
        f"LOOK AGAIN: {tried.test.name} took up {_mm(tried.test.take_up)}, where the others lead to expect {expected}. "
        "It counts all the same. Find out what happened; strike it out yourself if it was a slip."
    )


def plot(loft: Loft, calibrations: tuple[Calibration, ...], confidence: float) -> bytes:
    """Residuals of every test splice, measured less believed over geometry's, as a PNG; one panel a rope."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    shown = [each for each in calibrations if each.tried]
    figure = Figure(figsize=(PLOT_INCHES[0], PLOT_INCHES[1] * max(1, len(shown)) + 0.4), layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.subplots(max(1, len(shown)), 1, squeeze=False)[:, 0]
    if not shown:
        axes[0].set_axis_off()
        axes[0].text(0.5, 0.5, "no test splice yet", ha="center", va="center", color=INK)
    for axis, each in zip(axes, shown, strict=False):
        _panel(axis, each, confidence)
    figure.suptitle(f"{loft.name}: what the factor leaves unexplained", color=INK, fontsize=11)
    stream = io.BytesIO()
    figure.savefig(stream, format="png", dpi=120, metadata={"Software": None})
    return stream.getvalue()


def _panel(axis: Axes, each: Calibration, confidence: float) -> None:
    """One rope: its test splices in the order written, the interval of the next splice as a band."""
    half = each.estimate.half_width(confidence)
    axis.axhspan(-half, half, color=BAND, label=f"interval of the next splice, {confidence:.3g}")
    axis.axhline(0.0, color=INK, linewidth=1)
    for place, tried in enumerate(each.tried):
        off = tried.ratio - each.estimate.mean
        colour, mark = (MARKED, "D") if tried.outlier else (INK, "o")
        axis.plot([place], [off], mark, color=colour, markersize=6)
    axis.set_xticks(range(len(each.tried)), [tried.test.name for tried in each.tried], rotation=30, ha="right")
    axis.set_xlim(-0.6, len(each.tried) - 0.4)
    axis.set_ylabel("ratio - factor")
    axis.set_title(f"{each.rope.name}: factor {each.estimate.mean:.3f}; diamonds: look again", fontsize=10, color=INK)
    axis.legend(fontsize=8, edgecolor=INK, facecolor=BAND, loc="best")
    axis.spines[["top", "right"]].set_visible(False)


def write_plot(target: Path, content: bytes) -> None:
    """The plot, whole or not at all. Raises OutputError."""
    from fidpath.machine import files as output

    output.make_folder(target.parent)
    output.write_bytes(target, content)
