"""The contact sheet: all steps' pictures small, in order."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from fidpath.methods import worded
from fidpath.outputs.registered import steps
from fidpath.outputs.registry import Context, Item, Output, Product, Request, Result, register

NAME = "contact-sheet.png"


def make_sheet(context: Context, _item: str) -> Product:
    """The sheet of all steps."""
    from fidpath.outputs.pictures import Thumbnail, contact_sheet

    plan, method = context.request.plan, context.request.method
    pictures = context.results[steps.PICTURES.name]
    entries = [
        Thumbnail(method.numbered(k), worded(step, plan).caption, _small(context, name, pictures[name]))
        for k, (step, name) in enumerate(zip(method.steps, steps.step_names(method), strict=True))
    ]
    return Product({NAME: contact_sheet(f"{plan.job.name}: {method.title}", entries)})


def prepare(context: Context) -> None:
    """Makes small those pictures that are there already."""
    for name, picture in context.results.get(steps.PICTURES.name, {}).items():
        _small(context, name, picture)


def _small(context: Context, name: str, picture: Result) -> Any:
    from fidpath.outputs.pictures import thumbnail

    path = f"steps/{name}.png"
    return context.remembered(f"thumbnail {picture.files[path]}", lambda: thumbnail(picture.read(path)))


def captions(request: Request) -> Sequence[Item]:
    """One item, made from the method's title and captions."""
    method = request.method
    return [Item("", (method.title, tuple(worded(step, request.plan).caption for step in method.steps)))]


SHEET = register(
    Output(
        "contact-sheet",
        "a contact sheet of all steps",
        (NAME,),
        make_sheet,
        captions,
        needs=(steps.PICTURES.name,),
        libraries=("pillow",),
        option="steps",
        prepare=prepare,
    )
)
