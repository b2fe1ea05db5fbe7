"""Every edge of every range that a job may take, alone and in pairs: as texts of job files, by a covering array."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations

from fidpath.job import LIMITS_D, LIMITS_MM, kinds
from fidpath.job.keys import Key

Value = str | int | float | None
Row = dict[str, Value]

USUAL: Row = {
    "rope.diameter": "10 mm",
    "rope.strands": 12,
    "rope.weave": "over-two",
    "rope.pitch": "7 d",
    "line.ends.splice": "locked-captive",
    "tools.fids": "8 mm",
}
"""What stands in a file whose other keys are left out."""


def _both(low: str, high: str) -> tuple[Value, ...]:
    return low, high


def _mm(key: str) -> tuple[Value, ...]:
    return tuple(f"{limit:g} mm" for limit in LIMITS_MM[key])


def _d(key: str) -> tuple[Value, ...]:
    return tuple(f"{limit:g} d" for limit in LIMITS_D[key])


LENGTHS: dict[str, tuple[Value, ...]] = {key: _mm(key) for key in LIMITS_MM} | {key: _d(key) for key in LIMITS_D}

OTHERS: dict[str, tuple[Value, ...]] = {
    "rope.strands": (4, 8, 16, 48),
    "rope.weave": ("over-one",),
    "rope.squeeze": (0.5, 1.0),
    "rope.crossings": (4, 20, 1000),
    "rope.strength": _both("1 N", "100000 kN"),
    "rope.stretch": (0.0, 0.6),
    "rope.stretch_tension": _both("1 N", "100000 kN"),
    "rope.bedding_in": (0.0, 0.6),
    "rope.loaded_strain": (0.0, 0.2),
    "rope.friction": (0.0, 0.5),
    "rope.linear_density": _both("0.05 g/m", "100000 g/m"),
    "rope.temperature_limit": _both("-60 degC", "300 degC"),
    "line.tension": _both("0.1 N", "10000 kN"),
    "line.confidence": (0.5, 0.999),
    "line.ends.splice": ("plain", "locked-free"),
    "practice.taper_share": (0, 0.02, 1.0),
    "practice.taper_drops": (0, 1),
    "practice.set_load": _both("1 N", "100000 kN"),
    "practice.set_time": _both("1 s", "30 day"),
    "practice.throat_angle": _both("5 deg", "119 deg"),
    "practice.post_stretch": (0.0, 0.3),
    "practice.reference_tension": _both("0.1 N", "10000 kN"),
    "practice.lock_stitch.stitches": (1, 200),
    "print.scale": (2.0, 5.0),
}
"""Edges of what is no length, as docs/made_pages.py lists them for the reference; the tests hold the two together."""

MORE: dict[str, tuple[Value, ...]] = {
    "rope.pitch": ("5 d", "9.7 d", "unknown"),
    "line.ends.eye_length": ("120 mm", "2000 d"),
    "practice.hole_gap": ("3 d",),
}
"""Values inside a range at which something else begins."""

EDGES: dict[str, tuple[Value, ...]] = {
    key: (*(LENGTHS | OTHERS)[key], *MORE.get(key, ())) for key in (*LENGTHS, *OTHERS)
}
"""Every edge by its key; a key's own in the file's first end where it is one of `line.ends`."""

BODIES: dict[str, tuple[Value, ...]] = {
    f"terminator.{word}.{name}": tuple(_written(key, limit) for limit in key.limits)
    for word, kind in kinds().items()
    for name, key in kind.keys().items()
    if key.limits is not None
    for _written in [lambda key, limit: round(limit) if isinstance(key.example, int) else f"{limit:g} mm"]
}
"""Every edge of every kind of terminator."""


def alone() -> Iterator[Row]:
    """Each edge with all else as usual."""
    for key, values in (EDGES | BODIES).items():
        yield from ({key: value} for value in values)


LEFT = None
"""The level of a key that isn't at an edge."""


def covering(edges: Mapping[str, tuple[Value, ...]] = EDGES) -> list[Row]:
    """Rows in which any two edges of different keys stand together at least once, by greedy choice."""
    levels = {key: (*values, LEFT) for key, values in edges.items()}
    missing = {(one, a, other, b) for one, other in combinations(levels, 2) for a in edges[one] for b in edges[other]}
    rows = []
    while missing:
        row = _row(levels, missing)
        missing -= set(_pairs(row))
        rows.append({key: value for key, value in row.items() if value is not LEFT})
    return rows


Pair = tuple[str, Value, str, Value]


def _row(levels: Mapping[str, tuple[Value, ...]], missing: set[Pair]) -> Row:
    """A row that holds a missing pair and, key by key, whatever value brings most others."""
    one, a, other, b = min(missing, key=str)
    row: Row = {one: a, other: b}
    for key, values in levels.items():
        if key not in row:
            row[key] = max(values, key=lambda value: sum(pair in missing for pair in _with(row, key, value, levels)))
    return {key: row[key] for key in levels}


