"""Jigs of random jobs: every solid, read back from its STL, is closed, of positive volume, one body, and of its volume.

Slots are measured to their width and radius. 3MF files go through lib3mf's strict reader. Prints what was refused and
why, and the worst figures met.
Run: python benchmarks/soak_jigs.py [how many] [seed]
"""

from __future__ import annotations

import io
import sys
import time
from collections import Counter
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parent.parent / "tests" / "support"))

from fidpath.errors import CannotBeMade
from fidpath.outputs.jigs.catalogue import JIGS, files
from fidpath.outputs.jigs.pieces import Jig, JigPiece
from fidpath.planning.plan import Plan
from jigs.checks import VOLUME, check_slots
from jigs.plans import random_plans
from jigs.readback import sound

REFUSALS = ("no room for its words", "room for a window of", "the bight would open H2")
"""Refusals that a job can be to blame for: a small bed, a thin rope."""


def faults_of(piece: JigPiece, content: dict[str, bytes]) -> list[str]:
    """What is wrong with a piece's files, and how far its volume is off the formula's, as words."""
    import lib3mf
    import trimesh

    body = trimesh.load(io.BytesIO(content[f"{piece.name}-mm.stl"]), file_type="stl")
    found = [] if sound(body) else ["not one closed body"]
    if piece.volume is None or abs(body.volume / piece.volume - 1) > VOLUME:
        found.append(f"volume {body.volume:.3f}, by formula {piece.volume}")
    model = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromBuffer(content[f"{piece.name}.3mf"])
    return found + ["3MF warnings"] * (reader.GetWarningCount() > 0)


def checked(plan: Plan, name: str, tally: Counter[str]) -> tuple[float, float]:
    """Makes and checks one jig; returns its seconds and its worst volume error."""
    began = time.process_time()
    try:
        jig: Jig = JIGS[name](plan)
    except CannotBeMade as refusal:
        known = [words for words in REFUSALS if words in refusal.what]
        tally[f"{name} {'refused' if known else 'WRONG'}: {known[0] if known else refusal.what}"] += 1
        return 0.0, 0.0
    seconds = time.process_time() - began
    content = dict(files(plan, jig, ("stl", "3mf")))
    worst = 0.0
    for piece in jig.pieces:
        wrong = faults_of(piece, content)
        tally[f"{name} {'WRONG: ' + '; '.join(wrong) if wrong else 'sound'}"] += 1
        if wrong:
            print(name, piece.name, wrong, plan.job, flush=True)
        worst = max(worst, abs(_volume(piece) / (piece.volume or 1.0) - 1))
    return seconds, worst


def measured(plan: Plan, tally: Counter[str]) -> None:
    """Measures the widths and the radii of the rope gauge's slots in its file."""
    try:
        check_slots(plan)
    except AssertionError as wrong:
        print("rope-gauge", wrong, plan.job, flush=True)
        tally["widths and radii of slots WRONG"] += 1
    else:
        tally["widths and radii of slots within their bounds"] += 1


def _volume(piece: JigPiece) -> float:
    from fidpath.meshing.meshes import volume

    return volume(piece.mesh)


def main(count: int, seed: int) -> None:
    """Prints the tally, the longest time and the worst error."""
    tally: Counter[str] = Counter()
    slowest, worst = Counter[str](), 0.0
    for plan in random_plans(np.random.default_rng(seed), count):
        measured(plan, tally)
        for name in JIGS:
            seconds, error = checked(plan, name, tally)
            slowest[name] = max(slowest[name], seconds)  # type: ignore[assignment]
            worst = max(worst, error)
    print(f"{count} jobs, seed {seed}")
    for outcome in sorted(tally):
        print(f"{outcome}: {tally[outcome]}")
    print(f"worst volume error {worst:.2e}   (bound {VOLUME:g})")
    print("slowest, s of processor time:", {name: round(seconds, 2) for name, seconds in slowest.items()})
    if any("WRONG" in outcome for outcome in tally):
        raise SystemExit(1)


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    main(given[0] if given else 200, given[1] if len(given) > 1 else 1)
