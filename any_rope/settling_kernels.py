"""The loops that the page's settling calls, each with an example of its arguments: only their types matter."""

from __future__ import annotations

import numpy as np

from compile_kernels import Kernel
from fidpath.machine.compiled import as_written
from fidpath.settling import contact_kernels, neighbour_kernels, sweep_kernels
from fidpath.settling.flat import Flat
from fidpath.settling.solver import room_for, state_at_first

NODES = 2


def kernels() -> dict[str, Kernel]:
    """Those loops by name."""
    flat = an_example()
    room, aim = room_for(flat), sweep_kernels.SettlingAim(1.0, 0.001, 1, 1, True)
    pairs = np.zeros((1, 2), dtype=np.int64)
    grid = neighbour_kernels.new_grid(NODES, NODES)
    return {
        "list_neighbours": Kernel(
            as_written(neighbour_kernels.list_neighbours), (flat.x, flat.strand, flat.gap, flat.thick, 1.0, grid, pairs)
        ),
        "near_pairs": Kernel(
            as_written(contact_kernels.near_pairs),
            (flat.x, pairs, flat.thick, 1.0, room.apart_until, 1.0, room.active, room.least),
        ),
        "sweeps": Kernel(as_written(sweep_kernels.sweeps), (flat, room, state_at_first(aim), aim, 1)),
    }


def an_example() -> Flat:
    """Flat nodes of the right types."""
    points, row, numbers = np.zeros((NODES, 3)), np.zeros(NODES), np.zeros(NODES, dtype=np.int64)
    return Flat(
        x=points,
        begin=points,
        begin_rest=row,
        laid=points,
        start=numbers,
        rest=row,
        thick=row,
        strand=numbers,
        gap=numbers,
        ignore=np.zeros(NODES, dtype=bool),
        seat=row,
        centre=row,
        rods=np.zeros((0, 10)),
    )
