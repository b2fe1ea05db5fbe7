"""The film between the steps: one continuous motion of the rope, its strands settled anew in every frame.

Every frame is settled from its own thin start with a reduced effort, so what it shows is certified by itself. Frames
are settled two at a time; the kernels let go of the interpreter.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, replace

import numpy as np

from fidpath.arrays import Progress
from fidpath.errors import CannotBeMade
from fidpath.geometry import Braid, Hole, Strands, parted_ones
from fidpath.loading import Schedule, SweepStage, shaped_in_hand
from fidpath.outputs.motion import lock_moves, tail_moves
from fidpath.outputs.motion.moves import Board, Pose, Stretch, board_of
from fidpath.planning import Plan
from fidpath.settling import ENOUGH, LEAST, Effort, Settled, clearance, settle, settled_state
from fidpath.states import FINISHED, Draft, RopeState, Start, draft_of, hole_of, thinned

FRAMES = 240
"""Frames of the whole film."""

EFFORT, BOUND = Effort(ramp=50, most_sweeps=450), 0.01
"""Work and worst overlap of a frame; the steps themselves are settled more firmly (`steps`)."""

STARTS = ((0.15, 0.0), (0.12, 0.0), (0.15, 0.15), (0.12, 0.15), (0.1, 0.3))
"""Starts that are tried: the guests' share of their radius, and how much further groups are apart, in diameters."""

IN_HAND = Schedule((SweepStage(0.012, 0.97, 110), SweepStage(0.006, 0.95, 50, 6.0)))
"""Sweeps in which a frame takes the shape that rope takes in the hand: fewer than a step's, most of the way."""

THINNER = (1.0, 0.8, 0.65, 0.5, 0.35)
"""What is tried, as a share of the pose's own thickness, where a frame can't be settled."""

AHEAD = 6
"""Frames under way or waiting to be taken."""

BURIED = "tail buried, cover worked down over it"
"""The last stretch: the step before it and the finished splice, with nothing between them."""


STORY = (
    Stretch("line brought round the terminator", "wrapped", 14, tail_moves.wrap),
    Stretch("terminator out, rope straightened", "wrapped", 7, tail_moves.unwrap),
    Stretch("small fid into H1", "h1-first-fid", 7, tail_moves.first_fid),
    Stretch("small fid out, larger fid in", "h1-second-fid", 10, tail_moves.second_fid),
    Stretch("tail swung round to H1", "h1-second-fid", 17, tail_moves.tail_to_h1),
    Stretch("tail's end into H1", "tail-entering", 9, tail_moves.tail_into_h1),
    Stretch("tail drawn through H1", "marking", 18, tail_moves.drawn_through_h1),
    Stretch("H2 drawn out through H1", "marking", 10, tail_moves.h2_out),
    Stretch("fids into H2", "h2-drawn-out", 8, tail_moves.h2_fids),
    Stretch("line laid in a circle", "h2-drawn-out", 17, tail_moves.in_a_circle),
    Stretch("tail's own end into H2", "tail-end-in-h2", 9, tail_moves.tail_into_h2),
    Stretch("tail drawn through H2", "curl-closing", 16, tail_moves.drawn_through_h2),
    Stretch("curl closed, H2 inside out", "h2-inside-out", 14, lock_moves.curl_closed, lock_moves.UNTIL),
    Stretch("tail swung round", "tail-swung-round", 14, lock_moves.swung_round),
    Stretch("bight into H2", "bight-in-h2", 18, lock_moves.bight_into_h2),
    Stretch("bight drawn on to H1", "h1-in-h2", 14, lock_moves.bight_drawn_on),
    Stretch("H1 drawn through H2", "h2-curled", 14, lock_moves.h1_through),
    Stretch("curl drawn small", "curl-rolling-out", 8, lock_moves.curl_drawn_small),
    Stretch("curl rolled out", "locked", 14, lock_moves.rolled_out, lock_moves.UNTIL),
    Stretch("eye closed on the terminator", "on-terminator", 8, lock_moves.refitted),
    Stretch("tail cut, strands dropped", "cut-and-tapered", 7, lock_moves.cut),
)
"""Every move, in order."""


@dataclass(frozen=True)
class Frame:
    """One frame. `share` of the stretch; `thinner`: the rope's thickness as a share of its own; `least_gap`: least
    distance of strand centre lines over their thickness; `certificate`: the settling's; `key`: a state on one side of a
    change that isn't continuous.
    """

    stretch: str
    share: float
    state: RopeState
    strands: Strands
    thinner: float
    least_gap: float
    certificate: float
    key: bool = False


@dataclass(frozen=True)
class Summary:
    """One stretch of the film: its frames, and the least of gap, certificate and thickness among them."""

    stretch: str
    frames: int
    least_gap: float
    certificate: float
    thinner: float
    keys: int


@dataclass(frozen=True)
class _FramePlan:
    stretch: Stretch
    share: float
    key: bool


def frames(plan: Plan, count: int = FRAMES, tell: Progress | None = None) -> Iterator[Frame]:
    """The film in order, `count` frames, two a stretch at least.

    Raises CannotBeMade where a step or a frame can't be made.
    """
    board = board_of(plan)
    shots = _shots(count - 1)
    with ThreadPoolExecutor(2) as pool:
        waiting: deque[Future[Frame]] = deque()
        for number, shot in enumerate(shots):
            waiting.append(pool.submit(_frame, board, shot, plan.job.practice.mirrored))
            if len(waiting) > AHEAD:
                yield waiting.popleft().result()
            if tell is not None:
                tell(shot.stretch.name, number / len(shots))
        last = pool.submit(_buried, plan)
        while waiting:
            yield waiting.popleft().result()
        yield last.result()


