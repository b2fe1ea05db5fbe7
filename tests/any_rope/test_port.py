"""The pass over the syntax tree: what it writes runs as the original does, and what it can't say it refuses."""

from __future__ import annotations

import sys
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

import page_python
from port import CannotPort, Settings, ported

STAND_INS = Path(page_python.__file__).parent / "stand_ins"


def a_port(text: str, kernels: frozenset[str] = frozenset()) -> str:
    return ported("some.module", text, Settings(page_python.home, kernels, {"numpy": {"array", "cumsum", "sqrt"}}))


def run(text: str, monkeypatch: pytest.MonkeyPatch, **given: Any) -> dict[str, Any]:
    """What a text defines once it is ported, run with the dataclasses of the page."""
    fake = ModuleType("dataclasses")
    exec((STAND_INS / "dataclasses.py").read_text(encoding="utf-8"), fake.__dict__)
    said = ModuleType("ported")
    said.__dict__.update(
        text=format, rounded=round, divided=divmod, isprintable=str.isprintable, removeprefix=str.removeprefix
    )
    for name, module in (("dataclasses", fake), ("ported", said)):
        monkeypatch.setitem(sys.modules, name, module)
    found: dict[str, Any] = dict(given)
    exec(a_port(text), found)
    return found


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("match 1:\n    case 1:\n        pass", "MicroPython has no Match"),
        ("def f(a):\n    b = a[1:]\n    b[0] = 1", "b is part of another array, and is written to"),
        ("def f(a):\n    b = a.ravel()\n    b += 1", "b is part of another array, and is written to"),
        ("async def f():\n    pass", "MicroPython has no AsyncFunctionDef"),
        ("import numpy as np\nnp.kron(1, 2)", "the page's numpy has no kron"),
        ("from numpy import kron\nkron(1, 2)", "the page's numpy has no kron"),
        ("x = f(a, out=b[1:]).mean()", "`out` that is not a name"),
        ("from dataclasses import dataclass\n@dataclass\nclass A(B):\n    x: int", "a dataclass with a base"),
    ],
)
def test_what_cannot_be_ported_is_refused_with_its_place(text: str, what: str) -> None:
    with pytest.raises(CannotPort, match=rf"some\.module:\d+: {what}"):
        a_port(text)


def test_dataclasses_keep_their_defaults_their_order_and_what_counts_when_compared(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    found = run(
        """
from dataclasses import dataclass, field, replace
@dataclass(frozen=True)
class Rope:
    "A rope."
    size: float
    names: tuple[str, ...] = ()
    kept: dict[str, int] = field(default_factory=dict, compare=False)
    @property
    def twice(self) -> float:
        "Twice."
        return 2 * self.size
one = Rope(3.0, kept={"a": 1})
other = replace(one, kept={}, size=one.size)
""",
        monkeypatch,
    )
    one, other, rope = found["one"], found["other"], found["Rope"]
    assert one == other and hash(one) == hash(other) and one != rope(4.0)
    assert (one.twice, one.names, one.kept, rope(1.0).kept) == (6.0, (), {"a": 1}, {})
    assert rope(1.0).kept is not rope(1.0).kept


def test_named_tuples_unpack_and_are_replaced(monkeypatch: pytest.MonkeyPatch) -> None:
    text = "from typing import NamedTuple\nclass Pair(NamedTuple):\n    a: int\n    b: int = 2\np = Pair(1)\nx, y = p\n"
    found = run(text + "q = p._replace(b=5)[1]", monkeypatch)
    assert (found["x"], found["y"], found["q"]) == (1, 2, 5)


def test_displays_texts_and_slices_say_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    text = """
def f(a, /, *, b=()):
    return [*a, 1, *b], (*a, 2), {**{"x": 1}, "y": 2, **{"x": 3}}
lists = f([0], b=[7])
words = f"{3.14159:.2f} of {'it'!r}{{}}"
part = [1, 2, 3][slice(1, None)]
kind = isinstance(1, int | float)
name = "rope.pitch".removeprefix("rope.")
"""
    found = run(text, monkeypatch)
    assert found["lists"] == ([0, 1, 7], (0, 2), {"x": 3, "y": 2})
    assert found["words"] == "3.14 of 'it'{}"
    assert (found["part"], found["kind"], found["name"]) == ([2, 3], True, "pitch")


def test_results_put_into_arrays_are_assigned() -> None:
    made = a_port("import numpy as np\nnp.cumsum(a, out=b[1:, 0])\nx = np.sqrt(a, out=a).mean()")
    assert "b[1:, 0] = np.cumsum(a)" in made and "(a := np.sqrt(a)).mean()" in made


def test_compiled_loops_are_the_pages_or_go() -> None:
    loops = "\n".join(f"@jit\ndef {name}(x):\n    return x" for name in ("sweeps", "inner"))
    made = a_port(f"from fidpath.machine.compiled import jit\n{loops}", frozenset({"sweeps"}))
    assert "def sweeps(*given)" in made and "inner" not in made and "jit" not in made


def test_types_and_their_imports_go() -> None:
    made = a_port("from typing import Any\nfrom fidpath.arrays import Floats\nX = tuple[Floats, ...]\ny: Any = 1")
    assert made.strip() == "y = 1"


def test_every_module_of_the_page_is_ported() -> None:
    """Where this fails, the module named says something that MicroPython can't: say it otherwise, or teach the pass."""
    files = page_python.files()
    assert {"fidpath/planning/planner.py", "fidpath/settling/solver.py", "fidpath/states/kinds.py"} <= set(files)
    for path, text in files.items():
        compile(text, path, "exec")
    assert not any("pydantic" in text for path, text in files.items() if path.startswith("fidpath/"))
