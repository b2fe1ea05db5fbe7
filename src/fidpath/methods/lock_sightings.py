"""What is seen of a lock at the bench, however it is made."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from fidpath.methods.diagnosis_questions import Question, SightingError, Split, diameters, one_of, split, yes_or_no
from fidpath.methods.eye_sightings import EyeSightings, check_split
from fidpath.methods.method import Method
from fidpath.planning import Plan


class Face(Enum):
    """A face of H2: the one that got a dot, by which everything goes in, or the other. The values stand in JSON."""

    DOTTED = "dot"
    PLAIN = "other"

    @property
    def words(self) -> str:
        """What the pictures call it."""
        return "dotted" if self is Face.DOTTED else "plain"


@dataclass(frozen=True)
class LockSightings(EyeSightings):
    """What is seen of a lock besides what every eye has.

    standing_part: the face by which it goes into H2, coming from the captive end, or from the end that was passed.
    """

    standing_part: Face | None = None
    split_h1: Split | None = None
    split_h2: Split | None = None
    daylight: bool | None = None
    gap_diameters: float | None = None


FACES = {word: face for face in Face for word in (face.value, face.words)}

SPLIT_H1 = Question(
    "split-h1", "split_h1", "At H1, how many strands pass over what lies in the hole, and how many under?", "6/6", split
)
SPLIT_H2 = Question(
    "split-h2", "split_h2", "At H2, how many strands pass over what lies in the hole, and how many under?", "6/6", split
)
STANDING_PART = Question(
    "standing-part",
    "standing_part",
    "Follow the standing part up from the captive end: does it go into H2 by the dot, or on the other side?",
    "dot or other (the dotted or the plain face)",
    one_of(FACES, "dot or other"),
)
DRAWN_UP: tuple[Question, ...] = (
    Question(
        "daylight",
        "daylight",
        "Drawn up, can you see through between the two legs of the lock?",
        "yes or no",
        yes_or_no,
    ),
    Question(
        "gap", "gap_diameters", "How much rope do you see between the two holes, edge to edge?", "a length", diameters
    ),
)
"""What can be looked at in a lock, in the order of the work."""


def seen_from(h2_marked: str, standing_part_in: str, drawn_up: str) -> tuple[tuple[str, str, str], ...]:
    """From which state on each thing can be looked at, and why not before: as (sighting, state, words).

    The states at which H2 is marked, the standing part lies in it, and the lock is drawn up are the method's own.
    """
    return (
        ("split_h1", "h1-second-fid", "H1 is not opened"),
        ("split_h2", "h2-drawn-out", "H2 is not opened"),
        ("gap_diameters", h2_marked, "H2 is not marked"),
        ("standing_part", standing_part_in, "the standing part is not in H2"),
        ("daylight", drawn_up, "the lock is not drawn up"),
        ("slack_picks", drawn_up, "the lock is not drawn up"),
        ("wont_go_in", drawn_up, "the lock is not drawn up"),
        ("bury_diameters", "cut-and-tapered", "the tail is not cut"),
        ("cover_step", "buried", "the tail is not buried"),
    )


def check_splits(_method: Method, seen: LockSightings, plan: Plan | None) -> None:
    """Strands on both sides of a hole add up to the rope's. Raises SightingError."""
    splits = {"H1": seen.split_h1, "H2": seen.split_h2}
    for name, counted in splits.items():
        check_split(name, counted, plan)
    if len({sum(counted) for counted in splits.values() if counted is not None}) > 1:
        raise SightingError("the counts at H1 and H2 differ, but it is one rope", "Count again")


def check_daylight(_method: Method, seen: LockSightings, _plan: Plan | None) -> None:
    """Legs that gape have rope between their holes. Raises SightingError."""
    if seen.daylight and seen.gap_diameters == 0:
        raise SightingError("there is daylight between the legs, but no rope between the holes", "Look again")
