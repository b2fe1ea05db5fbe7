"""The page that opens anywhere."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from fidpath.outputs.registered import mistakes, steps
from fidpath.outputs.registry import Context, Item, Output, Product, Request, Result, Turn, register

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
    return Product({NAME: _page(context, workers=2).encode("utf-8")})


def prepare(context: Context) -> None:
    """Makes small those pictures that are there already, on one processor, since the others are busy."""
    _page(context, workers=1)


def _page(context: Context, workers: int) -> str:
    """The page of as many steps and mistakes as there are."""
    from fidpath.outputs import page

    method = context.request.method
    states: dict[str, Any] = {}
    shown_steps, shown_wrong, pictures = {}, {}, {}
    aim: dict[str, Any] = {}
    for step, name in zip(method.steps, steps.step_names(method), strict=True):
        if (state := _result(context, steps.STATES, name)) is not None:
            states |= state.data["state"]
            aim = state.data["aim"]
        if (drawn := _result(context, steps.PICTURES, name)) is not None:
            shown_steps[step.state] = drawn.data["shown"]
            pictures[step.state] = drawn.read(f"steps/{name}.png")
    for mistake in method.mistakes:
        if (state := _result(context, mistakes.STATES, mistake.name)) is not None:
            states = {**state.data["state"], **states}
        if (drawn := _result(context, mistakes.PICTURES, mistake.name)) is not None:
            shown_wrong[mistake.name] = drawn.data["shown"]
            pictures[mistake.name] = drawn.read(f"wrong/{mistake.name}.png")
    parts = page.Parts(states, shown_steps, shown_wrong, aim)
    link = context.remembered("links", page.linker)
    return page.page_of(context.request.plan, method, parts, pictures, link, workers)


def _result(context: Context, output: Output, item: str) -> Result | None:
    return context.results.get(output.name, {}).get(item)


def whole(request: Request) -> Sequence[Item]:
    """One item, made from all that the method says."""
    return [Item("", (request.method,))]


def finished(request: Request) -> Sequence[Item]:
    """One item, which shows the finished splice."""
    return [Item("", (request.method,), (request.finished,))]


FIRST_PAGE = register(
    Output(
        "first-page",
        "the page of the finished splice, until that of all steps is there",
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
        "the page: one file for a phone or a bench, without a network",
        (NAME,),
        make_page,
        whole,
        needs=(steps.STATES.name, steps.PICTURES.name, mistakes.STATES.name, mistakes.PICTURES.name),
        libraries=("pillow",),
        option="steps",
        prepare=prepare,
    )
)
