"""Draws the rooms of the source from its real imports: docs/rooms.svg, and the table of rooms in DEVELOPERS.md.

Run: python docs/rooms.py           writes both
     python docs/rooms.py --check   fails where either is out of date
"""

from __future__ import annotations

import ast
import sys
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from pathlib import Path
from xml.sax.saxutils import escape

ROOT = Path(__file__).parent.parent
SOURCE = ROOT / "src" / "fidpath"
DRAWING, TEXT = ROOT / "docs" / "rooms.svg", ROOT / "DEVELOPERS.md"
BEGIN, END = "<!-- rooms: made by docs/rooms.py -->", "<!-- end of rooms -->"

WIDE, HIGH, GAP, BETWEEN, MARGIN = 190, 58, 26, 44, 30
"""A room's box, the gaps beside and below it, and the margin, in pixels."""

Rooms = Mapping[str, frozenset[str]]


@lru_cache(maxsize=1)
def layers() -> tuple[tuple[str, ...], ...]:
    """The layers of rooms, top first, as import-linter holds them."""
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    contract = settings["tool"]["importlinter"]["contracts"][0]
    return tuple(tuple(name.strip() for name in row.split("|")) for row in contract["layers"])


@lru_cache(maxsize=1)
def imports() -> Rooms:
    """Every room with the rooms that its modules import from, at the top or inside a function."""
    rooms = [name for row in layers() for name in row]
    return {room: frozenset(_taken(room) & set(rooms)) for room in rooms}


def _taken(room: str) -> set[str]:
    """The rooms that a room's modules import from."""
    found = {name for path in modules(room) for name in _imported(path)}
    return {name.split(".")[1] for name in found if name.startswith("fidpath.")} - {room}


def modules(room: str) -> list[Path]:
    """A room's modules; a room may be a single one."""
    alone = SOURCE / f"{room}.py"
    return [alone] if alone.exists() else sorted((SOURCE / room).rglob("*.py"))


def _imported(path: Path) -> Iterator[str]:
    """Dotted names of what a module imports."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module == "fidpath":
            yield from (f"fidpath.{alias.name}" for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module


def straight(graph: Rooms) -> list[tuple[str, str]]:
    """The arrows of the data's way, from a room to one that takes from it, less those that a longer way implies."""
    reach = {room: _reached(graph, room) for room in graph}
    return sorted(
        (taken, room)
        for room, all_taken in graph.items()
        for taken in all_taken
        if not any(taken in reach[other] for other in all_taken - {taken})
    )


def _reached(graph: Rooms, room: str) -> set[str]:
    """Every room that a room depends on."""
    found: set[str] = set()
    waiting = [room]
    while waiting:
        fresh = graph[waiting.pop()] - found
        found |= fresh
        waiting += fresh
    return found


def says(room: str) -> str:
    """The first line of a room's own words."""
    home = SOURCE / f"{room}.py"
    path = home if home.exists() else SOURCE / room / "__init__.py"
    return (ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or "").split("\n")[0]


def places() -> dict[str, tuple[float, float]]:
    """The top left corner of every room's box, the layers below one another, the data's way upward."""
    widest = max(len(row) for row in layers())
    found = {}
    for depth, row in enumerate(layers()):
        left = MARGIN + (widest - len(row)) * (WIDE + GAP) / 2
        for number, room in enumerate(row):
            found[room] = (left + number * (WIDE + GAP), MARGIN + depth * (HIGH + BETWEEN))
    return found


