"""Spoilt job, set, practice, measured and method files: only errors in words come out, each with its file and line, in
two seconds and a gigabyte.

Run: python benchmarks/soak_files.py [how many] [seed]
"""

from __future__ import annotations

import random
import resource
import shutil
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "tests" / "support"))

from fuzz.mutate import mutated
from fuzz.reading import SCENES, Seed, complaint, seeds

GIGABYTE = 1 << 30
SPOILS = Path(tempfile.gettempdir()) / "fidpath-soak-files"


def limited() -> None:
    """No more than a gigabyte beyond what the imports took."""
    for seed in seeds():
        assert complaint(seed, seed.path)[1] == "", seed.name
    pages = int(Path("/proc/self/statm").read_text().split()[0])
    most = pages * resource.getpagesize() + GIGABYTE
    resource.setrlimit(resource.RLIMIT_AS, (most, most))


def placed(seed: Seed, folder: Path) -> Path:
    """Where a spoilt copy of a seed stands: in a copy of the scenes, so that what it names is there."""
    inside = seed.path.relative_to(SCENES) if seed.path.is_relative_to(SCENES) else Path(seed.path.name)
    return folder / inside.with_name(f"spoilt{inside.suffix}")


def main(count: int, seed: int) -> int:
    """Prints each fault with the file kept that shows it, and how many were read and refused; 1 if there was one."""
    limited()
    chance, known, tally, slowest = random.Random(seed), seeds(), Counter[str](), 0.0
    faults: Counter[str] = Counter()
    with tempfile.TemporaryDirectory() as place:
        shutil.copytree(SCENES, place, dirs_exist_ok=True)
        for number in range(count):
            of = known[number % len(known)]
            path = placed(of, Path(place))
            path.write_bytes(mutated(of.text, chance))
            began = time.perf_counter()
            outcome, fault = complaint(of, path)
            slowest = max(slowest, time.perf_counter() - began)
            tally[f"{of.name.split()[0]} {outcome}"] += 1
            if fault:
                faults[fault[:60]] += 1
                if faults[fault[:60]] <= 3:
                    SPOILS.mkdir(exist_ok=True)
                    kept = shutil.copy(path, SPOILS / f"{seed}-{number}{path.suffix}")
                    print(f"{number} {of.name}: {outcome}: {fault} ({kept})", flush=True)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{count} files: " + ", ".join(f"{name} {number}" for name, number in sorted(tally.items())))
    print(f"{sum(faults.values())} faults; slowest {slowest:.2f} s; peak memory {peak:.0f} MB")
    return 1 if faults else 0


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    raise SystemExit(main(given[0] if given else 20_000, given[1] if len(given) > 1 else 1))
