"""What each word of the marking means, once: sheet, page and documentation read it here."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

MEANINGS: Mapping[str, str] = MappingProxyType(
    {
        "loop": "rope from H1's middle round the terminator to the point of the tail that lies in H1's middle, or "
        "beside it before the tail has gone through, while the lock isn't made yet; also called the marking loop",
        "finished eye": "rope from H1's middle round the terminator to H1's middle, when the lock is made",
        "hole gap": "in the lock, clear rope between the holes, near edge to near edge; when H2 is checked, its "
        "middle lies one hole gap back from the point of the tail in H1's middle: the loop is H2 + hole gap",
        "throat to crown": "from H1's middle, in a straight line, to where the crown bears",
        "pass-through": "the place where the tail goes through H1",
        "crossing": "where two strands cross; counted along one line on top of the rope, they come "
        "every two picks, 2P/N; an odd number of picks ends half-way between two, and a mark there is reached only by "
        "rolling the rope one strand: no plan takes it",
        "pick": "the spacing of the crossings along the rope, P/N",
        "dotted face": "the face of a hole that carries a dot of ink",
        "R": "the rough bury mark, made first, from the tail's end",
        "B": "the bury mark on the tail, from H1's middle: it comes to lie at E",
        "E": "the entry, where the tail goes into the standing part, from H1's middle",
    }
)
"""Words of the marking, and what each means wherever it stands."""
