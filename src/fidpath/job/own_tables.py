"""Tables of the user's own beside a job: what rope makers ask for, maker by maker, and what fids are called.

The job names the file, `practice.makers` with `practice.maker`, or `tools.fid_sizes`; its path counts from the job's
folder. What the job's own table says wins over the maker's.
"""

from __future__ import annotations

import difflib
from pathlib import Path
from typing import Any

from fidpath.job.key_paths import Parts, key_path
from fidpath.job.locate import KeyedError

MAKERS_KEYS = ("bury", "taper_share", "taper_drops", "hole_gap", "lock_stitch", "neck", "set_load", "set_time")
"""What a maker's table may hold, beside the source of it all."""

SOURCES = {"bury": "bury_source", "taper_share": "taper_source", "hole_gap": "hole_gap_source"}
SOURCES |= {"lock_stitch": "lock_stitch_source"}
"""Figures whose source stands beside them, and the key that holds it."""

Raw = dict[str, Any]


def with_own_tables(raw: Raw, source: str) -> Raw:
    """A job's tables with a maker's rules and the names of fids read in. Raises KeyedError, or JobError in the file."""
    folder, filled = Path(source).parent, dict(raw)
    practice, tools = raw.get("practice"), raw.get("tools")
    if isinstance(practice, dict) and ("maker" in practice or "makers" in practice):
        filled["practice"] = _of_maker(practice, folder)
    if isinstance(tools, dict) and isinstance(tools.get("fid_sizes"), str):
        file = folder / tools["fid_sizes"]
        filled["tools"] = tools | {"fid_sizes": _table(_read(file), ("fids",), file)}
    return filled


def _of_maker(practice: Raw, folder: Path) -> Raw:
    """The practice with what its maker asks for, each figure with the maker as its source."""
    path = key_path("practice")
    for key, other in (("maker", "makers"), ("makers", "maker")):
        if not isinstance(practice.get(key), str):
            what = "the file of makers' rules" if key == "makers" else "the maker's name in that file"
            raise KeyedError(path / key, "this key is missing", f"practice.{other} needs it: {what}, in quotes.")
    file, maker = folder / practice["makers"], practice["maker"]
    known = _read(file)
    if maker not in known:
        near = difflib.get_close_matches(maker, known, n=1)
        hint = f'Did you mean "{near[0]}"?' if near else f"There are {', '.join(known) or 'none'}."
        raise KeyedError(path / "maker", f'{file} has no maker "{maker}"', hint)
    return _merged(practice, _table(known, (maker,), file), f"maker: {maker}", file)


def _merged(practice: Raw, asked: Raw, maker: str, file: Path) -> Raw:
    """The practice with every figure of the maker's that the job doesn't give itself."""
    strange = next((key for key in asked if key not in (*MAKERS_KEYS, "source")), None)
    if strange is not None:
        raise _in_file(file, (maker.removeprefix("maker: "), strange), "unknown key", f"Known: {_known()}.")
    words = f"{maker}, {asked['source']}" if isinstance(asked.get("source"), str) else maker
    taken = {key: asked[key] for key in MAKERS_KEYS if key in asked and key not in practice}
    sources = {SOURCES[key]: words for key in taken if key in SOURCES and SOURCES[key] not in practice}
    return practice | taken | sources


def _known() -> str:
    return ", ".join((*MAKERS_KEYS, "source"))


def _table(known: Raw, path: Parts, file: Path) -> Raw:
    """A table of a file. Raises JobError where there is none."""
    found = known.get(str(path[-1]))
    if not isinstance(found, dict):
        raise _in_file(file, path, "this table is missing", f"Add [{path[-1]}].")
    return found


def _read(file: Path) -> Raw:
    """A file's tables. Raises JobError where it can't be read."""
    from fidpath.job.reader import text_of, toml_of

    return toml_of(text_of(file, "Check its path, which counts from the job's folder"), str(file))


def _in_file(file: Path, path: Parts, what: str, remedy: str) -> Exception:
    """What is wrong in one of these files, with its line."""
    from fidpath.job.reader import placed, text_of

    return placed(KeyedError(path, what, remedy), text_of(file), str(file))
