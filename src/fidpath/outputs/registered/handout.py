"""The printed handout."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, cast

from fidpath.outputs.registered import finished_splice, mistakes, steps
from fidpath.outputs.registry import Context, Item, Output, Product, Request, register

if TYPE_CHECKING:
    from fidpath.outputs.handout import PaperName


def make_handout(context: Context, paper: str) -> Product:
    """The handout on one kind of paper, with the figures of all steps and mistakes."""
    from fidpath.outputs.handout import handout, step_key, wrong_key

    method, results = context.request.method, context.results
    step_results, wrong_results = results[steps.PICTURES.name], results[mistakes.PICTURES.name]
    figures = {"finished": results[finished_splice.PICTURES.name][finished_splice.WHOLE].data["figure"]}
    names = steps.step_names(method)
    figures |= {step_key(method, k): step_results[name].data["figure"] for k, name in enumerate(names)}
    figures |= {wrong_key(wrong): wrong_results[wrong.name].data["figure"] for wrong in method.mistakes}
    drawn = {name: figure.encode("utf-8") for name, figure in figures.items()}
    pdf = handout(context.request.plan, method, drawn, cast("PaperName", paper))
    return Product({f"handout-{paper}.pdf": pdf})


def papers(request: Request) -> Sequence[Item]:
    """One item a kind of paper."""
    from fidpath.outputs.handout import PAPERS

    return [Item(paper, (request.method,)) for paper in PAPERS]


HANDOUT = register(
    Output(
        "handout",
        "the handout: the whole job on paper, with mark strip and sleeve at true size",
        ("handout-{}.pdf",),
        make_handout,
        papers,
        needs=(finished_splice.PICTURES.name, steps.PICTURES.name, mistakes.PICTURES.name),
        libraries=("matplotlib", "pypdf", "segno", "typst"),
        option="steps",
    )
)
