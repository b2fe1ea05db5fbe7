"""A loop that several processes want at once is compiled by one of them; the others load what it made."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

MODULE = """
from fidpath.machine.compiled import jit

@jit
def inner(x):
    return x * 2.0

@jit
def outer(x):
    total = 0.0
    for k in range(10):
        total += inner(x + k)
    return total
"""

RUN = """
import sys
import loops
print("ready", flush=True)
sys.stdin.readline()
assert loops.outer(1.0) == 110.0
made = [sum(one.stats.cache_misses.values()) for one in (loops.inner, loops.outer) if hasattr(one, "stats")]
print(sum(made))
"""


def run(folder: Path, count: int, **more: str) -> list[int]:
    """How many functions each of so many processes compiled, begun at once."""
    (folder / "loops.py").write_text(MODULE, encoding="utf-8")
    path = os.pathsep.join(filter(None, (str(folder), os.environ.get("PYTHONPATH"))))
    env = {**os.environ, "PYTHONPATH": path, "NUMBA_CACHE_DIR": str(folder / "cache"), **more}
    pipe = subprocess.PIPE
    running = [
        subprocess.Popen([sys.executable, "-c", RUN], env=env, stdin=pipe, stdout=pipe, text=True) for _ in range(count)
    ]
    for one in running:
        assert one.stdout is not None and one.stdout.readline() == "ready\n"
    return [int(one.communicate()[0]) for one in _released(running)]


def _released(running: list[subprocess.Popen[str]]) -> list[subprocess.Popen[str]]:
    for one in running:
        assert one.stdin is not None
        one.stdin.write("\n")
        one.stdin.flush()
    return running


def test_each_function_is_compiled_once_however_many_want_it(tmp_path: Path) -> None:
    assert sum(run(tmp_path, 3)) == 2
    assert run(tmp_path, 1) == [0]


def test_a_lock_that_cannot_be_had_stops_nobody(tmp_path: Path) -> None:
    for name in ("inner", "outer"):
        (tmp_path / "cache" / f"loops.{name}.lock").mkdir(parents=True)
    assert run(tmp_path, 1) == [2]


def test_uncompiled_functions_are_left_as_they_are(tmp_path: Path) -> None:
    assert run(tmp_path, 1, NUMBA_DISABLE_JIT="1") == [0]
    assert not list((tmp_path / "cache").glob("*.lock"))


UNCALLED = """
import sys
from fidpath import building
from fidpath.outputs import jigs, motion, page, pictures
from fidpath.outputs.lineart import line_drawing
from fidpath.outputs.registered import all_outputs
assert all_outputs()
print("numba" in sys.modules)
from fidpath.machine.compiled import as_written, jit

@jit
def double(x):
    return 2 * x

print(as_written(double)(2), "numba" in sys.modules, double(4), "numba" in sys.modules)
"""


def test_numba_is_loaded_when_a_loop_is_called_and_not_before(tmp_path: Path) -> None:
    (tmp_path / "uncalled.py").write_text(UNCALLED, encoding="utf-8")
    env = {**os.environ, "NUMBA_CACHE_DIR": str(tmp_path / "cache")}
    run = [sys.executable, str(tmp_path / "uncalled.py")]
    done = subprocess.run(run, env=env, capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "4", "False", "8", "True"]


def test_a_constant_or_a_loop_changed_in_another_file_is_compiled_in_anew(tmp_path: Path) -> None:
    """The file of the function that is called stays as it is."""
    shared = "from fidpath.machine.compiled import jit\nSIZE = {size}\n@jit\ndef part(x):\n    return x * {by}\n"
    caller = "from fidpath.machine.compiled import jit\nfrom other import SIZE, part\n"
    caller += "@jit\ndef whole(x):\n    return part(x) + SIZE\n"
    (tmp_path / "caller.py").write_text(caller, encoding="utf-8")
    path = os.pathsep.join(filter(None, (str(tmp_path), os.environ.get("PYTHONPATH"))))
    env = {**os.environ, "PYTHONPATH": path, "NUMBA_CACHE_DIR": str(tmp_path / "cache")}
    env["PYTHONDONTWRITEBYTECODE"] = "1"  # it would be kept by the second and the size of the file
    found = []
    for size, by in ((1, 2), (5, 2), (5, 3)):
        (tmp_path / "other.py").write_text(shared.format(size=size, by=by), encoding="utf-8")
        run = subprocess.run(  # noqa: PLW1510
            [sys.executable, "-c", "import caller; print(caller.whole(10))"], env=env, capture_output=True, text=True
        )
        found.append(int(run.stdout))
    assert found == [21, 25, 35]


def test_a_part_runs_in_compiled_loops_and_as_it_was_written_from_python(tmp_path: Path) -> None:
    """numba's own function without what Python calls it by would end the process."""
    parted = MODULE.replace("import jit", "import jit, jit_part").replace("@jit\ndef inner", "@jit_part\ndef inner")
    (tmp_path / "parted.py").write_text(parted, encoding="utf-8")
    path = os.pathsep.join(filter(None, (str(tmp_path), os.environ.get("PYTHONPATH"))))
    env = {**os.environ, "PYTHONPATH": path, "NUMBA_CACHE_DIR": str(tmp_path / "cache")}
    program = "import parted; print(parted.inner(4.0), parted.outer(1.0))"
    done = subprocess.run([sys.executable, "-c", program], env=env, capture_output=True, text=True, check=False)
    assert done.stdout == "8.0 110.0\n"
