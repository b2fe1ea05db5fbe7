"""What a build may use of the machine, and that its processes compute with one thread each."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from fidpath.building.pool import worker_pool
from fidpath.building.request import request_for
from fidpath.machine.resources import BLAS_THREADS, OBJECTS, core_count, free_memory_mb, memory_mb, one_blas_thread
from jobs import a_job

PRINTED = """
import os, sys
from fidpath.cli import main as cli
assert "numpy" not in sys.modules
cli.app = lambda **_: print(os.environ["OPENBLAS_NUM_THREADS"])
cli.main([])
"""


def test_one_thread_inside_and_the_users_setting_stands(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in BLAS_THREADS:
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("OMP_NUM_THREADS", "3")
    with one_blas_thread():
        assert [os.environ[name] for name in BLAS_THREADS] == ["1", "3", "1", "1"]
    assert [os.environ.get(name) for name in BLAS_THREADS] == [None, "3", None, None]


def test_the_processes_of_a_build_have_one_thread(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in BLAS_THREADS:
        monkeypatch.delenv(name, raising=False)
    with worker_pool(request_for(a_job())) as pool:
        assert pool.submit(os.getenv, "OPENBLAS_NUM_THREADS").result() == "1"
    assert "OPENBLAS_NUM_THREADS" not in os.environ


def test_the_command_line_sets_it_before_numpy_is_loaded() -> None:
    bare = {name: value for name, value in os.environ.items() if name not in BLAS_THREADS}
    for env, said in ((bare, "1"), ({**bare, "OPENBLAS_NUM_THREADS": "2"}, "2")):
        done = subprocess.run([sys.executable, "-c", PRINTED], env=env, capture_output=True, text=True, check=True)
        assert done.stdout.strip() == said


def test_cores_and_memory_are_told() -> None:
    assert 1 <= core_count() <= (os.cpu_count() or 1)
    assert 0 < free_memory_mb() <= memory_mb()


def test_the_cores_are_those_this_process_may_use(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "sched_getaffinity", lambda _process: {3}, raising=False)
    assert core_count() == 1


COMMANDED = """
import gc, os
from fidpath.cli.main import main
main(["--version"])
print(gc.get_threshold()[0], os.environ["PYDANTIC_DISABLE_PLUGINS"])
gc.callbacks.append(lambda phase, about: os.write(1, b"looked for rubbish: %d\\n" % len(gc.get_objects())))
"""


def test_a_command_looks_for_rubbish_seldom_and_for_no_plugins_unless_it_is_asked_to() -> None:
    bare = {name: value for name, value in os.environ.items() if name != "PYDANTIC_DISABLE_PLUGINS"}
    for env, said in ((bare, "__all__"), ({**bare, "PYDANTIC_DISABLE_PLUGINS": "one"}, "one")):
        done = subprocess.run([sys.executable, "-c", COMMANDED], env=env, capture_output=True, text=True, check=True)
        last = done.stdout.splitlines()[1:]
        assert last[0] == f"{OBJECTS} {said}"
        assert all(int(line.rpartition(" ")[2]) < 5000 for line in last[1:])
