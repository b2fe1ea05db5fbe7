"""Makes the WebAssembly module of the settling for the page: `python any_rope/settling_module.py`.

It is compiled for no particular processor and without vector instructions, so that it rounds as the native loops do.
The module made by another version of numba has other bytes, and must settle to the same ones: tests compare results.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from pathlib import Path

SETTINGS = {
    "NUMBA_CPU_NAME": "generic",
    "NUMBA_CPU_FEATURES": "",
    "NUMBA_LOOP_VECTORIZE": "0",
    "NUMBA_SLP_VECTORIZE": "0",
}
ROOT = Path(__file__).parents[1]
ASSETS = ROOT / "src" / "fidpath" / "outputs" / "any_rope" / "assets"
TOOLS = ("compile_kernels", "settling_kernels", "settling_module", "wasm_file")
SOURCES = ("contact_kernels", "neighbour_kernels", "flat", "sweep_kernels")

NOTICE = "settling.wasm is compiled from fidpath's own source, src/fidpath/settling, by `make any-rope`; Apache-2.0."


def source_digest() -> str:
    """A hash of what the module is made from: the loops' source, and this tool's."""
    own = [Path(__file__).parent / f"{name}.py" for name in TOOLS]
    loops = [ROOT / "src" / "fidpath" / "settling" / f"{name}.py" for name in SOURCES]
    made_of = own + loops
    return hashlib.sha256(b"\0".join(path.read_bytes() for path in made_of)).hexdigest()


def write(folder: Path = ASSETS) -> None:
    """Writes `settling.wasm` and `settling.json`, the arguments of its functions and the hash of its source."""
    with tempfile.TemporaryDirectory() as cache:
        os.environ.update(SETTINGS, NUMBA_CACHE_DIR=cache)
        from compile_kernels import compiled
        from settling_kernels import kernels

        module, signatures = compiled(kernels())
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "settling.wasm").write_bytes(module)
    about = {"notice": NOTICE, "source": source_digest(), "functions": signatures}
    (folder / "settling.json").write_text(json.dumps(about, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    write()