def _with(row: Row, key: str, value: Value, levels: Mapping[str, tuple[Value, ...]]) -> Iterator[Pair]:
    order = list(levels)
    for known, found in row.items():
        first, second = sorted(((known, found), (key, value)), key=lambda each: order.index(each[0]))
        yield (*first, *second)


def _pairs(row: Row) -> Iterator[Pair]:
    for (one, a), (other, b) in combinations(row.items(), 2):
        yield one, a, other, b


def text_of(row: Row) -> str:
    """A job file with these values at their edges. What sits in the eye and the fids go with the rope's diameter."""
    values: Row = {**USUAL, **row}
    d = float(str(values["rope.diameter"]).partition(" ")[0])
    if "tools.fids" not in row:
        values["tools.fids"] = f"{0.8 * d:.4g} mm"
    _complete(values, row)
    rows: dict[str, list[str]] = {name: [] for name in ("rope", "line", "tools", "practice", "print", "end")}
    for path, value in values.items():
        table, key = _place(path)
        if value is not None and table is not None:
            rows[table].append(f"{key} = {_toml(path, value)}")
    adjuster = (
        'adjuster = { kind = "lashing", '
        + ", ".join(f'{side} = "{values.get(f"line.adjuster.{side}", "60 mm")}"' for side in ("shorten", "lengthen"))
        + " }"
    )
    if any(path.startswith("line.adjuster") for path in row):
        rows["line"].append(adjuster)
    body = _body(row, d)
    return "\n".join(
        ["schema = 1", 'name = "edge"', "[rope]", *rows["rope"], "[terminator]", *body, "[tools]", *rows["tools"]]
        + [
            "[practice]",
            *rows["practice"],
            "[print]",
            *rows["print"],
            "[line]",
            'captive_end = "made off"',
            *rows["line"],
        ]
        + ["[[line.ends]]", *rows["end"], *_second_end(row), ""]
    )


def _complete(values: Row, row: Row) -> None:
    """Keys that others need beside them."""
    if "rope.crossings" in row or "rope.over" in row:
        values |= {"rope.crossings": row.get("rope.crossings", 20), "rope.over": row.get("rope.over", "233 mm")}
        values["rope.pitch"] = None
    stitches = {key.rpartition(".")[2]: row[key] for key in row if key.startswith("practice.lock_stitch.")}
    if stitches:
        given = {"stitches": 7} | stitches
        values["practice.lock_stitch"] = "{ " + ", ".join(f"{k} = {_quoted(v)}" for k, v in given.items()) + " }"
    if "rope.stretch" in row and "rope.stretch_tension" not in row:
        values["rope.stretch_tension"] = "20 kN"


def _place(path: str) -> tuple[str | None, str]:
    """The table and the key of a path; none for what is written elsewhere."""
    table, _, key = path.rpartition(".")
    if path.startswith(("terminator", "line.adjuster", "practice.lock_stitch.")) or key == "fitting_length":
        return None, key
    return ("end" if table == "line.ends" else table), key


def _toml(path: str, value: Value) -> str:
    """A value as the file has it."""
    if path in ("tools.fids", "rope.friction"):
        return f"[{_quoted(value)}]"
    if path == "print.bed":
        return f"[{', '.join([_quoted(value)] * 3)}]"
    return str(value) if path == "practice.lock_stitch" else _quoted(value)


def _quoted(value: Value) -> str:
    return f'"{value}"' if isinstance(value, str) else str(value)


def _body(row: Row, d: float) -> list[str]:
    """The terminator's table: a pin, or the kind whose edge stands in the row; its sizes go with the rope."""
    found = next((key.split(".") for key in row if key.startswith("terminator.")), ["terminator", "pin", ""])
    word = found[1]
    lines = [f'kind = "{word}"']
    for name, key in kinds()[word].keys().items():
        if name == "name" or (key.left_out and name != found[2]):
            continue
        at_edge = row.get(f"terminator.{word}.{name}")
        lines.append(f"{name} = {_quoted(at_edge if at_edge is not None else _sized(key, d))}")
    return lines


def _sized(key: Key, d: float) -> Value:
    """A key's example, in proportion to the rope: examples are for rope of 10 mm."""
    if isinstance(key.example, int) or not key.example.endswith(" mm"):
        return key.example
    return f"{float(key.example.removesuffix(' mm')) * d / 10:.5g} mm"


def _second_end(row: Row) -> list[str]:
    """A second end, where a whole line or a made-up fitting is spoken of."""
    if "line.ends.fitting_length" in row:
        fitting = row["line.ends.fitting_length"]
        return ["[[line.ends]]", 'name = "other"', 'splice = "fitting"', f'fitting_length = "{fitting}"']
    whole = ("line.finished_length", "line.tension", "line.adjuster.shorten", "line.adjuster.lengthen")
    return ["[[line.ends]]", 'name = "other"', 'splice = "plain"'] if any(key in row for key in whole) else []
