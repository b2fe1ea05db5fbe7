"""Writes tests/planning/golden/plans.json anew. Figures change only with a line in CHANGELOG.md, which is given here.

Run: python tests/planning/golden/update.py "the line of CHANGELOG.md that says why"
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from fidpath.job.reader import read_job
from fidpath.planning.planner import make_plan
from fidpath.planning.sheet import as_data

ROOT = Path(__file__).parents[3]
GOLDEN = Path(__file__).parent / "plans.json"
WORDS = ("shown", "formula", "source", "label", "measured_from", "text", "cautions", "note")
"""Keys of a plan that hold words: their wording is nobody's measure."""


def scenes() -> list[Path]:
    """The scenes whose plans are kept."""
    return sorted((ROOT / "scenes").glob("*.toml"))


def figures(scene: Path) -> Any:
    """A scene's plan as plain data, without its words."""
    return without_words(as_data(make_plan(read_job(scene))))


def without_words(data: Any) -> Any:
    """Plain data without texts for people."""
    if isinstance(data, dict):
        return {key: without_words(value) for key, value in data.items() if key not in WORDS}
    return [without_words(one) for one in data] if isinstance(data, list) else data


def main() -> int:
    """Writes the file, if CHANGELOG.md has the line given."""
    line = " ".join(sys.argv[1:])
    changes = " ".join((ROOT / "CHANGELOG.md").read_text(encoding="utf-8").split())
    if len(line) < 20 or line not in changes:
        print("Give the line of CHANGELOG.md that says why figures change")
        return 2
    text = json.dumps(
        {"because": line, "plans": {scene.stem: figures(scene) for scene in scenes()}}, indent=1, ensure_ascii=False
    )
    GOLDEN.write_text(text + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
