"""A loft's calibration as text, as JSON, and as a plot of what the model leaves unexplained."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from fidpath.cautions import BESIDE_FIGURES
from fidpath.lines.line_sheet import LABEL, estimate_data
from fidpath.lines.loft import ASSUMPTIONS, OUTLIER, Calibration, Tried
from fidpath.lines.loft_file import Loft
from fidpath.lines.terms import basis
from fidpath.lines.uncertainty import prior, t_quantile

if TYPE_CHECKING:
    from matplotlib.axes import Axes

CALIBRATION_SCHEMA = 1
INK, BAND, MARKED = "#30343b", "#c9d3de", "#b3432b"
PLOT_INCHES = 6.4, 2.7


def as_data(loft: Loft, calibrations: tuple[Calibration, ...], confidence: float) -> dict[str, Any]:
    """Every rope's take-up as plain data, units in the keys."""
    return {
        "calibration_schema": CALIBRATION_SCHEMA,
        "loft": loft.name,
        "assumptions": list(ASSUMPTIONS),
        "prior": estimate_data(prior(), confidence),
        "ropes": [_rope(each, confidence) for each in calibrations],
        "cautions": list(BESIDE_FIGURES),
    }


def as_json(loft: Loft, calibrations: tuple[Calibration, ...], confidence: float) -> str:
    """The same as JSON text that ends with a line end."""
    return json.dumps(as_data(loft, calibrations, confidence), indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _rope(each: Calibration, confidence: float) -> dict[str, Any]:
    return {
        "rope": each.rope.name,
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


def table(loft: Loft, calibrations: tuple[Calibration, ...], confidence: float) -> str:
    """The calibration as it is read; ends with a line end."""
    blocks = [[f"{loft.name}: take-up by your own test splices; intervals at confidence {confidence:.3g}"]]
    blocks += [_block(each, confidence) for each in calibrations]
    if not calibrations:
        blocks.append(["No ropes in this file: the wide prior stands for every rope.", f"  {basis(prior())}"])
    blocks += [
        ["ASSUMED", *(f"  - {text}" for text in ASSUMPTIONS)],
        ["CAUTIONS", *(f"  - {text}" for text in BESIDE_FIGURES)],
    ]
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def _block(each: Calibration, confidence: float) -> list[str]:
    estimate = each.estimate
    lines = [each.rope.name]
    if not each.tried:
        return [*lines, f"  no test splice yet: {basis(estimate)}"]
    half = t_quantile(confidence, estimate.freedom) * estimate.factor_scale
    lines += [
        f"  take-up, times geometry's {estimate.mean:.3f} +- {half:.3f}",
        f"  next splice's, times geometry's {estimate.mean:.3f} +- {estimate.half_width(confidence):.3f}",
        f"  {'test splice':<{LABEL - 16}} {'measured':>10} {'geometry':>10} {'ratio':>7}   off",
    ]
    for tried in each.tried:
        numbers = f"{tried.test.take_up:>7.1f} mm {tried.geometry:>7.1f} mm {tried.ratio:>7.3f} {tried.off:>+5.1f}"
        lines.append(f"  {tried.test.name:<{LABEL - 16}} {numbers}")
    return [*lines, *(_outlier(tried) for tried in each.outliers)]


def _outlier(tried: Tried) -> str:
    return (
        f"  LOOK AGAIN: {tried.test.name} lies outside the {OUTLIER:.0%} that the others foretell; it counts all the "
        f"same (without it the factor is {tried.factor_without:.3f})"
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
