"""What can sit in an eye: one module a kind, each with its table, its check and its body, registered on import.

A file's table comes in, a checked `Body` goes out. A new kind is one new module here: every one is imported, none is
listed. Open `ring` first, then `shackle`.
"""

import importlib
import pkgutil

for _module in pkgutil.iter_modules(__path__):
    importlib.import_module(f"{__name__}.{_module.name}")
