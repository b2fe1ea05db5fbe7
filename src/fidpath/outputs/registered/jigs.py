"""The jigs to print and to cut, and the report on them."""

from __future__ import annotations

from fidpath.outputs.registry import Context, Output, Product, register


def make_jigs(context: Context, _item: str) -> Product:
    """Every jig in its usual formats; one that can't be made is a line of the report."""
    from fidpath.outputs import jigs

    written = jigs.written(context.request.plan, settled=context.settled)
    return Product({f"jigs/{name}": content for name, content in written})


JIGS = register(
    Output(
        "jigs",
        "gauges, formers, sleeves and models to print or cut",
        ("jigs/jigs.txt", "jigs/jigs.json", "jigs/*"),
        make_jigs,
        libraries=("Hershey-Fonts", "ezdxf", "manifold3d"),
        option="steps",
        seconds=10.0,
    )
)
