"""Compiled loops of the settling -> one WebAssembly module, by the compiler that numba brings along.

numba compiles each loop to LLVM's own language, as it does for this machine; the target is put in its place, and LLVM
compiles it again. Nothing is written twice.

An array comes in as numba passes it: two unused addresses, its number of items and their size (64 bits), its address,
its shape and its strides (64 bits). Named tuples are passed field by field. The first two arguments are the addresses
of the result and of an error; a function returns 0, or another number on an error.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

import llvmlite.binding as llvm
import numba
from numba.core import types

from wasm_file import with_exports

TRIPLE = "wasm32-unknown-unknown"
FEATURES = "+bulk-memory"
"""Filling and copying memory, which would have to be imported otherwise."""

SQUARE_ROOT = """
declare double @llvm.sqrt.f64(double)
define double @sqrt(double %x) {
  %root = call double @llvm.sqrt.f64(double %x)
  ret double %root
}
"""
"""numba calls the C library's; WebAssembly has it as an instruction."""


class Kernel(NamedTuple):
    """A loop to compile: as it was written, and an example of each argument."""

    function: Callable[..., Any]
    example: tuple[Any, ...]


def compiled(kernels: Mapping[str, Kernel]) -> tuple[bytes, dict[str, Any]]:
    """The module, and each function's arguments: `{"name": {"arguments": [...], "returns": type}}`.

    An argument is `[name, "array", type, dimensions]` or `[name, type]`.
    """
    machine = _machine()
    symbols, signatures, parts = {}, {}, []
    for name, kernel in kernels.items():
        made = _compile(kernel)
        symbols[made.fndesc.llvm_func_name] = name
        signatures[name] = _signature(made.fndesc)
        parts.append(llvm.parse_assembly(_for_target(made.library.get_llvm_str(), machine)))
    parts.append(llvm.parse_assembly(_for_target(_header() + SQUARE_ROOT, machine)))
    module = parts[0]
    for part in parts[1:]:
        module.link_in(part)
    _hide_but(module, set(symbols))
    _optimise(module, machine)
    return with_exports(machine.emit_object(module), symbols), signatures


def _machine() -> Any:
    llvm.initialize_all_targets()
    llvm.initialize_all_asmprinters()
    target = llvm.Target.from_triple(TRIPLE)
    return target.create_target_machine(opt=3, reloc="static", features=FEATURES)


def _compile(kernel: Kernel) -> Any:
    """numba's compiled function, without anything that Python calls it by or that counts references."""
    options = {"nogil": True, "no_cpython_wrapper": True, "no_cfunc_wrapper": True, "_nrt": False}
    dispatcher = numba.njit(**options)(kernel.function)
    signature = tuple(numba.typeof(value) for value in kernel.example)
    dispatcher.compile(signature)
    return dispatcher.overloads[signature]


def _header() -> str:
    return 'target datalayout = ""\ntarget triple = ""\n'


def _for_target(text: str, machine: Any) -> str:
    """LLVM's language for this machine, for WebAssembly instead; it knows no common symbols."""
    text = re.sub(r'target triple = ".*"', f'target triple = "{TRIPLE}"', text)
    text = re.sub(r'target datalayout = ".*"', f'target datalayout = "{machine.target_data}"', text)
    return text.replace("= common ", "= weak ")


def _hide_but(module: Any, names: set[str]) -> None:
    for function in module.functions:
        if not function.is_declaration:
            function.linkage = "external" if function.name in names else "internal"
    for variable in module.global_variables:
        if not variable.is_declaration:
            variable.linkage = "internal"


def _optimise(module: Any, machine: Any) -> None:
    module.verify()
    builder = llvm.create_pass_builder(machine, llvm.create_pipeline_tuning_options(3))
    builder.getModulePassManager().run(module, builder)


def _signature(described: Any) -> dict[str, Any]:
    """A function's arguments by name, named tuples taken apart, and the type it returns."""
    pairs = zip(described.args, described.argtypes, strict=True)
    arguments = [flat for name, kind in pairs for flat in _flat(kind, name)]
    return {"arguments": arguments, "returns": str(described.restype)}


def _flat(kind: Any, name: str) -> list[list[Any]]:
    if isinstance(kind, types.BaseNamedTuple):
        pairs = zip(kind.fields, kind.types, strict=True)
        return [flat for field, inner in pairs for flat in _flat(inner, f"{name}.{field}")]
    if isinstance(kind, types.Array):
        return [[name, "array", str(kind.dtype), kind.ndim]]
    return [[name, str(kind)]]
