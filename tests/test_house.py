"""The house itself: rooms, modules, functions and names stay as small and as clear as they were meant to be."""

from __future__ import annotations

import ast
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path
from statistics import median

import pytest

ROOT = Path(__file__).parents[1]
HOUSE = ROOT / "src" / "fidpath"
TESTS = ROOT / "tests"

MOST_IN_THE_ROOT = 8
MOST_IN_A_PACKAGE = 16
LONGEST_MODULE = 400
LONGEST_FUNCTION = 45
MEDIAN_FUNCTION = 8

NO_ROOMS = {"validation", "docs", "benchmarks", "planning/golden", "any_rope"}
"""Folders of tests that mirror no room: published results, the documents, the benchmarks, stored plans, the tool that
makes the page for any rope."""

MODULES = {path: ast.parse(path.read_text(encoding="utf-8")) for path in sorted(HOUSE.rglob("*.py"))}
PACKAGES = [path.parent for path in MODULES if path.name == "__init__.py"]


def of(path: Path) -> str:
    """A place in the house as it is spoken of."""
    return path.relative_to(HOUSE).as_posix()


def lines_in(path: Path) -> int:
    return len(path.read_text(encoding="utf-8").splitlines())


def functions() -> Iterator[tuple[str, int]]:
    """Every function's place and its lines, from its `def` to its end."""
    for path, tree in MODULES.items():
        for node in ast.walk(tree):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                yield f"{of(path)}:{node.name}", (node.end_lineno or node.lineno) - node.lineno + 1


def test_the_root_holds_few_modules() -> None:
    assert len(list(HOUSE.glob("*.py"))) <= MOST_IN_THE_ROOT


@pytest.mark.parametrize("package", PACKAGES, ids=of)
def test_a_package_holds_few_modules_and_says_what_it_is(package: Path) -> None:
    assert len([path for path in package.glob("*.py") if path.name != "__init__.py"]) <= MOST_IN_A_PACKAGE
    words = ast.get_docstring(MODULES[package / "__init__.py"]) or ""
    assert 2 <= len(words.splitlines()) <= 6, words


def test_no_module_is_long() -> None:
    assert [of(path) for path in MODULES if lines_in(path) > LONGEST_MODULE] == []


def test_functions_are_short() -> None:
    assert median(length for _, length in functions()) <= MEDIAN_FUNCTION


def test_no_function_is_long() -> None:
    assert [place for place, length in functions() if length > LONGEST_FUNCTION] == []


def test_every_module_says_what_it_is_for() -> None:
    assert [of(path) for path, tree in MODULES.items() if not ast.get_docstring(tree)] == []


def test_a_class_name_means_one_thing() -> None:
    homes = defaultdict(list)
    for path, tree in MODULES.items():
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef):
                homes[node.name.lstrip("_")].append(of(path))
    assert {name: places for name, places in homes.items() if len(places) > 1} == {}


def test_no_test_file_is_long() -> None:
    assert [path.name for path in TESTS.rglob("*.py") if lines_in(path) > LONGEST_MODULE] == []


def test_folders_of_tests_are_named_for_rooms() -> None:
    rooms = {of(package) for package in PACKAGES} | NO_ROOMS
    folders = {path.parent.relative_to(TESTS) for path in TESTS.rglob("*.py")}
    assert {folder.as_posix() for folder in folders if folder.parts[:1] != ("support",)} - rooms == {"."} - rooms
    assert len(list((TESTS / "support").glob("*.py"))) <= MOST_IN_A_PACKAGE


ALONE = {"fidpath.machine.compiled", "fidpath.machine.doctor"}
"""Modules taken by themselves: numba is loaded with the one, and nothing but the command loads the other."""

ROOMS = {path.parent for path in HOUSE.glob("*/__init__.py")} | {
    path.parent for room in ("outputs", "viewing") for path in (HOUSE / room).glob("*/__init__.py")
}


def dotted(path: Path) -> str:
    """A module's or package's name as it is imported."""
    return ".".join(path.relative_to(HOUSE.parent).with_suffix("").parts).removesuffix(".__init__")


def room_of(name: str) -> str:
    """The room that a module belongs to; the root's modules belong to none."""
    names = sorted((dotted(room) for room in ROOMS), key=len, reverse=True)
    return next((room for room in names if name == room or name.startswith(f"{room}.")), "")


def taken() -> Iterator[tuple[str, str, str]]:
    """What modules take from other rooms: who, from which module or package, which name."""
    for path, tree in MODULES.items():
        own = room_of(dotted(path))
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom) and node.module and node.module not in ALONE:
                room = room_of(node.module)
                if room and room != own and not own.startswith(f"{room}."):
                    yield from ((dotted(path), node.module, alias.name) for alias in node.names)


def test_rooms_take_from_each_other_what_is_exported_and_nothing_past_it() -> None:
    rooms, modules = {dotted(room) for room in ROOMS} - {"fidpath.cli"}, {dotted(path) for path in MODULES}
    past = [(who, module, name) for who, module, name in taken() if module not in rooms and room_of(module) in rooms]
    registered = [each for each in past if not each[1].startswith("fidpath.outputs.registered")]
    assert [each for each in registered if f"{each[1]}.{each[2]}" not in modules] == []


def test_a_room_exports_no_more_than_others_take() -> None:
    modules, wanted = {dotted(path) for path in MODULES}, defaultdict(set)
    for _, module, name in taken():
        wanted[module].add(name)
    whole = {f"{module}.{name}" for module, names in wanted.items() for name in names} & modules
    for room in sorted(ROOMS):
        tree = MODULES[room / "__init__.py"]
        lists = [node.value for node in tree.body if isinstance(node, ast.Assign) and "__all__" in ast.dump(node)]
        own = {node.name for node in tree.body if isinstance(node, ast.FunctionDef | ast.ClassDef)}
        exported = set(ast.literal_eval(lists[0])) if lists else own
        assert dotted(room) in whole or exported - wanted[dotted(room)] == set(), dotted(room)
        assert {name for name in wanted[dotted(room)] - exported if f"{dotted(room)}.{name}" not in modules} == set()
