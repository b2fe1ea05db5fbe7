"""What each word of the marking means, once: sheet, page and documentation read it here."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

MEANINGS: Mapping[str, str] = MappingProxyType(
    {
        "loop": "rope from H1's middle round the terminator to the point of the tail that lies in H1's middle (or "
        "beside it, before the pass), while the lock isn't made yet. Also called the marking loop. It is "
        "longer than the finished eye by the rope that the lock takes up",
        "finished eye": "rope from H1's middle round the terminator to H1's middle, when the lock is made",
        "hole gap": "in the lock, the clear rope between the holes, from near edge to near edge. When you mark, H2's "
        "middle lies one hole gap back from the point of the tail that lies in H1's middle",
        "throat to crown": "the straight distance from H1's middle to where the crown bears. It shows how far the "
        "eye or the loop is stretched out",
        "pass-through": "the place where the tail goes through H1",
        "crossing": "a place where two strands cross. Count crossings along one line on top of the rope: they lie two "
        "picks, 2P/N, apart. An odd number of picks ends half-way between two of them; a mark there is "
        "reached only by rolling the rope one strand, and no plan takes it",
        "pick": "the spacing of crossings along the rope, P/N. Crossings of neighbouring lines alternate, so "
        "along one line they are two picks apart",
        "dotted face": "the face of H2 that carries the dot",
        "left, right": "as you look along the rope toward the tail's end: along the standing part that is to the eye",
        "R": "the rough bury mark on the tail, measured from the tail's end at the start. B, measured from H1, falls "
        "on it or close to it, and is the one that counts",
        "B": "the bury mark on the tail: it comes to lie at the entry when the tail is buried",
        "E": "the entry: where the tail goes into the standing part to be buried",
    }
)
"""Words of the marking, and what each means wherever it stands."""
