"""Moves from the line laid out to the tail drawn through its own hole."""

from __future__ import annotations

from dataclasses import replace

from fidpath.outputs.motion.morph import between, resized, shut
from fidpath.outputs.motion.moves import THROUGH, Board, Pose, fids, opened, phase, seated
from fidpath.states import RopeState

SHORT = 2.0
"""How far short of a hole a tail's end is brought before it goes in, in rope diameters."""


def wrap(board: Board, share: float) -> Pose:
    """The line brought round the terminator."""
    laid, wrapped = board.keys["laid-out"], board.bare("wrapped")
    state = between(board.plan.braid, laid, wrapped, phase(share))
    return Pose(seated(board, state, board.plan.loop_fitted / 2) if share > 0 else state)


def unwrap(board: Board, share: float) -> Pose:
    """The terminator taken out and the rope straightened."""
    state = between(board.plan.braid, board.bare("wrapped"), _straight(board), phase(share))
    return Pose(state)


def _straight(board: Board) -> RopeState:
    return replace(board.bare("h1-first-fid"), openings=())


def first_fid(board: Board, share: float) -> Pose:
    """The small fid pushed into H1."""
    state = board.keys["h1-first-fid"]
    return Pose(fids(board, state, "H1", state.tools, shut(board.plan.braid, state.opening("H1")), share))


def second_fid(board: Board, share: float) -> Pose:
    """The small fid drawn, the larger one pushed in."""
    first, second = board.keys["h1-first-fid"], board.keys["h1-second-fid"]
    held = first.opening("H1")
    if share < 0.4:
        return Pose(fids(board, first, "H1", first.tools, held, 1 - share / 0.4))
    return Pose(fids(board, second, "H1", second.tools, held, (share - 0.4) / 0.6))


def tail_to_h1(board: Board, share: float) -> Pose:
    """The larger fid drawn, the tail swung round until its end lies before H1's left face."""
    opened, entering = board.keys["h1-second-fid"], _before_h1(board, -SHORT)
    start = board.whole(opened)
    if share < 0.25:
        least = resized(opened.opening("H1"), entering.opening("H1"), 0.5)
        return Pose(fids(board, start, "H1", opened.tools, least, 1 - share / 0.25))
    line = replace(start, tools=(), openings=(resized(opened.opening("H1"), entering.opening("H1"), 0.5),))
    return Pose(between(board.plan.braid, line, replace(entering, passes=()), phase(share, 0.25, 1)))


def _before_h1(board: Board, beyond: float) -> RopeState:
    """The tail's end `beyond` diameters beyond H1's centre, listed as a pass."""
    state = board.keys["tail-entering"]
    passes = (replace(state.passes[0], guest=board.builder.tail_end - beyond * board.d),)
    return between(board.plan.braid, state, state, 0.0, passes=passes)


def tail_into_h1(board: Board, share: float) -> Pose:
    """The tail's end pushed into H1 by its left face."""
    beyond = -SHORT + share * (4 + SHORT)
    return _listed(board, _before_h1(board, beyond), beyond)


def _listed(board: Board, state: RopeState, beyond: float) -> Pose:
    """A state whose last pass is the tail's own end, so far beyond the hole's centre: entering, or through."""
    if beyond >= THROUGH:
        return Pose(state)
    return Pose(replace(state, passes=state.passes[:-1]), state.passes[-1:])


def drawn_through_h1(board: Board, share: float) -> Pose:
    """The tail drawn through H1 until the loop is as long as for marking."""
    start, end = board.keys["tail-entering"], board.bare("marking")
    state = between(board.plan.braid, start, end, share)
    return Pose(seated(board, state, state.passes[0].guest / 2) if share > 0.75 else state)


def h2_out(board: Board, share: float) -> Pose:
    """The terminator taken out, H2 drawn out through H1 to its far side."""
    return Pose(between(board.plan.braid, board.bare("marking"), _h2_shut(board), phase(share)))


def _h2_shut(board: Board) -> RopeState:
    """H2 drawn out, not yet opened."""
    state = board.bare("h2-drawn-out")
    return opened(board, state, shut(board.plan.braid, state.opening("H2")))


def h2_fids(board: Board, share: float) -> Pose:
    """H2 opened wide with both fids from opposite sides."""
    state = board.keys["h2-drawn-out"]
    return Pose(fids(board, state, "H2", state.tools, shut(board.plan.braid, state.opening("H2")), share))


def in_a_circle(board: Board, share: float) -> Pose:
    """The fids drawn, the line laid in a circle until the tail's own end lies before H2's left face."""
    opened_, entering = board.keys["h2-drawn-out"], _before_h2(board, -SHORT)
    start = board.whole(opened_)
    least = resized(opened_.opening("H2"), entering.opening("H2"), 0.5)
    if share < 0.2:
        return Pose(fids(board, start, "H2", opened_.tools, least, 1 - share / 0.2))
    line = opened(board, replace(start, tools=()), least)
    target = replace(entering, passes=entering.passes[:1])
    return Pose(between(board.plan.braid, line, target, phase(share, 0.2, 1)))


def _before_h2(board: Board, beyond: float) -> RopeState:
    """The tail's own end `beyond` diameters beyond H2's centre, listed as a pass."""
    state = board.keys["tail-end-in-h2"]
    passes = (state.passes[0], replace(state.passes[1], guest=board.builder.tail_end - beyond * board.d))
    return between(board.plan.braid, state, state, 0.0, passes=passes)


def tail_into_h2(board: Board, share: float) -> Pose:
    """The tail's own end pushed into H2 by its left face."""
    end = (board.builder.tail_end - board.keys["tail-end-in-h2"].passes[1].guest) / board.d
    beyond = -SHORT + share * (end + SHORT)
    return _listed(board, _before_h2(board, beyond), beyond)


def drawn_through_h2(board: Board, share: float) -> Pose:
    """The tail drawn through its own hole until its curl is nearly closed."""
    return Pose(between(board.plan.braid, board.keys["tail-end-in-h2"], board.keys["curl-closing"], share))
