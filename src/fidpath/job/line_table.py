"""The line, its ends and its adjuster, from a file's table, checked as far as the file alone can tell."""

from __future__ import annotations

from fidpath.job.job import Adjuster, End, Line, Terminator
from fidpath.job.key_paths import KeyPath, key_path
from fidpath.job.limits import length, optional, value_of, within
from fidpath.job.locate import KeyedError
from fidpath.job.schema import AdjusterTable, EndTable, LineTable
from fidpath.job.terminators.registry import terminator_of
from fidpath.units import Measure

LONGEST_EYE_D = 2000.0
"""Rope diameters; a longer eye is taken for a slip of the pen, and its plan would take minutes."""


def line_of(table: LineTable, d: float, job_name: str) -> Line:
    """The line; its first end is the one spliced."""
    return Line(
        name=table.name or job_name,
        ends=tuple(_end(end, index, d) for index, end in enumerate(table.ends)),
        captive_end=_captive_end(table),
        thread_on_first=tuple(table.thread_on_first),
        finished_length_mm=optional(key_path("line.finished_length"), table.finished_length),
        tension_n=value_of(key_path("line.tension"), table.tension, (0.1, 1e7), "0.1 N to 10 MN"),
        confidence=_confidence(table),
        adjuster=None if table.adjuster is None else _adjuster(table.adjuster),
    )


def _captive_end(table: LineTable) -> str:
    """What the captive end is: as written, or the line's other end once that is made."""
    if table.captive_end is not None:
        return table.captive_end
    if len(table.ends) < 2:
        what, remedy = "this key is missing", 'Add captive_end = "what holds the other end".'
        raise KeyedError(key_path("line.captive_end"), what, remedy)
    return f"{table.ends[1].name}, once made"


def _confidence(table: LineTable) -> float:
    """The share of lines that are to come out within the interval."""
    if table.confidence is None:
        return 0.95
    value = table.confidence.value
    return within(key_path("line.confidence"), value, (0.5, 0.999), f"a confidence of {value:g}", "50 % to 99.9 %")


def _adjuster(table: AdjusterTable) -> Adjuster:
    """How far the adjuster can set the line shorter and longer."""
    shorten, lengthen = (
        length(key_path("line.adjuster") / key, measure)
        for key, measure in (("shorten", table.shorten), ("lengthen", table.lengthen))
    )
    return Adjuster(table.kind, shorten, lengthen)


def _end(table: EndTable, index: int, d: float) -> End:
    """One end of the line; the first end's terminator is the job's."""
    path = key_path("line.ends") / index
    fitting = optional(path / "fitting_length", table.fitting_length)
    if index == 0 and (table.terminator is not None or table.splice == "fitting"):
        what, remedy = "the first end must be a splice round the job's [terminator]", "Swap the two ends."
        raise KeyedError(path / ("terminator" if table.terminator else "splice"), what, remedy)
    if (fitting is None) == (table.splice == "fitting"):
        what = "a made-up fitting needs fitting_length, and only a fitting may have it"
        remedy = 'Write splice = "fitting" and fitting_length, from its bearing point to the end of the rope in it.'
        raise KeyedError(path / ("splice" if fitting is None else "fitting_length"), what, remedy)
    eye = _eye_length(table.eye_length, path / "eye_length", d)
    return End(table.name, table.splice, eye, _own_terminator(table, path, d), fitting)


def _own_terminator(table: EndTable, path: KeyPath, d: float) -> Terminator | None:
    """What sits in this end's own eye, or None where it is as at the first end."""
    if table.terminator is None:
        return None
    try:
        return terminator_of(table.terminator, d)
    except KeyedError as refused:
        raise KeyedError(path.below(refused.path), refused.what, refused.remedy) from None


def _eye_length(measure: Measure | None, path: KeyPath, d: float) -> float | None:
    """An eye's length in mm; it may be written in rope diameters, and may not have too many of them."""
    if measure is None:
        return None
    mm = length(path, Measure(measure.mm(d), "mm"))
    if mm > LONGEST_EYE_D * d:
        what = f"an eye of {mm / d:.6g} rope diameters is too long: {mm:g} mm in {d:g} mm rope"
        raise KeyedError(path, what, f"It can be up to {LONGEST_EYE_D:g} d.")
    return mm
