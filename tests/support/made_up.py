"""Two outputs that fidpath doesn't have: words of the method's, and a book of them; both cost next to nothing."""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from pathlib import Path

from fidpath.errors import CannotBeMade
from fidpath.outputs.registry import Context, Item, Output, Product, Request, Turn


def make_word(context: Context, item: str) -> Product:
    """One step's number and caption."""
    step = context.request.method.steps[int(item)]
    return Product({f"words/{item}.txt": step.caption.encode()}, {"number": step.number})


def make_book(context: Context, _item: str) -> Product:
    """All captions with their numbers, read from the files of the words."""
    words = context.results["words"]
    lines = [f"{word.data['number']} {word.read(f'words/{item}.txt').decode()}\n" for item, word in words.items()]
    return Product({"book.txt": "".join(lines).encode()})


def make_draft(_context: Context, _item: str) -> Product:
    """What stands in the place of the book until that is there."""
    return Product({"book.txt": b"a draft"})


def make_nothing(_context: Context, _item: str) -> Product:
    """Ends a build as a fault of ours would."""
    raise ZeroDivisionError


def make_refusal(_context: Context, _item: str) -> Product:
    """A check that fails, after what may be made before it has been made, and all else would have had its turn."""
    until = time.monotonic() + 60.0
    while time.monotonic() < until and not (Path(os.environ["FIDPATH_TEST_MARKS"]) / "other").exists():
        time.sleep(0.05)
    time.sleep(0.5)
    raise CannotBeMade("it misses its bounds")


def make_mark(_context: Context, item: str) -> Product:
    """Leaves a mark that it was begun, beside any results."""
    (Path(os.environ["FIDPATH_TEST_MARKS"]) / item).touch()
    return Product({f"{item}.txt": b"drawn"})


def shown_states(request: Request) -> Iterator[Item]:
    """One item that shows the finished splice, and one that shows another state."""
    yield Item("finished", states=(request.finished,))
    yield Item("other", states=("wrapped",))


def first_steps(request: Request) -> Iterator[Item]:
    """One item for each of the first three steps."""
    for index, step in enumerate(request.method.steps[:3]):
        yield Item(str(index), (step.number, step.caption))


WORDS = Output("words", "words of the first steps", ("words/{}.txt",), make_word, first_steps)
MARKS = Output("marks", "marks of what was begun", ("{}.txt",), make_mark, shown_states)
BOOK = Output("book", "a book of those words", ("book.txt",), make_book, needs=("words",))
DRAFT = Output("draft", "a draft of the book", ("book.txt",), make_draft, turn=Turn.FINISHED, replaced=True)


def stamps(out: Path) -> dict[str, int]:
    """When each file of a folder was written, the list of names apart."""
    files = [path for path in out.rglob("*") if path.is_file() and path.name != "names"]
    return {path.relative_to(out).as_posix(): path.stat().st_mtime_ns for path in files}
