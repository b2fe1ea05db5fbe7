"""Says how many of the small breakages of plan and braid the tests noticed, and fails where it is too few.

Reads what `mutmut export-cicd-stats` wrote. Run: make mutation. Survivors are explained in mutation.md.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

LEAST = 0.85
"""Share of the breakages that the tests have to notice."""

NOTICED = ("killed", "timeout", "segfault")


def main(stats: Path) -> int:
    """Prints the share; returns 1 where it is below LEAST. What wasn't tried counts as unnoticed."""
    counts = json.loads(stats.read_text(encoding="utf-8"))
    noticed, total = sum(counts.get(how, 0) for how in NOTICED), counts["total"]
    print(f"{noticed} of {total} noticed: {noticed / total:.1%}, at least {LEAST:.0%} wanted")
    return 0 if noticed >= LEAST * total else 1


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))
