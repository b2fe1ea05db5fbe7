"""The page that opens anywhere."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from fidpath.outputs.registered import mistakes, steps
from fidpath.outputs.registry import Context, Item, Output, Product, Request, Turn, register

NAME = "splice.html"


STILL_MADE = "The steps and mistakes are still being made: load this page again when they are there."


def make_first_page(context: Context, _item: str) -> Product:
    """The page of the finished splice alone, with the words and tables of all."""
    from fidpath.outputs import page

    plan, method = context.request.plan, context.request.method
    text = page.splice_page(plan, [context.settled(context.request.finished)], method, notice=STILL_MADE)
    return Product({NAME: text.encode("utf-8")})


def make_page(context: Context, _item: str) -> Product:
    """The page of all steps and mistakes."""
    from fidpath.outputs import page

    method = context.request.method
    states: dict[str, Any] = {}
    shown_steps, shown_wrong, pictures = {}, {}, {}
    aim: dict[str, Any] = {}
    for step, name in zip(method.steps, steps.step_names(method), strict=True):
        state, drawn = context.results[steps.STATES.name][name], context.results[steps.PICTURES.name][name]
        states |= drawn.data["between"] | state.data["state"]
        aim = state.data["aim"]
        shown_steps[step.state], pictures[step.state] = drawn.data["shown"], drawn.data["small"]
    for mistake in method.mistakes:
        name = mistake.name
        state, drawn = context.results[mistakes.STATES.name][name], context.results[mistakes.PICTURES.name][name]
        states = {**state.data["state"], **states}
        shown_wrong[name], pictures[name] = drawn.data["shown"], drawn.data["small"]
    parts = page.Parts(states, shown_steps, shown_wrong, aim)
    return Product({NAME: page.page_of(context.request.plan, method, parts, pictures).encode("utf-8")})


def whole(request: Request) -> Sequence[Item]:
    """One item, made from all that the method says."""
    return [Item("", (request.method,))]


def finished(request: Request) -> Sequence[Item]:
    """One item, which shows the finished splice.

    It has the method's words too, but where they alone have changed, the whole page is there until the new one is.
    """
    return [Item(states=(request.finished,))]


FIRST_PAGE = register(
    Output(
        "first-page",
        "the page of the finished splice, until the whole page replaces it",
        (NAME,),
        make_first_page,
        finished,
        option="steps",
        turn=Turn.FINISHED,
        replaced=True,
    )
)

PAGE = register(
    Output(
        "page",
        "the page: one file for a phone or the bench, without a network",
        (NAME,),
        make_page,
        whole,
        needs=(steps.STATES.name, steps.PICTURES.name, mistakes.STATES.name, mistakes.PICTURES.name),
        libraries=("pillow",),
        option="steps",
    )
)
