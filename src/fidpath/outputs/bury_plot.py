"""The load along the bury as a plot from the tail's tip, for the friction's band."""

from __future__ import annotations

import io

import numpy as np

from fidpath.cautions import GEOMETRY_ONLY
from fidpath.loading import CoverGrip, LoadBand
from fidpath.planning import Plan

INK, BAND = "#222222", "#c9d6e6"


def bury_plot(grip: CoverGrip, plan: Plan, band: LoadBand) -> bytes:
    """PNG: the tail's share of the load against the distance from its tip, as far as the entry."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(9.0, 5.0), layout="constrained")
    FigureCanvasAgg(figure)
    axis = figure.subplots()
    along = np.linspace(0.0, plan.bury_length, 200)
    low, high = (100 * grip.tail_share(friction, along) for friction in band.friction)
    axis.fill_between(along, low, high, color=BAND, label=f"friction {band.friction[0]:g} to {band.friction[1]:g}")
    middle = sum(band.friction) / 2
    axis.plot(along, 100 * grip.tail_share(middle, along), color=INK, label=f"friction {middle:.3g}")
    axis.set(xlim=(0, plan.bury_length), ylim=(0, 100), xlabel="mm from the tail's tip; the entry is at the right")
    axis.set_ylabel("handed over between tail and cover, %")
    axis.set_title(f"{plan.job.name}: load along the bury by friction alone", color=INK, fontsize=11)
    axis.legend(loc="lower right")
    figure.supxlabel(
        f"{_words(grip)}\n{GEOMETRY_ONLY} No reason for a shorter bury: the rope maker's length counts.",
        fontsize=8,
        color=INK,
    )
    stream = io.BytesIO()
    figure.savefig(stream, format="png", dpi=120, metadata={"Software": None})
    return stream.getvalue()


def _words(grip: CoverGrip) -> str:
    return (
        f"Loaded cover: strands at radius {grip.radius:.2f} mm, {np.degrees(grip.angle):.0f} deg. Limit of friction on "
        "a smooth tail, no taper; strands that interlock are quicker."
    )
