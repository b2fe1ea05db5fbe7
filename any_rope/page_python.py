"""The page's Python: every module that plan, drafts and settling need, ported, with stand-ins and data files.

`python any_rope/page_python.py FILE` writes them as JSON: path -> text.
"""

from __future__ import annotations

import ast
import json
import sys
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from port import CannotPort, Settings, ported

SOURCE = Path(__file__).parents[1] / "src"
STAND_INS = Path(__file__).parent / "stand_ins"
ENTRIES = (
    "fidpath.job.bearing_body",
    "fidpath.planning.planner",
    "fidpath.planning.sheet",
    "fidpath.settling.solver",
    "fidpath.settling.thin_start",
    "fidpath.states.kinds",
)
KERNELS = frozenset({"list_neighbours", "near_pairs", "sweeps"})
DATA = {"fidpath.job.rules": "fidpath/job/practices/*.toml"}
"""Data files that a module reads: they go beside it, as JSON."""

OUTSIDE = {"json", "math", "fidpath"}
"""What MicroPython has itself."""


@cache
def tree(module: str) -> ast.Module:
    """A module of the program, parsed."""
    return ast.parse(path_of(module).read_text(encoding="utf-8"))


def path_of(module: str) -> Path:
    """The file of a module or package."""
    folder = SOURCE.joinpath(*module.split("."))
    return folder / "__init__.py" if folder.is_dir() else folder.with_suffix(".py")


def home(module: str, name: str) -> tuple[str, str | None]:
    """Where a name that a module exports is defined; None for the name where it is a module itself."""
    if path_of(f"{module}.{name}").exists():
        return f"{module}.{name}", None
    for node in tree(module).body:
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("fidpath"):
            for one in node.names:
                if (one.asname or one.name) == name:
                    return home(node.module, one.name)
    return module, name


def names_in(text: str) -> set[str]:
    """Names that a stand-in defines."""
    found: set[str] = set()
    for node in ast.parse(text).body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            found.add(node.name)
        elif isinstance(node, ast.Assign):
            found.update(one.id for target in node.targets for one in ast.walk(target) if isinstance(one, ast.Name))
    return found


def stand_ins() -> dict[str, str]:
    """Their texts by module."""
    return {path.stem: path.read_text(encoding="utf-8") for path in sorted(STAND_INS.glob("*.py"))}


def modules() -> dict[str, str]:
    """Every module of the program that the page needs, ported, by name. Raises CannotPort."""
    given = stand_ins()
    settings = Settings(home, KERNELS, {name: names_in(text) for name, text in given.items()})
    found: dict[str, str] = {}
    waiting = list(ENTRIES)
    while waiting:
        module = waiting.pop()
        if module in found:
            continue
        found[module] = ported(module, path_of(module).read_text(encoding="utf-8"), settings)
        for wanted in imported(found[module]):
            if wanted.startswith("fidpath"):
                waiting.append(wanted)
            elif wanted not in {*OUTSIDE, *given, "kernels"}:
                raise CannotPort(f"{module}: the page has no {wanted}")
    return found


def imported(text: str) -> Iterator[str]:
    """Modules that a text imports."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            yield from (one.name for one in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module


def files() -> dict[str, str]:
    """All files of the page's Python: path -> text."""
    ours = modules()
    found: dict[str, str] = {}
    for module, text in (stand_ins() | ours).items():
        parts = module.split(".")
        found.update({f"{'/'.join(parts[:k])}/__init__.py": "" for k in range(1, len(parts))})
        found["/".join(parts) + ".py"] = text
    found["packed.py"] = f"FILES = {data(set(ours))!r}\n"
    return found


def data(modules: set[str]) -> dict[str, str]:
    """Data files of those modules, as JSON."""
    paths = [path for module in sorted(modules & set(DATA)) for path in sorted(SOURCE.glob(DATA[module]))]
    texts = {path.relative_to(SOURCE).as_posix(): path.read_text(encoding="utf-8") for path in paths}
    return {name: json.dumps(tomllib.loads(text)) for name, text in texts.items()}


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(json.dumps(files()), encoding="utf-8")