def summary(film: Iterable[Frame]) -> tuple[Summary, ...]:
    """The film by stretches, in order."""
    rows: dict[str, list[Frame]] = {}
    for frame in film:
        rows.setdefault(frame.stretch, []).append(frame)
    return tuple(
        Summary(
            stretch,
            len(group),
            min(f.least_gap for f in group),
            min(f.certificate for f in group),
            min(f.thinner for f in group),
            sum(f.key for f in group),
        )
        for stretch, group in rows.items()
    )


def _shots(count: int) -> list[_FramePlan]:
    """Which moments are shown: each stretch's frames evenly spaced, its last one at its end."""
    shots = [_FramePlan(STORY[0], 0.0, False)]
    for stretch, number in zip(STORY, _numbers(count - 1), strict=True):
        shares = (np.arange(number) + 1) / number
        shots += [_FramePlan(stretch, float(share), _at_jump(stretch, share, number)) for share in shares]
    shots[-1] = replace(shots[-1], key=True)
    return shots


def _numbers(count: int) -> list[int]:
    """How many frames each stretch has, at least two; an even number where it has a jump halfway."""
    weights = np.array([stretch.weight for stretch in STORY])
    ideal = count * weights / weights.sum()
    pairs = np.array([stretch.jump is not None for stretch in STORY])
    numbers = np.maximum(2, np.where(pairs, 2 * np.round(ideal / 2), np.round(ideal))).astype(int)
    while numbers.sum() != max(count, 2 * len(STORY)):
        one = int(np.sign(max(count, 2 * len(STORY)) - numbers.sum()))
        lag = np.where(pairs | (numbers + one < 2), -np.inf, one * (ideal - numbers))
        numbers[int(np.argmax(lag))] += one
    return [int(number) for number in numbers]


def _at_jump(stretch: Stretch, share: float, number: int) -> bool:
    """Whether a moment is the last before a change that isn't continuous, or the first after it."""
    return stretch.jump is not None and -1e-9 <= share - stretch.jump < 1 / number + 1e-9


def _frame(board: Board, shot: _FramePlan, left_handed: bool) -> Frame:
    try:
        pose = shot.stretch.move(board, shot.share)
        pose = pose.mirrored if left_handed else pose
        settled, thinner = _settled(board.plan, pose)
    except CannotBeMade as problem:
        where = f"in the film, {shot.stretch.name}: {problem.what}"
        raise CannotBeMade(where, problem.remedy, key=problem.key) from problem
    state = replace(pose.state.lying(marks=_marks(board, pose.state)), name=shot.stretch.to)
    strands = replace(settled.strands, holes=_holes(state))
    log = settled.log
    gap, certificate = 1 - log.overlap, log.certificate_min
    return Frame(shot.stretch.name, shot.share, state, strands, thinner, gap, certificate, shot.key)


def _settled(plan: Plan, pose: Pose) -> tuple[Settled, float]:
    """The pose's strands settled, and the thickness they have; thinner than the pose asks where they must be."""
    state = replace(pose.state, passes=(*pose.state.passes, *pose.entering))
    for share in THINNER:
        thinner = share * pose.thinner
        try:
            settled = settle(_start(plan.braid, state, thinner), effort=EFFORT, bound=BOUND)
            return _relaxed(settled, state, thinner), thinner
        except CannotBeMade as problem:
            refused = problem
    raise refused


def _relaxed(settled: Settled, state: RopeState, thinner: float) -> Settled:
    """The strands as they lie in the hand, where the rope is at its own thickness and isn't laid to a terminator."""
    if thinner < 1 or state.seat is not None or not parted_ones(state.openings):
        return settled
    return shaped_in_hand(settled, state, schedule=IN_HAND, bound=BOUND)


def _start(braid: Braid, state: RopeState, thinner: float) -> Draft:
    """The draft with the first start that is clear enough. Raises CannotBeMade where none is."""
    best, clear = None, LEAST
    laid = draft_of(state)
    for thin, lift in STARTS:
        start = of_thinner_rope(thinned(laid, state, Start(thin, lift * braid.diameter)), thinner)
        now = clearance(start)
        if now >= clear:
            best, clear = start, now
        if now >= ENOUGH:
            break
    if best is None:
        raise CannotBeMade("the guest strands can't be threaded clear of their hosts", "Use a longer pitch")
    return best


def of_thinner_rope(draft: Draft, share: float) -> Draft:
    """The draft of a rope that is thinner by `share`, on the same axis and of the same length."""
    laid = draft.laid
    axis, step = laid.axis, np.diff(laid.station)
    thin = replace(laid.repacked(share * laid.packing), points=axis + share * (laid.points - axis))
    rest = np.sqrt(step**2 + share**2 * np.maximum(draft.rest**2 - step**2, 0.0))
    return Draft(thin, axis + share * (draft.thin - axis), rest)


def _marks(board: Board, state: RopeState) -> tuple[tuple[str, float], ...]:
    """The lettered marks that lie in the model."""
    return tuple((letter, at) for letter, at in board.keys["laid-out"].marks if state.first <= at <= state.last)


def _holes(state: RopeState) -> tuple[Hole, ...]:
    """The state's passes as the strands list them: those that are through."""
    return tuple(hole_of(state, passing) for passing in state.passes)


def _buried(plan: Plan) -> Frame:
    """The finished splice."""
    made = settled_state(plan, FINISHED)
    log = made.settled.log
    return Frame(BURIED, 1.0, made.state, made.settled.strands, 1.0, 1 - log.overlap, log.certificate_min, True)
