"""The compiled loop of sweeps on two crossed strands: where it stops, and that it goes on as if it had not."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from fidpath.errors import CannotBeMade
from fidpath.machine.compiled import as_written
from fidpath.settling import solver
from fidpath.settling import sweep_kernels as kernels
from fidpath.settling.flat import Flat
from fidpath.settling.sweep_kernels import SettlingAim

AIM = SettlingAim(1.0, 0.0015, 20, 400, True)
BENEATH = ("near_pairs", "push_apart", "worst_overlap", "relax", "keep_out", "keep_out_of_rods", "hold_back")
OWN = ("pace", "most_move", "_strayed", "_draw_toward_laid", "_give_way", "_overlap", "_done", "_grow", "_copy")


def crossed(apart: float, seat: bool = False) -> Flat:
    """Two straight strands of nine nodes, 1 mm thick, that cross at right angles `apart` mm from one another at first
    and are laid 0.4 mm apart; if asked for with a rod close below and a ring far off.
    """
    along, zero = np.linspace(-4, 4, 9), np.zeros(9)
    begin = np.concatenate([np.column_stack([along, zero, zero]), np.column_stack([zero, along, zero + apart])])
    laid = np.concatenate([np.column_stack([along, zero, zero]), np.column_stack([zero, along, zero + 0.4])])
    last = np.tile(np.arange(9) == 8, 2)
    return Flat(
        x=begin.copy(),
        begin=begin,
        begin_rest=np.where(last, 0.0, 1.0),
        laid=laid,
        start=np.array([0, 9, 18]),
        rest=np.where(last, 0.0, 1.0),
        thick=np.ones(18),
        strand=np.where(last, -1, np.repeat([0, 1], 9)),
        gap=np.full(18, 2),
        ignore=np.zeros(18, bool),
        seat=np.array([20.0, 20.0, 0.0, 5.0, 5.0, 6.0]) if seat else np.empty(0),
        centre=np.array([0.0, 0.0, 90.0]),
        rods=np.array([[0.0, 9, -2.6, 0, 1, 0, 2.0, 0.2, 6.0, 30.0]]) if seat else np.empty((0, 10)),
    )


@pytest.fixture(params=["compiled", "plain"])
def _loops(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    if request.param == "plain":
        for name in (*BENEATH, *OWN, "squared_distance", "_sweep", "sweeps"):
            monkeypatch.setattr(kernels, name, as_written(getattr(kernels, name)))


@pytest.mark.usefixtures("_loops")
@pytest.mark.parametrize("seat", [False, True])
def test_crossed_strands_come_to_touch_and_stay_on_their_own_sides(seat: bool) -> None:
    flat = crossed(0.2, seat)
    log = solver.run(flat, AIM, None)
    assert log.certificate_min > 0.5 and log.overlap < AIM.bound and log.sweeps < AIM.most
    assert 0.98 < flat.x[13, 2] - flat.x[4, 2] < 1.08
    assert (flat.x[4, 2] < -0.3) != seat


@pytest.mark.usefixtures("_loops")
def test_stopping_to_tell_changes_no_bit() -> None:
    at_once, told = crossed(0.2), crossed(0.2)
    shares: list[float] = []
    assert solver.run(at_once, AIM, None) == solver.run(told, AIM, shares.append)
    assert at_once.x.tobytes() == told.x.tobytes()
    assert shares[0] == 0.0 and shares == sorted(shares) and len(shares) > 3 and shares[-1] <= 0.99


def test_listing_neighbours_more_often_than_needed_changes_no_bit(monkeypatch: pytest.MonkeyPatch) -> None:
    seldom, often = crossed(0.2), crossed(0.2)
    log = solver.run(seldom, AIM, None)
    monkeypatch.setattr(solver, "AHEAD", 0.01)
    assert solver.run(often, AIM, None) == log
    assert seldom.x.tobytes() == often.x.tobytes()


@pytest.mark.usefixtures("_loops")
def test_a_certificate_that_falls_too_low_ends_settling_with_words() -> None:
    with pytest.raises(CannotBeMade, match=r"certificate fell to -?0\.0\d\d in sweep 0") as refused:
        solver.run(crossed(0.0005), AIM, None)
    assert refused.value.key == "rope.pitch"
    assert solver.run(crossed(0.0005), AIM._replace(guarded=False, bound=0.0, most=9), None).sweeps == 9


def test_what_progress_raises_ends_the_settling() -> None:
    def stop(share: float) -> None:
        if share > 0:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        solver.run(crossed(0.2), AIM, stop)


@pytest.mark.parametrize("pace", [kernels.pace, as_written(kernels.pace)])
def test_the_ramp_slows_where_strands_are_pressed(pace: Any) -> None:
    assert pace(-1e150) == pace(kernels.FREE) == 1.0
    assert pace(kernels.PRESSED) == pace(0.9) == kernels.SLOWEST
    assert kernels.SLOWEST < pace((kernels.FREE + kernels.PRESSED) / 2) < 1.0


@pytest.mark.parametrize("least", [0.05, 0.5, 0.71, 0.8, 1.0, 1.2])
@pytest.mark.parametrize("most_move", [kernels.most_move, as_written(kernels.most_move)])
def test_a_move_keeps_the_certificate_where_it_can(least: float, most_move: Any) -> None:
    most = most_move(least, 1.0, 0.08)
    assert 0 < most <= min(0.08, kernels.SHARE * least)
    certificate = least - 2 * most
    assert certificate >= min(kernels.KEPT, (1 - 2 * kernels.LEAST_SHARE) * least) - 1e-12
    assert most == pytest.approx(0.08) or certificate <= kernels.KEPT + 1e-12
