"""A module of the program -> the same module in the Python that MicroPython runs.

Annotations, docstrings and what is there for types alone go; dataclasses and named tuples are written out; what
MicroPython's grammar or its built-in functions lack is said otherwise. Raises CannotPort where that can't be done.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

TYPING = {"__future__", "typing", "collections.abc", "numpy.typing"}
"""Modules for types alone."""

TYPES = {"NDArray", "Literal", "Callable", "tuple", "list", "dict", "Mapping", "Sequence", "type", "Iterable"}
"""What is subscripted to make a type."""

DROPPED_BASES = {"IntEnum", "Protocol"}
LACKING = (ast.Match, ast.AsyncFunctionDef, ast.AsyncFor, ast.AsyncWith, ast.Await)
"""Grammar that MicroPython lacks and this module doesn't say otherwise."""

METHODS = {"isprintable", "ljust", "rjust", "removeprefix", "removesuffix", "capitalize"}
"""Methods of text that MicroPython lacks: called as functions of `ported`."""

FUNCTIONS = {"divmod": "divided", "round": "rounded"}
"""Built-in functions that have others in their place."""

JIT = {"jit", "jit_part"}


VIEWS = {"ravel", "reshape", "moveaxis", "broadcast_to"}
"""Functions and methods whose results share memory in numpy. The page's arrays share none."""


class CannotPort(Exception):
    """Something that the page's Python has no way to say: where, and what."""


class Settings(NamedTuple):
    """home: the module that defines a name which another exports, None where the name is a module. kernels: compiled
    functions that the page has. known: names that each stand-in defines."""

    home: Callable[[str, str], tuple[str, str | None]]
    kernels: frozenset[str]
    known: dict[str, set[str]]


def ported(name: str, text: str, settings: Settings) -> str:
    """The module's text."""
    porter = _Porter(name, settings)
    tree = ast.fix_missing_locations(porter.visit(ast.parse(text)))
    _drop_unused(tree)
    return "\n".join([*porter.helpers(), ast.unparse(tree)]) + "\n"


def _drop_unused(tree: ast.Module) -> None:
    """Takes out imports that nothing uses any more, types' among them."""
    used = {node.id for node in ast.walk(tree) if isinstance(node, ast.Name)}
    for holder in [node for node in ast.walk(tree) if isinstance(getattr(node, "body", None), list)]:
        kept = [node for node in holder.body if not _unused(node, used)]  # type: ignore[attr-defined]
        holder.body = kept or [ast.Pass()]  # type: ignore[attr-defined]


def _unused(node: ast.stmt, used: set[str]) -> bool:
    if not isinstance(node, ast.Import | ast.ImportFrom):
        return False
    node.names = [one for one in node.names if (one.asname or one.name.partition(".")[0]) in used]
    return not node.names


def _called(node: ast.AST) -> str:
    """The last part of a name."""
    if isinstance(node, ast.Call):
        return _called(node.func)
    return node.id if isinstance(node, ast.Name) else node.attr if isinstance(node, ast.Attribute) else ""


def _call(name: str, *given: ast.expr) -> ast.Call:
    return ast.Call(ast.Name(name, ast.Load()), list(given), [])


def _is_type(value: ast.expr) -> bool:
    """Whether an assigned value is a type and nothing else."""
    if isinstance(value, ast.Subscript):
        return isinstance(value.value, ast.Name) and value.value.id in TYPES
    if isinstance(value, ast.BinOp) and isinstance(value.op, ast.BitOr):
        return isinstance(value.left, ast.Name) and (value.left.id[0].isupper() or value.left.id in TYPES)
    return _called(value) == "TypeVar"


