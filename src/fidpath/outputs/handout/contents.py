"""Plan and method -> everything the handout says, as plain data: none is read as the typesetter's own language."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from typing import Any

from fidpath.cautions import BEFORE_A_LOAD, BELOW_PAGES, BESIDE_FIGURES
from fidpath.job import Job
from fidpath.methods import Method, Mistake, Step, card_lines, worded_method
from fidpath.outputs.handout.mark_strip import strip_pages
from fidpath.outputs.handout.qr_code import code, code_text
from fidpath.outputs.handout.sleeve import sleeve, sleeve_drawing
from fidpath.outputs.handout.table_rows import measured_rows
from fidpath.outputs.handout.true_size import Drawing, as_data
from fidpath.outputs.handout.typeface import printable, shortened
from fidpath.planning import Figure, Plan, lengths, marks, shown, warnings
from fidpath.planning import figures as angles_and_tensions
from fidpath.units import is_imperial, show_tension

Data = dict[str, Any]

WEAVES = {"over-two": "two over, two under", "over-one": "one over, one under"}

TOOLS = {
    "tape": "tape, {division}",
    "marker": "marker that shows on the rope and doesn't harm it",
    "knife": "sharp knife",
    "straight edge": "straight edge, and a steel rule to check these prints",
    "needle": "needle and twine for the lock-stitch",
    "post": "smooth post, to size the eye over",
    "mark sleeve": "mark sleeve for this rope, printed or of paper",
    "long fid": "long fid, wire or puller, longer than {bury}",
}
"""What each tool of a method is called in the list; figures in braces."""

SAFETY = (
    "Cut away from your hands and the rope. Keep your hand out of the path of the fid's point.",
    "Never stand in line with a rope under tension.",
    "Check both prints with a steel rule before you mark a rope. Check the finished splice before use.",
)

ENLARGED, BROADEST = 88.0, 158.0
"""Height and greatest length of the enlarged sleeve, mm."""


def step_key(method: Method, index: int) -> str:
    """The name of a step's figure: "step-01", or "step-03a", "step-03b" where a step has several states."""
    return f"step-{method.steps[index].number:02d}{method.part(index)}"


def wrong_key(way: Mistake) -> str:
    """The name of a mistake's figure."""
    return f"wrong-{way.name}"


def _title(job: Job) -> str:
    """The job and its line, once where both are called the same."""
    return job.name if job.line.name == job.name else f"{job.name}: {job.line.name}"


def contents(plan: Plan, method: Method, figures: Mapping[str, str], strip_room: tuple[float, float]) -> Data:
    """Everything the handout says; `figures` maps a figure's name to its file, `strip_room` is (width, height) mm."""
    way = worded_method(method, plan)
    job = plan.job
    data = {
        "title": _title(job),
        "header": shortened(_title(job), 70),
        "method": way.title,
        "card": list(card_lines(method, plan)),
        "cautions": [*BESIDE_FIGURES, *SAFETY],
        "foot": BELOW_PAGES,
        "before_a_load": BEFORE_A_LOAD,
        "warnings": [f"{w.text} ({w.source})" for w in warnings(plan)],
        "parts": _parts(plan),
        "needs": _needs(plan, way),
        "tables": [
            _table("Lay out and mark", marks(plan), plan),
            _table("Lengths", lengths(plan), plan),
            _table("Angles, counts and tensions", angles_and_tensions(plan), plan),
        ],
        "steps": [_step(way, i, figures) for i in range(len(way.steps))],
        "mistakes": [_wrong(mistake, figures) for mistake in way.mistakes],
        "finished": figures.get("finished", ""),
        "measured": [_row(f, plan) for f in measured_rows(plan)],
        "checks": [{"what": way.numbered(i), "say": s.check} for i, s in enumerate(way.steps)],
    }
    drawn = {
        "code": as_data(code(code_text(plan, marks(plan)))),
        "strip": [as_data(page) for page in strip_pages(plan, strip_room)],
        "zero": plan.origin,
        "tip": next(shown(mark, plan) for mark in marks(plan) if mark.name == "tip_in_standing_part"),
        "wraps": _wraps(plan),
    }
    return {**_printable(data), **drawn}


def _printable(value: Any) -> Any:
    """The same data with every text fit to print."""
    if isinstance(value, str):
        return printable(value)
    if isinstance(value, Mapping):
        return {key: _printable(part) if key != "figure" else part for key, part in value.items()}
    return [_printable(part) for part in value] if isinstance(value, list | tuple) else value


def _fine(mm: float, plan: Plan) -> str:
    return shown(Figure("", "", mm, "", "", "", fine=True), plan)


