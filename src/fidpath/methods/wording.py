"""A method's words filled with the figures of a plan, or with the figures' names where there is no plan."""

from __future__ import annotations

from dataclasses import replace

from fidpath.methods.method import CONDITIONS, CameraView, Method, Mistake, Step
from fidpath.methods.placeholders import filled
from fidpath.methods.registry import placeholders
from fidpath.planning import Plan


def fill(text: str, plan: Plan | None) -> str:
    """The text with every `{name}` replaced; without a plan, the name in brackets. Raises JobError for a bad name."""
    return filled(text, plan, placeholders())


def worded(step: Step, plan: Plan) -> Step:
    """The step with the plan's figures in its words, and only the sentences and tools that belong to this job.

    Raises JobError where a placeholder is unknown.
    """
    also = [extra for extra in step.also if CONDITIONS[extra.when](plan)]
    first, last = ([extra.say for extra in also if extra.first is early] for early in (True, False))
    return replace(
        step,
        caption=fill(step.caption, plan),
        instructions=tuple(fill(text, plan) for text in (*first, *step.instructions, *last)),
        check=fill(step.check, plan),
        caution=fill(step.caution, plan),
        views=tuple(_worded_view(view, plan) for view in step.views),
        tools=tuple(tool for tool in step.tools if CONDITIONS[tool.when](plan)),
        also=(),
    )


def _worded_view(view: CameraView, plan: Plan | None) -> CameraView:
    """A view with the plan's figures in its words; of mirrored work it is seen from the mirrored place."""
    said = replace(view, say=fill(view.say, plan))
    if plan is None or not plan.job.practice.mirrored:
        return said
    (x, y, z), (up_x, up_y, up_z) = view.direction, view.up
    return replace(said, direction=(x, -y, z), up=(up_x, -up_y, up_z))


def worded_mistake(mistake: Mistake, plan: Plan | None) -> Mistake:
    """The mistake with the plan's figures in its words; without a plan, with words for them."""
    return replace(
        mistake,
        title=fill(mistake.title, plan),
        views=tuple(_worded_view(view, plan) for view in mistake.views),
        signs=tuple(fill(text, plan) for text in mistake.signs),
        remedy=tuple(fill(text, plan) for text in mistake.remedy),
        how_far_off=fill(mistake.how_far_off, plan),
    )


def worded_method(method: Method, plan: Plan) -> Method:
    """The whole method with the plan's figures in its words."""
    return replace(
        method,
        steps=tuple(worded(step, plan) for step in method.steps),
        mistakes=tuple(worded_mistake(mistake, plan) for mistake in method.mistakes),
    )
