"""What moves: the motion between the steps, and the finished splice turned round."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Callable
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

from fidpath.methods import registration_of
from fidpath.outputs.registered.finished_splice import CHECK
from fidpath.outputs.registry import Context, Item, Output, Product, Request, Turn, register

if TYPE_CHECKING:
    from fidpath.outputs.motion import Shot


def moves(request: Request) -> tuple[Item, ...]:
    """The motion, where the method's moves are known."""
    return (Item(),) if registration_of(request.method.name).moves else ()


def make_motion(context: Context, _item: str) -> Product:
    """The way from step to step, each stretch with its least gap and where the rope had to be drawn thinner."""
    from fidpath.outputs.motion import FRAMES, frames, motion, summary

    plan = context.request.plan
    made = list(frames(plan, FRAMES, context.tell))
    stretches = [asdict(row) for row in summary(made)]
    text = json.dumps({"name": plan.job.name, "stretches": stretches}, indent=2, default=float) + "\n"
    film = _film(context, len(made), motion(plan, made))
    return Product({"motion.json": text.encode("utf-8"), "motion.webp": film})


def make_turntable(context: Context, _item: str) -> Product:
    """The finished splice turned once about the load line."""
    from fidpath.outputs.motion import TURN_FRAMES, turntable

    shot = turntable(context.request.plan, context.settled(context.request.finished))
    return Product({"turntable.webp": _film(context, TURN_FRAMES, shot)})


def _film(context: Context, count: int, shot: Callable[[int], Shot]) -> bytes:
    """Shots 0 to count - 1 as animated WebP."""
    from fidpath.outputs.motion import film

    with tempfile.TemporaryDirectory(prefix="fidpath-") as folder:
        target = Path(folder) / "film.webp"
        film(target, count, shot, context.request.plan.braid.thickness, context.tell)
        return target.read_bytes()


MOTION = register(
    Output(
        "motion",
        "the motion from step to step as a film, and the smallest gap in each stretch",
        ("motion.json", "motion.webp"),
        make_motion,
        moves,
        needs=(CHECK.name,),
        libraries=("pillow", "matplotlib"),
        option="motion",
        turn=Turn.FILMS,
    )
)

TURNTABLE = register(
    Output(
        "turntable",
        "a turntable of the finished splice",
        ("turntable.webp",),
        make_turntable,
        needs=(CHECK.name,),
        libraries=("pillow", "matplotlib"),
        option="film",
        turn=Turn.FILMS,
    )
)
