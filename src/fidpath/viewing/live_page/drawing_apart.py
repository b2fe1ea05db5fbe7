"""What is drawn by a process of its own, which ends with it: nothing of a drawing library stays in the server."""

from __future__ import annotations

import signal
from collections.abc import Callable
from multiprocessing import get_context
from multiprocessing.connection import Connection
from typing import Any

from fidpath.errors import EnvironmentProblem, FidpathError

Stopped = Callable[[], bool]

LOOK = 0.1
"""Seconds between two looks at a process that draws."""


def drawn_apart(draw: Callable[..., Any], given: tuple[Any, ...], stopped: Stopped) -> Any:
    """What a function of a module makes of these, in a process that is ended where nobody waits for it any more.

    Raises what the function raises of our own errors, and EnvironmentProblem where the process was stopped.
    """
    context = get_context("spawn")
    receiving, sending = context.Pipe(duplex=False)
    process = context.Process(target=_draw_into, args=(sending, draw, given), daemon=True)
    process.start()
    sending.close()
    try:
        while not receiving.poll(LOOK):
            if stopped():
                raise EnvironmentProblem("the drawing was stopped")
        return _made(receiving.recv())
    except EOFError:
        raise EnvironmentProblem(
            "the process that draws was stopped from outside", "Free some memory and try again"
        ) from None
    finally:
        process.kill()
        process.join()
        receiving.close()


def _made(answer: object) -> Any:
    """What the drawing process sent; the problem it met is raised."""
    if isinstance(answer, FidpathError):
        raise answer
    return answer


def _draw_into(sending: Connection, draw: Callable[..., Any], given: tuple[Any, ...]) -> None:
    """The drawing process: a Ctrl-C is the server's to answer."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        answer = draw(*given)
    except FidpathError as problem:
        answer = problem
    sending.send(answer)
