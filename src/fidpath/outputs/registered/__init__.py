"""The outputs of a build, one module each: it registers an `Output` when it is loaded.

To add one, add a module here that calls `register`; nothing else lists them. Open `handout` first.
"""

from importlib import import_module
from pkgutil import iter_modules

from fidpath.outputs.registry import OUTPUTS, Output


def all_outputs() -> tuple[Output, ...]:
    """Every registered output, those of the modules here among them, in the order of their turns."""
    for module in iter_modules(__path__):
        import_module(f"{__name__}.{module.name}")
    return tuple(sorted(OUTPUTS.values(), key=lambda output: output.turn))
