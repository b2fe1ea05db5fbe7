"""The package's WebAssembly module run by wasmtime: its functions take numpy arrays as the native loops do."""

from __future__ import annotations

import ctypes
import json
from importlib.resources import files
from typing import Any

import numpy as np
import wasmtime

ASSETS = files("fidpath.outputs.any_rope") / "assets"
STACK, FIRST, PAGE = 1 << 16, 1 << 17, 1 << 16
"""Top of the stack, where arrays begin, and the bytes that memory grows by."""


def leaves(value: Any) -> list[Any]:
    """A value, or what named tuples in it hold, in order."""
    return [leaf for item in value for leaf in leaves(item)] if isinstance(value, tuple) else [value]


class WasmKernels:
    """The module, in a memory that grows as wanted; every call lays its arrays into it and takes them out again."""

    def __init__(self) -> None:
        engine = wasmtime.Engine()
        self.store = wasmtime.Store(engine)
        module = wasmtime.Module(engine, (ASSETS / "settling.wasm").read_bytes())
        self.memory = wasmtime.Memory(self.store, wasmtime.MemoryType(wasmtime.Limits(4, None)))
        mutable = wasmtime.GlobalType(wasmtime.ValType.i32(), True)
        given = {
            "__linear_memory": self.memory,
            "__stack_pointer": wasmtime.Global(self.store, mutable, wasmtime.Val.i32(STACK)),
        }
        self.exports = wasmtime.Instance(self.store, module, [given[one.name] for one in module.imports]).exports(
            self.store
        )
        self.about = json.loads((ASSETS / "settling.json").read_text())["functions"]

    def call(self, name: str, *arguments: Any) -> Any:
        """What the function returns; arrays are changed where they are. Raises RuntimeError where it says so."""
        about = self.about[name]
        given = leaves(arguments)
        assert len(given) == len(about["arguments"])
        places, numbers = self._laid_out(given)
        status = self.exports[name](self.store, STACK, STACK + 64, *numbers)
        if status:
            raise RuntimeError(f"{name}: {status}")
        for array, place in places:
            self._read(array, place)
        kind = np.float64 if about["returns"] == "float64" else np.int64
        result = np.zeros(1, kind)
        self._read(result, STACK)
        return result[0]

    def _laid_out(self, given: list[Any]) -> tuple[list[tuple[np.ndarray, int]], list[Any]]:
        at, places, numbers = FIRST, [], []
        for value in given:
            if not isinstance(value, np.ndarray):
                numbers.append(int(value) if isinstance(value, bool | int | np.integer) else float(value))
                continue
            assert value.flags.c_contiguous
            numbers += [0, 0, value.size, value.itemsize, at, *value.shape, *value.strides]
            places.append((value, at))
            at = (at + value.nbytes + 15) & ~15
        lack = at - self.memory.data_len(self.store)
        if lack > 0:
            self.memory.grow(self.store, -(-lack // PAGE))
        for array, place in places:
            self.memory.write(self.store, array.tobytes(), place)
        return places, numbers

    def _read(self, array: np.ndarray, place: int) -> None:
        if array.size:
            base = ctypes.addressof(self.memory.data_ptr(self.store).contents)
            ctypes.memmove(array.ctypes.data, base + place, array.nbytes)