def _parts(plan: Plan) -> list[list[str]]:
    """The line and its parts, as pairs."""
    job, rope, body = plan.job, plan.job.rope, plan.job.terminator
    pairs = [
        ["rope", f"{rope.name}: {_fine(rope.diameter_mm, plan)}, {rope.strands} strands, {WEAVES[rope.weave]}, "
                 f"pitch {_fine(rope.pitch_mm, plan)}"],
        ["in the eye", f"{body.name} ({body.kind}), bearing diameter {_fine(body.bearing_diameter_mm, plan)}"],
        ["this end", job.line.ends[0].name],
        ["captive end", job.line.captive_end],
    ]  # fmt: skip
    return [*pairs[:3], *([["other end", job.line.ends[1].name]] if len(job.line.ends) > 1 else []), *pairs[3:]]


def _needs(plan: Plan, method: Method) -> list[str]:
    """What is taken to hand before the work: the rope, the tools that the method's steps use, the prints."""
    used = {tool.kind for step in method.steps for tool in step.tools}
    inside = next(shown(figure, plan) for figure in lengths(plan) if figure.name == "bury_in_standing_part")
    words = {"division": f"divisions of {_fine(plan.job.tools.tape_division_mm, plan)}", "bury": inside}
    pull = show_tension(plan.job.practice.reference_tension_n, plan.job.length_unit)
    tail = next(shown(figure, plan) for figure in lengths(plan) if figure.name == "tail_to_lay_out")
    tools = [say.format(**words) for kind, say in TOOLS.items() if kind in {*used, "straight edge"}]
    return [
        f"rope: {tail} of tail for this splice, in addition to the line itself",
        plan.job.terminator.name,
        *plan.job.line.thread_on_first,
        *tools,
        *_fids(plan, used),
        f"spring scale, or a hanging weight, for a tension of {pull}",
        "thin tape to bind the tail's point",
        "scissors and paste for the mark strip and the sleeves (read “How to use these prints” first)",
    ]


def _fids(plan: Plan, used: Collection[str]) -> list[str]:
    """The fids that the method's steps use, by size: two of one where both lie in a hole at once."""
    opened = plan.openings
    at_once = {
        "small fid": (opened.first_fid,),
        "large fid": (opened.first_fid, opened.second_fid),
        "fids from both sides": opened.h2_fids,
    }
    counts = [Counter(fids) for kind, fids in at_once.items() if kind in used]
    most = {size: max(count[size] for count in counts) for count in counts for size in count}
    second = ", two, or one and a smooth rod"
    return [f"fid, {_fine(size, plan)}{second if many > 1 else ''}" for size, many in sorted(most.items())]


def _row(figure: Figure, plan: Plan) -> Data:
    return {
        "label": figure.label,
        "value": shown(figure, plan),
        "formula": figure.formula,
        "source": figure.source,
        "from": figure.measured_from,
    }


def _table(title: str, rows: Sequence[Figure], plan: Plan) -> Data:
    return {"title": title, "rows": [_row(figure, plan) for figure in rows]}


def _step(method: Method, index: int, figures: Mapping[str, str]) -> Data:
    step = method.steps[index]
    return {
        "name": f"Step {method.numbered(index)}",
        "caption": step.caption,
        "do": list(step.instructions),
        "check": step.check,
        "caution": step.caution,
        "figure": figures.get(step_key(method, index), ""),
        "alt": _step_alt(step),
    }


def _step_alt(step: Step) -> str:
    marks = f" Marks shown: {', '.join(step.marks)}." if step.marks else ""
    return f"Line drawing of step {step.number}: {step.caption}. It shows: {step.check}{marks}"


def _wrong(way: Mistake, figures: Mapping[str, str]) -> Data:
    return {
        "title": way.title,
        "step": str(way.step_number),
        "signs": list(way.signs),
        "off": way.how_far_off,
        "back": list(way.remedy),
        "figure": figures.get(wrong_key(way), ""),
        "alt": f"Line drawing, the right way beside the wrong one: {way.title}. {' '.join(way.signs)}",
    }


def _wraps(plan: Plan) -> Data:
    """Sleeves to cut out, one for each hole, and one enlarged with its strands numbered."""
    mirrored = plan.job.practice.mirrored
    one = sleeve(plan.braid, mirrored=mirrored)
    grown = ENLARGED / one.round
    names = ["H1, on the standing part", "H2, on the tail"] if plan.lock else ["E, on the standing part"]
    big = sleeve(plan.braid, min(grown, BROADEST / (2 * one.along)), mirrored) if grown > 1.5 else None
    unit = "in" if is_imperial(plan.job.length_unit) else "mm"
    return {
        "sleeves": [{"name": name, "drawing": as_data(sleeve_drawing(one, name))} for name in names],
        "enlarged": None if big is None else as_data(_named(sleeve_drawing(big, "enlarged"), big.scale)),
        "round": _length(one.round, unit),
        "along": _length(2 * one.along, unit),
        "half": plan.braid.strands // 2,
        "scale": "" if big is None else f"{big.scale:.1f}",
    }


def _length(mm: float, unit: str) -> str:
    return f"{mm / 25.4:.3f} in" if unit == "in" else f"{mm:.2f} mm"


def _named(drawing: Drawing, scale: float) -> Drawing:
    return replace(drawing, alt=f"{drawing.alt} Enlarged {scale:.1f} times; not to be cut out.")
