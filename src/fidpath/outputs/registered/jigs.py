"""The jigs to print and to cut, and the report on them; the models for teaching, where they are asked for."""

from __future__ import annotations

from fidpath.outputs.registry import Context, Output, Product, register

LIBRARIES = ("Hershey-Fonts", "ezdxf", "manifold3d")


def make_jigs(context: Context, _item: str) -> Product:
    """Every jig but the teaching models in its usual formats; one that can't be made is a line of the report."""
    from fidpath.outputs import jigs

    written = jigs.written(context.request.plan, jigs.BUILT, context.settled)
    return Product({f"jigs/{name}": content for name, content in written})


def make_models(context: Context, _item: str) -> Product:
    """The teaching models; a report of their own says why there are none."""
    from fidpath.outputs import jigs

    written = jigs.taught(context.request.plan, context.settled)
    return Product({f"jigs/{name}": content for name, content in written})


JIGS = register(
    Output(
        "jigs",
        "gauges, formers, sleeves and a scale model to print or cut",
        ("jigs/jigs.txt", "jigs/jigs.json", "jigs/*"),
        make_jigs,
        libraries=LIBRARIES,
        option="steps",
        seconds=10.0,
    )
)

MODELS = register(
    Output(
        "teaching-models",
        "models of the hard steps to print, for teaching",
        ("jigs/teaching-models.txt", "jigs/teaching-*"),
        make_models,
        libraries=LIBRARIES,
        option="models",
        seconds=15.0,
    )
)
