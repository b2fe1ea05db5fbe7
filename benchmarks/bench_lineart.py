"""Line art of every step of the demo and of its mistakes, its turntable, and with --motion the film of the motion.

Run: python benchmarks/bench_lineart.py [--motion]
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from fidpath.job.reader import read_job
from fidpath.loading.in_hand import all_in_hand, state_in_hand
from fidpath.methods.registry import method_of
from fidpath.methods.wording import worded_method
from fidpath.outputs.lineart.line_drawing import line_scene, pdf, svg
from fidpath.outputs.motion import films
from fidpath.outputs.motion import settled_motion as motion
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.scene.mistake_picture import wrong_scene
from fidpath.scene.scene import Scene
from fidpath.scene.step_picture import step_scene
from figures import figure

DEMO = Path(__file__).parent.parent / "scenes" / "demo.toml"
Found = TypeVar("Found")


def timed(work: Callable[[], Found]) -> tuple[Found, float, float]:
    """What a piece of work returns, its wall-clock seconds, and those of all cores together."""
    began, used = time.perf_counter(), time.process_time()
    found = work()
    return found, time.perf_counter() - began, time.process_time() - used


def scenes(plan: Plan) -> list[Scene]:
    """Pictures of all steps and mistakes of the locked splice."""
    way = worded_method(method_of("locked-captive"), plan)
    kinds = list(dict.fromkeys([step.state for step in way.steps] + [wrong.beside for wrong in way.mistakes]))
    found = {one.kind: one for one in all_in_hand(plan, kinds)}
    before = [None, *(found[step.state] for step in way.steps)]
    steps = [step_scene(s, found[s.state], b, plan, 14) for s, b in zip(way.steps, before, strict=False)]
    return steps + [wrong_scene(w, state_in_hand(plan, w.name), found[w.beside], plan) for w in way.mistakes]


def main() -> None:
    """Prints the figures beside their bounds."""
    plan = make_plan(read_job(DEMO))
    reach = plan.braid.thickness
    pictures = scenes(plan)
    pdf(line_scene(pictures[0], reach))
    print("                          seconds (all cores)  SVG kB  PDF kB   regions")
    slowest, largest = 0.0, 0.0
    for scene in pictures:
        drawing, wall, used = timed(lambda scene=scene: line_scene(scene, reach))  # type: ignore[misc]
        (text, page), wrote, more = timed(lambda drawing=drawing: (svg(drawing), pdf(drawing)))  # type: ignore[misc]
        sizes = f"{len(text.encode()) / 1000:7.0f} {len(page) / 1000:7.0f}"
        slowest, largest = max(slowest, wall + wrote), max(largest, len(text.encode()) / 1000, len(page) / 1000)
        print(f"{scene.name:24s} {wall + wrote:8.2f} {used + more:8.2f} {sizes} {sum(drawing.regions):9d}")
    figure("line art of a step, SVG and PDF, the slowest", slowest, "s", 4)
    figure("line art of a step, the largest file", largest, "kB", 400)
    with tempfile.TemporaryDirectory() as out:
        turned = films.turntable(plan, state_in_hand(plan, "buried"))
        _film(Path(out) / "turntable.webp", films.TURN_FRAMES, turned, reach)
        if "--motion" in sys.argv:
            moments, wall, used = timed(lambda: list(motion.frames(plan)))
            print(f"{len(moments)} moments of the motion settled in {wall:.1f} s ({used:.1f} s of all cores)")
            _film(Path(out) / "motion.webp", len(moments), films.motion(plan, moments), reach)


def _film(target: Path, count: int, shot: Callable[[int], films.Shot], reach: float) -> None:
    films.still(shot(0), reach)
    _, wall, used = timed(lambda: films.film(target, count, shot, reach))
    size = target.stat().st_size / 1e6
    figure(f"{target.stem}, {count} pictures", wall, "s", 25, beside=f"{used:.0f} s of all cores")
    figure(f"{target.stem}, its file", size, "MB", 2)


if __name__ == "__main__":
    main()
