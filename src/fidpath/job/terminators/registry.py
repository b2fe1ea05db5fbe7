"""The registry of terminators: every kind with its table, its check and its body. The kinds are the modules beside it.

All that depends on a kind reads it here: the schema, the check, a new job file, the form, the reference, messages.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules
from typing import Annotated, Any, TypeVar, Union, get_args

from pydantic import Field, TypeAdapter

from fidpath.job.bearing_body import Body
from fidpath.job.job import Terminator
from fidpath.job.keys import Key, Table, key_of

OwnTable = TypeVar("OwnTable", bound=Table)


@dataclass(frozen=True)
class TerminatorKind:
    """One kind: its table, what lists call it, a note on what it is, and what makes a checked body of a table.

    `body` takes the table and the rope's diameter in mm and raises KeyedError where the two can't go together.
    """

    table: type[Table]
    label: str
    note: str
    body: Callable[[Any, float], Body]

    @property
    def word(self) -> str:
        """What `kind` holds in the file."""
        word: str = get_args(self.table.model_fields["kind"].annotation)[0]
        return word

    def keys(self) -> dict[str, Key]:
        """The keys of its table but `kind`, and what is said of them, in order."""
        return {name: key_of(self.table, name) for name in self.table.model_fields if name != "kind"}


_registry: dict[str, TerminatorKind] = {}


def register(
    table: type[OwnTable], *, label: str, note: str
) -> Callable[[Callable[[OwnTable, float], Body]], Callable[[OwnTable, float], Body]]:
    """Registers the decorated function as what makes a body of this table. Raises ValueError where its word is taken.

    A kind's table has `kind`, one literal word, and `name`; every other key has a `Key` among its annotations.
    """

    def registered(body: Callable[[OwnTable, float], Body]) -> Callable[[OwnTable, float], Body]:
        kind = TerminatorKind(table, label, note, body)
        if kind.word in _registry:
            raise ValueError(f'there is a terminator of kind "{kind.word}" already')
        kind.keys()
        _registry[kind.word] = kind
        return body

    return registered


def unregister(word: str) -> None:
    """Takes a kind out again."""
    del _registry[word]


def kinds() -> dict[str, TerminatorKind]:
    """Every kind by its word, in the order of the alphabet."""
    for name in _modules():
        import_module(f"{__package__}.{name}")
    return dict(sorted(_registry.items()))


@lru_cache(maxsize=1)
def _modules() -> frozenset[str]:
    """The modules beside this one."""
    return frozenset(module.name for module in iter_modules([str(Path(__file__).parent)]))


def kind_of(word: str) -> TerminatorKind | None:
    """The kind of this word, if there is one. Its module is looked for under its own name before all are loaded."""
    if word not in _registry and word in _modules():
        import_module(f"{__package__}.{word}")
    found = _registry.get(word)
    return kinds().get(word) if found is None else found


def terminator_of(table: Table, d: float) -> Terminator:
    """What sits in an eye of rope `d` mm thick, from its table, checked as far as the file alone can tell.

    Raises KeyedError with a path that begins at "terminator".
    """
    given: Any = table
    kind = kind_of(given.kind)
    assert kind is not None, f"no terminator is of kind {given.kind}"
    return Terminator(given.kind, given.name, kind.body(table, d))


def validated(value: object) -> Table:
    """A terminator's table, by the kind it names. Raises pydantic's ValidationError."""
    word = value.get("kind") if isinstance(value, dict) else None
    kind = kind_of(word) if isinstance(word, str) else None
    if kind is not None:
        return kind.table.model_validate(value)
    return _union(tuple(kind.table for kind in kinds().values())).validate_python(value)


@lru_cache(maxsize=8)
def _union(tables: tuple[type[Table], ...]) -> TypeAdapter[Table]:
    """What tells the tables apart by their kind."""
    choice: Any = Annotated[Union[tables], Field(discriminator="kind")]  # noqa: UP007
    return TypeAdapter(choice)


def keys_by_name() -> dict[str, tuple[Key, tuple[str, ...]]]:
    """Every key of any kind but `kind` and `name`, once: what is said of it, and the words of the kinds that have it.

    Keys of one name mean the same in every kind that has them, as far as a form is concerned.
    """
    keys: dict[str, tuple[Key, tuple[str, ...]]] = {}
    for word, kind in kinds().items():
        for name, key in kind.keys().items():
            if name != "name":
                first, words = keys.get(name, (key, ()))
                keys[name] = (first, (*words, word))
    return keys