class _Porter(ast.NodeTransformer):
    def __init__(self, name: str, settings: Settings) -> None:
        self.name, self.settings = name, settings
        self.wants: set[tuple[str, str]] = set()

    def helpers(self) -> list[str]:
        """Imports of what the port itself calls, by names that no module has."""
        return [f"from {module} import {name} as ported_{name}" for module, name in sorted(self.wants)]

    def _want(self, module: str, name: str) -> str:
        self.wants.add((module, name))
        return f"ported_{name}"

    def _refuse(self, node: ast.AST, what: str) -> CannotPort:
        return CannotPort(f"{self.name}:{getattr(node, 'lineno', 0)}: {what}")

    def generic_visit(self, node: ast.AST) -> ast.AST:
        """Every node that has no rule of its own."""
        if isinstance(node, LACKING):
            raise self._refuse(node, f"MicroPython has no {type(node).__name__}")
        super().generic_visit(node)
        body = getattr(node, "body", None)
        if isinstance(body, list):
            node.body = _said(body)  # type: ignore[attr-defined]
        return node

    def visit_ImportFrom(self, node: ast.ImportFrom) -> list[ast.stmt] | None:
        """Names are taken from where they are defined: the page's packages export nothing."""
        module = node.module or ""
        if module in TYPING or module == "fidpath.machine.compiled":
            return None
        if not module.startswith("fidpath"):
            self._check(node, module, [one.name for one in node.names])
            return [node]
        return [self._import(module, one) for one in node.names]

    def _import(self, module: str, one: ast.alias) -> ast.stmt:
        home, name = self.settings.home(module, one.name)
        if name is None:
            return ast.Import([ast.alias(home, one.asname or one.name)])
        return ast.ImportFrom(home, [ast.alias(name, one.asname or (one.name if name != one.name else None))], 0)

    def _check(self, node: ast.AST, module: str, names: Iterable[str]) -> None:
        known = self.settings.known.get(module)
        lacking = [] if known is None else sorted(set(names) - known - {"dataclass", "field"})
        if lacking:
            raise self._refuse(node, f"the page's {module} has no {', '.join(lacking)}")

    def visit_If(self, node: ast.If) -> ast.AST | None:
        """What is there for types alone goes."""
        return None if _called(node.test) == "TYPE_CHECKING" else self.generic_visit(node)

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.AST | None:
        """Without its annotation."""
        return None if node.value is None else ast.Assign([node.target], self.visit(node.value))

    def visit_Assign(self, node: ast.Assign) -> ast.AST | None:
        """Names of types go."""
        return None if _is_type(node.value) else self.generic_visit(node)

    def visit_Attribute(self, node: ast.Attribute) -> ast.AST:
        """What is asked of numpy must be there; functions know their short names alone."""
        if isinstance(node.value, ast.Name) and node.value.id == "np":
            self._check(node, "numpy", [node.attr])
        if node.attr == "__qualname__":
            node.attr = "__name__"
        return self.generic_visit(node)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST | None:
        """Without types; a compiled loop is the page's module's, or goes."""
        if any(_called(one) in JIT for one in node.decorator_list):
            return self._kernel(node)
        given = node.args
        given.args, given.posonlyargs = given.posonlyargs + given.args, []
        for one in (*given.args, *given.kwonlyargs, given.vararg, given.kwarg):
            if one is not None:
                one.annotation = None
        node.returns = None
        for name, place in _written_views(node):
            raise self._refuse(place, f"{name} is part of another array, and is written to")
        return self.generic_visit(node)

    def _kernel(self, node: ast.FunctionDef) -> ast.AST | None:
        if node.name not in self.settings.kernels:
            return None
        call = self._want("kernels", "call")
        return ast.parse(f"def {node.name}(*given):\n    return {call}({node.name!r}, *given)").body[0]

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        """A dataclass and a named tuple with its fields and its `__init__`; others with one base."""
        data = any(_called(one) == "dataclass" for one in node.decorator_list)
        named = any(_called(base) == "NamedTuple" for base in node.bases)
        if data or named:
            if data and node.bases:
                raise self._refuse(node, "a dataclass with a base")
            return self._written_out(node, self._want("dataclasses", "NamedData" if named else "Data"))
        node.bases = [base for base in node.bases if _called(base) not in DROPPED_BASES][:1]
        node.keywords = []
        return self.generic_visit(node)

    def _written_out(self, node: ast.ClassDef, base: str) -> ast.ClassDef:
        """The class with `_fields`, those that are compared, and `__init__`, then what it has besides."""
        fields = [one for one in node.body if isinstance(one, ast.AnnAssign)]
        rest = [one for one in node.body if not isinstance(one, ast.AnnAssign)]
        names = [_called(one.target) for one in fields]
        compared = [name for name, one in zip(names, fields, strict=True) if _option(one.value, "compare") is None]
        given, sets = zip(*map(self._field, fields), strict=True)
        lines = [
            f"class {node.name}({base}):",
            f"    _fields = {tuple(names)!r}",
            f"    _compared = {tuple(compared)!r}",
        ]
        lines += [f"    def __init__(self, {', '.join(given)}):", *(f"        {one}" for one in sets)]
        made = ast.parse("\n".join(lines)).body[0]
        assert isinstance(made, ast.ClassDef)
        made.body += _said([one for old in rest if (one := self.visit(old)) is not None], [])
        return made

    def _field(self, field: ast.AnnAssign) -> tuple[str, str]:
        """A field's parameter and what `__init__` does with it."""
        name = _called(field.target)
        if field.value is None:
            return name, f"self.{name} = {name}"
        factory = _option(field.value, "default_factory")
        if factory is None:
            return f"{name}={ast.unparse(self.visit(field.value))}", f"self.{name} = {name}"
        made = ast.unparse(self.visit(factory))
        return f"{name}=None", f"self.{name} = ({made})() if {name} is None else {name}"

    def visit_Expr(self, node: ast.Expr) -> ast.AST:
        """`f(x, out=y)` puts its result into y."""
        target = _option(node.value, "out")
        if target is None:
            return self.generic_visit(node)
        node.value.keywords = [one for one in node.value.keywords if one.arg != "out"]  # type: ignore[attr-defined]
        target.ctx = ast.Store()  # type: ignore[attr-defined]
        return ast.Assign([self.visit(target)], self.visit(node.value))

    def visit_Call(self, node: ast.Call) -> ast.AST:
        """Functions and methods that MicroPython lacks; `out` inside a sum becomes a name given there."""
        out = _option(node, "out")
        node.keywords = [one for one in node.keywords if one.arg != "out"]
        self.generic_visit(node)
        if out is not None:
            if not isinstance(out, ast.Name):
                raise self._refuse(node, "`out` that is not a name, inside an expression")
            return ast.NamedExpr(ast.Name(out.id, ast.Store()), node)
        if isinstance(node.func, ast.Name):
            return self._function(node, node.func.id)
        if isinstance(node.func, ast.Attribute) and node.func.attr in METHODS:
            return _call(self._want("ported", node.func.attr), node.func.value, *node.args)
        return node

    def _function(self, node: ast.Call, name: str) -> ast.AST:
        if name == "cast":
            return node.args[1]
        if name == "zip":
            node.keywords = []
        if name == "slice":
            ends = [None, *node.args] if len(node.args) == 1 else node.args
            holder = ast.Name(self._want("dataclasses", "slices"), ast.Load())
            return ast.Subscript(holder, ast.Slice(*ends), ast.Load())
        if name in FUNCTIONS:
            node.func = ast.Name(self._want("ported", FUNCTIONS[name]), ast.Load())
        if name == "isinstance" and isinstance(node.args[1], ast.BinOp):
            node.args[1] = ast.Tuple(_either(node.args[1]), ast.Load())
        return node

    def visit_JoinedStr(self, node: ast.JoinedStr) -> ast.AST:
        """A sum of texts."""
        parts = [self._part(one) for one in node.values]
        found = parts[0] if parts else ast.Constant("")
        for part in parts[1:]:
            found = ast.BinOp(found, ast.Add(), part)
        return found

    def _part(self, node: ast.expr) -> ast.expr:
        if not isinstance(node, ast.FormattedValue):
            return node
        value = self.visit(node.value)
        if node.conversion == ord("r"):
            value = _call("repr", value)
        form = [] if node.format_spec is None else [self.visit(node.format_spec)]
        return _call(self._want("ported", "text"), value, *form)

    def _display(self, node: ast.List | ast.Tuple | ast.Set, make: str) -> ast.AST:
        """A display with other sequences in it, as a sum."""
        self.generic_visit(node)
        if not isinstance(getattr(node, "ctx", ast.Load()), ast.Load):
            return node
        if not any(isinstance(one, ast.Starred) for one in node.elts):
            return node
        found: ast.expr | None = None
        for one in node.elts:
            part = _call("list", one.value) if isinstance(one, ast.Starred) else ast.List([one], ast.Load())
            found = part if found is None else ast.BinOp(found, ast.Add(), part)
        assert found is not None
        return found if make == "list" else _call(make, found)

    def visit_List(self, node: ast.List) -> ast.AST:
        """As `_display` says."""
        return self._display(node, "list")

    def visit_Tuple(self, node: ast.Tuple) -> ast.AST:
        """As `_display` says."""
        return self._display(node, "tuple")

    def visit_Set(self, node: ast.Set) -> ast.AST:
        """As `_display` says."""
        return self._display(node, "set")

    def visit_Dict(self, node: ast.Dict) -> ast.AST:
        """A display with other mappings in it, as a sum of pairs."""
        self.generic_visit(node)
        if all(key is not None for key in node.keys):
            return node
        found: ast.expr = ast.List([], ast.Load())
        for key, value in zip(node.keys, node.values, strict=True):
            pairs = ast.Call(ast.Attribute(value, "items", ast.Load()), [], [])
            one = ast.List([ast.Tuple([key, value], ast.Load())], ast.Load()) if key is not None else None
            found = ast.BinOp(found, ast.Add(), one or _call("list", pairs))
        return _call("dict", found)