def svg() -> str:
    """The drawing: a box for every room, an arrow for every step of the data's way but those from the lowest row."""
    at = places()
    wide = max(x for x, _ in at.values()) + WIDE + MARGIN
    high = max(y for _, y in at.values()) + HIGH + MARGIN
    steps = [(at[start], at[end]) for start, end in straight(imports()) if start not in layers()[-1]]
    arrows = [_arrow(start, end, wide / 2) for start, end in steps]
    boxes = [_box(room, *place) for room, place in at.items()]
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:.0f} {high:.0f}" width="{wide:.0f}" '
        f'height="{high:.0f}" font-family="DejaVu Sans, Arial, sans-serif">'
    )
    tip = (
        '<defs><marker id="tip" viewBox="0 0 10 10" refX="9" refY="5" markerWidth="7" markerHeight="7" '
        'orient="auto"><path d="M0 1 L10 5 L0 9 z" fill="#556"/></marker></defs>'
    )
    ground = f'<rect width="{wide:.0f}" height="{high:.0f}" fill="#fff"/>'
    title = "<title>The rooms of fidpath, and the way of the data through them</title>"
    return "\n".join([head, title, tip, ground, *arrows, *boxes, "</svg>"]) + "\n"


def _arrow(start: tuple[float, float], end: tuple[float, float], middle: float) -> str:
    """An arrow from the top of a box to the foot of a higher one, bowed away from the middle where it passes others."""
    x0, y0, x1, y1 = start[0] + WIDE / 2, start[1], end[0] + WIDE / 2, end[1] + HIGH
    rows = round((y0 - y1 + HIGH) / (HIGH + BETWEEN))
    side = 0.0 if rows <= 1 else (WIDE / 2 + 2 * GAP + 16 * rows) * (1 if x0 + x1 >= 2 * middle else -1)
    bend = (y0 - y1) / 3
    path = f"M{x0:.0f} {y0:.0f} C{x0 + side:.0f} {y0 - bend:.0f} {x1 + side:.0f} {y1 + bend:.0f} {x1:.0f} {y1:.0f}"
    return f'<path d="{path}" fill="none" stroke="#556" stroke-width="1.3" marker-end="url(#tip)"/>'


def _box(room: str, x: float, y: float) -> str:
    """A room: its name and how large it is."""
    count = len(modules(room))
    size = "1 module" if count == 1 else f"{count} modules"
    return (
        f'<g><rect x="{x:.0f}" y="{y:.0f}" width="{WIDE}" height="{HIGH}" rx="7" fill="#eef3f8" stroke="#345"/>'
        f'<text x="{x + WIDE / 2:.0f}" y="{y + 26:.0f}" text-anchor="middle" font-size="17" font-weight="bold" '
        f'fill="#123">{escape(room)}</text>'
        f'<text x="{x + WIDE / 2:.0f}" y="{y + 46:.0f}" text-anchor="middle" font-size="12" fill="#456">'
        f"{escape(size)}</text></g>"
    )


def table() -> str:
    """The rooms in the order of the data's way: what each is, and which rooms it takes from directly."""
    rows = [room for row in reversed(layers()) for room in row]
    lines = ["| room | what it is | takes from |", "|---|---|---|"]
    for room in rows:
        taken = [other for other in rows if other in imports()[room]]
        lines.append(f"| `{room}` | {says(room)} | {', '.join(taken) or 'nothing'} |")
    return "\n".join(lines)


def text() -> str:
    """DEVELOPERS.md with its table of rooms made anew."""
    before, _, rest = TEXT.read_text(encoding="utf-8").partition(BEGIN)
    _, _, after = rest.partition(END)
    return f"{before}{BEGIN}\n{table()}\n{END}{after}"


def outdated() -> list[str]:
    """Files that no longer say what the source is."""
    fresh = {DRAWING: svg(), TEXT: text()}
    return [path.name for path, content in fresh.items() if path.read_text(encoding="utf-8") != content]


def main(arguments: Sequence[str]) -> int:
    """Writes both, or with --check says which are out of date."""
    if "--check" in arguments:
        stale = outdated()
        print("\n".join(f"{name} is out of date: run `make rooms`" for name in stale), end="\n" if stale else "")
        return 1 if stale else 0
    DRAWING.write_text(svg(), encoding="utf-8")
    TEXT.write_text(text(), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
