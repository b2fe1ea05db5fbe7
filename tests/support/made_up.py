"""Two outputs that fidpath doesn't have: words of the method's, and a book of them; both cost next to nothing."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from fidpath.outputs.registry import Context, Item, Output, Product, Request


def make_word(context: Context, item: str) -> Product:
    """One step's number and caption."""
    step = context.request.method.steps[int(item)]
    return Product({f"words/{item}.txt": step.caption.encode()}, {"number": step.number})


def make_book(context: Context, _item: str) -> Product:
    """All captions with their numbers, read from the files of the words."""
    words = context.results["words"]
    lines = [f"{word.data['number']} {word.read(f'words/{item}.txt').decode()}\n" for item, word in words.items()]
    return Product({"book.txt": "".join(lines).encode()})


def first_steps(request: Request) -> Iterator[Item]:
    """One item for each of the first three steps."""
    for index, step in enumerate(request.method.steps[:3]):
        yield Item(str(index), (step.number, step.caption))


WORDS = Output("words", "words of the first steps", ("words/{}.txt",), make_word, first_steps)
BOOK = Output("book", "a book of those words", ("book.txt",), make_book, needs=("words",))


def stamps(out: Path) -> dict[str, int]:
    """When each file of a folder was written, the list of names apart."""
    files = [path for path in out.rglob("*") if path.is_file() and path.name != "names"]
    return {path.relative_to(out).as_posix(): path.stat().st_mtime_ns for path in files}
