"""The sheet of mistakes: the pictures of all usual mistakes small and numbered, to pick from."""

from __future__ import annotations

from collections.abc import Sequence

from fidpath.methods import worded_mistake
from fidpath.outputs.registered import mistakes
from fidpath.outputs.registry import Context, Item, Output, Product, Request, register

NAME = "mistakes.png"


def make_sheet(context: Context, _item: str) -> Product:
    """The sheet of all usual mistakes, with the numbers that `fidpath mistake --like` takes."""
    from fidpath.outputs.pictures import Thumbnail, contact_sheet, thumbnail
    from fidpath.scene import WRONG_AREA

    plan, method = context.request.plan, context.request.method
    pictures = context.results[mistakes.PICTURES.name]
    entries = [
        Thumbnail(str(number), title, thumbnail(pictures[name].read(f"wrong/{name}.png"), WRONG_AREA))
        for number, (name, title) in enumerate(_titles(context.request), 1)
    ]
    return Product({NAME: contact_sheet(f"{plan.job.name}: the usual mistakes, {method.title}", entries)})


def titles(request: Request) -> Sequence[Item]:
    """One item, made from the method's title and those of its mistakes; none where it has no mistakes."""
    return [Item("", (request.method.title, tuple(_titles(request))))] if request.method.mistakes else []


def _titles(request: Request) -> list[tuple[str, str]]:
    return [(one.name, worded_mistake(one, request.plan).title) for one in request.method.mistakes_in_order]


SHEET = register(
    Output(
        "mistake-sheet",
        "a sheet of the usual mistakes, numbered, to pick from",
        (NAME,),
        make_sheet,
        titles,
        needs=(mistakes.PICTURES.name,),
        libraries=("pillow",),
        option="steps",
    )
)
