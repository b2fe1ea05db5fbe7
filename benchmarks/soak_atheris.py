"""Coverage-guided: atheris sees which lines of the readers a text reaches, and changes it toward those not reached.

The first byte chooses the reader, the rest is the file. Only errors in words may come out. Run:
python benchmarks/soak_atheris.py [seconds] [seed]
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

try:
    import atheris
except ImportError:
    print("atheris isn't installed: there is none for this system")
    raise SystemExit(0) from None

sys.path.insert(0, str(Path(__file__).parent.parent / "tests" / "support"))

INSTRUMENTED = ["fidpath.job", "fidpath.units", "fidpath.lines", "fidpath.methods.method_file", "tomllib", "csv"]
"""What is instrumented: rooms by their name, with all their modules."""

with atheris.instrument_imports(include=INSTRUMENTED):
    from fidpath.job import reader as reading
    from fidpath.lines import comparison as compare
    from fidpath.lines import set_file
    from fidpath.lines.loft_file import read_loft
    from fidpath.methods import method_file
    from fuzz.reading import SCENES, complaint, demo, seeds

from fuzz.reading import Seed  # noqa: E402  (after what is instrumented)

READERS = (
    ("job", ".toml", reading.read_job),
    ("set", ".toml", set_file.read_set),
    ("table", ".csv", set_file.read_set),
    ("spools", ".csv", set_file.read_spools),
    ("loft", ".toml", read_loft),
    ("measured", ".toml", lambda path: compare.read_measured(path, demo())),
    ("method", ".toml", method_file.read_method),
)
FOLDER = Path(tempfile.mkdtemp(prefix="fidpath-atheris-"))


def try_one(content: bytes) -> None:
    """Reads one file; raises where what comes out isn't a refusal in words."""
    if not content:
        return
    name, suffix, read = READERS[content[0] % len(READERS)]
    path = FOLDER / f"spoilt{suffix}"
    path.write_bytes(content[1:])
    outcome, fault = complaint(Seed(name, path, read), path)
    if fault:
        raise RuntimeError(f"{name} {outcome}: {fault}")


def corpus() -> Path:
    """Every scene and method, each behind the byte of its reader."""
    place = FOLDER / "corpus"
    place.mkdir()
    kinds = {name: index for index, (name, _, _) in enumerate(READERS)}
    for number, seed in enumerate(seeds()):
        kind = kinds.get(seed.name.split()[0].replace("line", "job"), 0)
        (place / str(number)).write_bytes(bytes([kind]) + seed.text.encode())
    return place


def main(seconds: int, seed: int) -> None:
    """Runs for so long, or until something breaks; libFuzzer prints its coverage and leaves the file that broke it."""
    limits = ["-rss_limit_mb=1024", "-timeout=2", "-max_len=6000"]
    order = [f"-max_total_time={seconds}", f"-seed={seed}", f"-artifact_prefix={FOLDER}/"]
    words = FOLDER / "words"
    keys = {key for path in SCENES.rglob("*.toml") for key in path.read_text(encoding="utf-8").split() if key.isascii()}
    quoted = [key.replace("\\", "\\\\").replace('"', '\\"') for key in sorted(keys) if 1 < len(key) < 24]
    words.write_text("".join(f'"{key}"\n' for key in quoted), encoding="ascii")
    atheris.Setup([sys.argv[0], *order, *limits, f"-dict={words}", str(corpus())], try_one)
    atheris.Fuzz()


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    main(given[0] if given else 120, given[1] if len(given) > 1 else 1)
