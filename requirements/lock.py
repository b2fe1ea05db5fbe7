"""Locks what pyproject.toml asks for: versions and hashes of files, in the files beside this one.

`make lock` renews them with uv, to the newest versions that go together, for every Python and system that fidpath runs
on; `make lint` runs `--check`, which needs no network. A file holds only what the files before it don't.
"""

from __future__ import annotations

import argparse
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

HERE = Path(__file__).parent

SETS: dict[str, tuple[str, ...]] = {
    "base": (),
    "dev": ("base",),
    "docs": ("base", "dev"),
    "bench": ("base", "dev"),
    "mutation": ("base", "dev"),
    "topology": (),
}
"""What is locked, and the sets that are installed before each. `base` is what users need; the others are extras."""

PIN = re.compile(r"^(?P<name>[A-Za-z0-9._-]+)==(?P<version>[^\s;]+)", re.MULTILINE)
ASKED = "# asked for: "


def asked_for(project: dict[str, Any], name: str) -> list[str]:
    """What pyproject.toml asks for as one set; the base has the tools that the package is built with as well."""
    if name != "base":
        return sorted(project["project"]["optional-dependencies"][name])
    return sorted([*project["project"]["dependencies"], *project["build-system"]["requires"]])


def pins(text: str) -> list[str]:
    """The pins of a lock file, each with its marker and its hashes."""
    return re.findall(r"^[^#\s].*(?:\n[ ].*)*\n", text, re.MULTILINE)


def locked(uv: str, project: dict[str, Any], name: str) -> str:
    """A lock file made anew, from the index that uv is set to."""
    wanted = asked_for(project, name)
    before = [HERE / f"{one}.txt" for one in SETS[name]]
    least = re.sub(r"[^\d.]", "", project["project"]["requires-python"])
    command = [uv, "pip", "compile", "-", "--universal", "--python-version", least, "--generate-hashes", "--quiet"]
    command += ["--no-header", "--no-annotate", *(part for path in before for part in ("--constraint", str(path)))]
    made = subprocess.run(command, input="\n".join(wanted), capture_output=True, text=True, check=False)
    if made.returncode != 0:
        sys.exit(f"uv couldn't lock {name}:\n{made.stderr}")
    there = {pin.splitlines()[0] for path in before for pin in pins(path.read_text(encoding="utf-8"))}
    new = [pin for pin in pins(made.stdout) if pin.splitlines()[0] not in there]
    head = ["# Made by `make lock`; not to be edited.", *(f"{ASKED}{one}" for one in wanted)]
    return "\n".join([*head, "", *new])


def faults(project: dict[str, Any], folder: Path) -> Iterator[str]:
    """Where lock files aren't of this pyproject.toml."""
    for name, before in SETS.items():
        texts = {one: _text(folder / f"{one}.txt") for one in (*before, name)}
        wanted = asked_for(project, name)
        known = [line.removeprefix(ASKED) for line in texts[name].splitlines() if line.startswith(ASKED)]
        if known != wanted:
            changed = ", ".join(sorted({*known} ^ {*wanted}))
            yield f"{name}.txt is not of this pyproject.toml: {changed}"
        yield from _unmet(name, wanted, "\n".join(texts.values()))


def _unmet(name: str, wanted: list[str], text: str) -> Iterator[str]:
    """Requirements that no pin, or a pin out of their bounds, answers."""
    found = [(canonicalize_name(pin["name"]), pin["version"]) for pin in PIN.finditer(text)]
    for line in wanted:
        asked = Requirement(line)
        versions = [version for known, version in found if known == canonicalize_name(asked.name)]
        if not versions or not all(asked.specifier.contains(version, prereleases=True) for version in versions):
            yield f"{name}.txt: {line} is not met by {', '.join(versions) or 'anything'}"


def _text(path: Path) -> str:
    return path.read_text(encoding="utf-8") if path.exists() else ""


def main() -> None:
    """Renews the lock files, or checks them."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--check", action="store_true", help="only say whether they are of this pyproject.toml")
    parser.add_argument("--uv", default="uv", metavar="PROGRAM", help="where uv is")
    said = parser.parse_args()
    project = tomllib.loads((HERE.parent / "pyproject.toml").read_text(encoding="utf-8"))
    if said.check:
        wrong = list(faults(project, HERE))
        sys.exit("\n".join([*wrong, "Run `make lock`."]) if wrong else 0)
    for name in SETS:
        (HERE / f"{name}.txt").write_text(locked(said.uv, project, name), encoding="utf-8")


if __name__ == "__main__":
    main()
