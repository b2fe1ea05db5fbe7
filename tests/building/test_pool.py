"""The pool hands out as many tasks as it has processes, the lowest rank first, whenever it was added."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Event

import pytest

from fidpath.building import worker
from fidpath.building.pool import PROCESS_MB, WorkerPool, process_count
from fidpath.building.tasks import Task
from fidpath.outputs import Context, Item, Output, Product, Result, Turn

gate = Event()
begun: list[str] = []


def make(_context: Context, item: str) -> Product:
    """Waits for the gate, and notes its turn."""
    begun.append(item)
    gate.wait(10)
    if item == "bad":
        raise ValueError(item)
    return Product({item: b""})


def task(name: str, turn: Turn, seconds: float = 1.0) -> Task:
    output = Output(name, "", (), make, turn=turn, seconds=seconds)
    return Task(output, Item(name), "", shows_finished=False)


@pytest.fixture
def pool(monkeypatch: pytest.MonkeyPatch) -> Iterator[WorkerPool]:
    monkeypatch.setattr(worker, "_contexts", [None])
    gate.clear()
    begun.clear()
    with ThreadPoolExecutor(2) as threads:
        yield WorkerPool(threads, 1)
        gate.set()


def test_what_is_added_later_comes_first_if_its_rank_is_lower(pool: WorkerPool) -> None:
    pool.begin([task("rest", Turn.REST), task("long", Turn.REST, 5.0), task("state", Turn.STATES)])
    pool.begin([task("late", Turn.FINISHED), task("state", Turn.STATES)])
    gate.set()
    done = [pool.next_done()[0].item.name for _ in range(4)]
    assert done == begun == ["state", "late", "long", "rest"]


def test_no_more_are_begun_than_there_are_processes(pool: WorkerPool) -> None:
    pool.begin([task("a", Turn.STATES), task("b", Turn.STATES), task("c", Turn.STATES)])
    assert begun == ["a"]
    pool.close()
    gate.set()
    assert pool.next_done()[1].files == {"a": b""}
    assert begun == ["a"]


def test_what_a_task_fails_with_is_raised_and_the_rest_goes_on(pool: WorkerPool) -> None:
    pool.begin([task("bad", Turn.STATES), task("good", Turn.REST)])
    gate.set()
    with pytest.raises(ValueError, match="bad"):
        pool.next_done()
    assert pool.next_done()[0].item.name == "good"


def test_where_the_processes_are_gone_every_task_says_so(pool: WorkerPool) -> None:
    gate.set()
    pool._executor.shutdown()
    pool.begin([task("a", Turn.STATES), task("b", Turn.STATES)])
    for _ in range(2):
        with pytest.raises(RuntimeError, match="shutdown"):
            pool.next_done()


@pytest.mark.parametrize(
    ("cores", "memory_mb", "processes"),
    [(1, 64e3, 1), (2, 64e3, 2), (8, 64e3, 8), (64, 64e3, 16), (8, 3.5 * PROCESS_MB, 3), (8, 10.0, 1), (4, 0.0, 4)],
)
def test_there_is_a_process_a_core_as_far_as_memory_allows(
    monkeypatch: pytest.MonkeyPatch, cores: int, memory_mb: float, processes: int
) -> None:
    monkeypatch.setattr("fidpath.building.pool.core_count", lambda: cores)
    monkeypatch.setattr("fidpath.building.pool.free_memory_mb", lambda: memory_mb)
    assert process_count() == processes


def told(context: Context, _item: str) -> Product:
    """Says what was made before."""
    return Product({}, {"before": context.earlier and context.earlier.data})


@pytest.mark.parametrize(("rewords", "before"), [(True, {"x": 1}), (False, None)])
def test_what_was_made_before_goes_to_the_outputs_that_ask_for_it(
    monkeypatch: pytest.MonkeyPatch, rewords: bool, before: dict[str, int] | None
) -> None:
    monkeypatch.setattr(worker, "_contexts", [Context(None, lambda _kind: None)])
    asked: list[str] = []
    with ThreadPoolExecutor(1) as threads:
        pool = WorkerPool(threads, 1, lambda name: asked.append(name) or Result(Path(), {}, {"x": 1}, ""))
        pool.begin([Task(Output("words", "", (), told, rewords=rewords), Item("a"), "", shows_finished=False)])
        assert pool.next_done()[1].data == {"before": before}
    assert asked == ["words.a"] * rewords
