"""Contact between strands with its neighbours found anew, against PyElastica's contact between rods, in one run.

The same straight rope: twelve strands as rods, every pair of them. Ours: neighbours, near pairs, one push apart. The
peer's: its contact for all pairs of rods, which finds no neighbours but drops pairs whose bounding boxes are apart;
here none are.
Needs the extra `bench`. Run: python benchmarks/bench_contact.py
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations
from types import SimpleNamespace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fidpath.geometry.braid import braid_of, straight
from fidpath.job.job import Rope
from fidpath.settling import contact_kernels as kernels
from fidpath.settling import neighbours
from figures import figure, least, power

SIZES = ((217, 30.0), (667, 100.0))
"""Nodes of a strand, and how many times faster ours has to be: about 2,600 and 8,000 nodes."""

Floats = NDArray[np.float64]


def strands(nodes: int, d: float = 10.0) -> tuple[Floats, float]:
    """Twelve strands of straight rope `(12, nodes, 3)` mm, noded as the settled splice is, and their thickness."""
    braid = braid_of(Rope("rope", d, d, d, 12, "over-two", 7 * d, 0.75))
    return straight(braid, np.arange(nodes) * 0.15 * d), braid.thickness


def ours(points: Floats, thickness: float) -> Callable[[], int]:
    """A sweep's contact: neighbours found anew, the near ones, and a push."""
    count, nodes = points.shape[:2]
    flat = np.ascontiguousarray(points.reshape(-1, 3))
    strand = np.repeat(np.arange(count), nodes)
    strand[nodes - 1 :: nodes] = -1
    thick = np.full(len(flat), thickness)
    least = np.zeros(2)

    def once() -> int:
        x = flat.copy()
        pairs = neighbours(x, strand, np.full(len(flat), 3), thick, 0.3 * thickness)
        active = np.empty(len(pairs), np.int64)
        unseen = np.full(len(pairs), -np.inf)
        near = kernels.near_pairs(x, pairs, thick, 0.1 * thickness, unseen, 0.0, active, least)
        kernels.push_apart(x, pairs, active, near, thick)
        return len(pairs)

    return once


def peer(points: Floats, thickness: float) -> Callable[[], int]:
    """PyElastica's contact for every pair of rods."""
    from elastica.contact_forces import RodRodContact

    rods = [rod(line, thickness / 2) for line in points]
    contact = RodRodContact(np.float64(1e3), np.float64(1.0))

    def once() -> int:
        for first, second in combinations(rods, 2):
            contact.apply_contact(first, second)
        return len(rods) * (len(rods) - 1) // 2

    return once


def rod(line: Floats, radius: float) -> Any:
    """What the peer's contact reads of a rod, and where it adds its forces."""
    step = np.diff(line, axis=0).T
    lengths = np.linalg.norm(step, axis=0)
    nodes = len(line)
    return SimpleNamespace(
        position_collection=np.ascontiguousarray(line.T),
        radius=np.full(nodes - 1, radius),
        lengths=lengths,
        tangents=np.ascontiguousarray(step / lengths),
        velocity_collection=np.zeros((3, nodes)),
        internal_forces=np.zeros((3, nodes)),
        external_forces=np.zeros((3, nodes)),
    )


def warm(work: Callable[[], int], rounds: int) -> float:
    """Least seconds of some runs, after one that is not counted."""
    work()
    return least(work, rounds)


def main() -> None:
    """Prints the figures."""
    own, sizes = [], []
    for nodes, wanted in SIZES:
        points, thickness = strands(nodes)
        mine, other = warm(ours(points, thickness), 7), warm(peer(points, thickness), 3)
        beside = f"{1e3 * mine:.2f} ms against PyElastica's {1e3 * other:.0f} ms"
        figure(f"contact of {12 * nodes} nodes, times as fast", other / mine, "x", wanted, least=True, beside=beside)
        own.append(mine)
        sizes.append(12 * nodes)
    figure("contact grows as nodes to the power", power(sizes, own), "", 1.3, beside="all pairs: 2")


if __name__ == "__main__":
    main()
