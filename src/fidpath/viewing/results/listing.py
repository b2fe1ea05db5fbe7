"""The files of a folder of results that fidpath wrote, in groups as a person looks for them."""

from __future__ import annotations

from dataclasses import dataclass
from fnmatch import fnmatchcase
from pathlib import Path

from fidpath.building import Manifest

GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("The page: one file for any phone or computer, without a network", ("splice.html",)),
    ("The handout, to print at 100 %", ("handout-*.pdf",)),
    ("Pictures of the finished splice", ("[0-9]-*.png",)),
    ("Pictures of the steps", ("contact-sheet.png", "steps/*.png")),
    ("Usual mistakes beside the right way", ("mistakes.png", "wrong/*.png")),
    ("Motion from step to step", ("*.webp", "motion.json")),
    ("Jigs and gauges, to print or to cut", ("jigs/*",)),
    ("Line art for print", ("lineart/*",)),
    ("Solids of the finished splice", ("splice-mm.stl", "splice.glb")),
    ("Solids of the steps", ("steps/*",)),
    ("Under load", ("*load*",)),
    ("Plan and check, for other programs", ("plan.json", "verify.json")),
    ("Other files", ("*",)),
)
"""Titles, and the paths that belong under them; a file is listed under the first that it fits."""


@dataclass(frozen=True)
class Listed:
    """One file: its path in the folder, and its size in bytes."""

    path: str
    size: int


def listing(folder: Path) -> list[tuple[str, list[Listed]]]:
    """What fidpath wrote into a folder and is there still, in groups; none where there is no such folder."""
    groups: dict[str, list[Listed]] = {title: [] for title, _ in GROUPS}
    for name in sorted(Manifest(folder).known()):
        found = ours(folder, name)
        if found is not None:
            groups[_group_of(name)].append(Listed(name, found.stat().st_size))
    return [(title, files) for title, files in groups.items() if files]


def result_file(folder: Path, name: str) -> Path | None:
    """A file that fidpath wrote into the folder, by its path there; None for any other."""
    return ours(folder, name) if name in Manifest(folder).known() else None


def ours(folder: Path, name: str) -> Path | None:
    """A plain file below the folder, reached through no link; None where there is none."""
    path = folder / name
    home = folder.resolve()
    return path if path.is_file() and path.resolve() == home / name else None


def _group_of(name: str) -> str:
    return next(title for title, patterns in GROUPS if any(fnmatchcase(name, pattern) for pattern in patterns))