def _is_view(value: ast.expr) -> bool:
    """Whether a value shares memory with an array that it is taken from, in numpy."""
    if isinstance(value, ast.Subscript):
        return any(isinstance(one, ast.Slice) for one in ast.walk(value.slice))
    return (isinstance(value, ast.Attribute) and value.attr == "T") or (
        isinstance(value, ast.Call) and _called(value) in VIEWS
    )


def _written_views(function: ast.FunctionDef) -> Iterator[tuple[str, ast.AST]]:
    """Names of a function that stand for parts of arrays, where they are written to: the arrays must change too."""
    assigned = [node for node in ast.walk(function) if isinstance(node, ast.Assign) and _is_view(node.value)]
    views = {target.id for node in assigned for target in node.targets if isinstance(target, ast.Name)}
    for node in ast.walk(function):
        if isinstance(node, ast.Subscript) and isinstance(node.ctx, ast.Store) and _called(node.value) in views:
            yield _called(node.value), node
        elif isinstance(node, ast.AugAssign) and isinstance(node.target, ast.Name) and node.target.id in views:
            yield node.target.id, node


def _option(node: ast.AST | None, name: str) -> ast.expr | None:
    """A call's argument of that name."""
    found = [one.value for one in node.keywords if one.arg == name] if isinstance(node, ast.Call) else []
    return found[0] if found else None


def _either(node: ast.expr) -> list[ast.expr]:
    """The types of `A | B | C`."""
    return [*_either(node.left), node.right] if isinstance(node, ast.BinOp) else [node]


def _said(body: list[ast.stmt], empty: list[ast.stmt] | None = None) -> list[ast.stmt]:
    """A body without bare texts, docstrings among them; never empty unless it may be."""
    kept = [one for one in body if not (isinstance(one, ast.Expr) and isinstance(one.value, ast.Constant))]
    return kept or ([ast.Pass()] if empty is None else empty)
