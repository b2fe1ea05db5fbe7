"""A build in a process of its own, which tells another how far it is, line by line.

Run as `python -m fidpath.building.told_build`. On stdin it is given JSON: the job's text, the name messages give it,
the folder, and whether to make the motion too. On stdout each line is JSON: what is being done and the share that is
done, in the end the files written, or what is wrong.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from fidpath.building.pipeline import build
from fidpath.building.progress import ProgressDisplay
from fidpath.errors import FidpathError
from fidpath.job import parse_job


def main() -> int:
    """Builds what stdin asks for; returns the exit code."""
    asked = json.loads(sys.stdin.readline())
    try:
        job = parse_job(asked["text"], asked["source"])
        shown = ProgressDisplay(lambda what, share: _tell(what=what, share=share))
        written = build(
            job,
            Path(asked["folder"]),
            models=asked["models"],
            motion=asked["motion"],
            film=asked["motion"],
            display=shown,
        )
    except FidpathError as problem:
        _tell(problem=f"{problem.what}. {problem.remedy}".rstrip(". ") + ".")
        return int(problem.code)
    _tell(written=[path.relative_to(asked["folder"]).as_posix() for path in written])
    return 0


def _tell(**news: Any) -> None:
    print(json.dumps(news), flush=True)


if __name__ == "__main__":
    sys.exit(main())
