"""The pages' scripts as they are shipped: of the sources that are in the repository. It needs no node."""

from __future__ import annotations

import hashlib
import json
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[3]
PAGE = ROOT / "page"
BUNDLES = sorted(ROOT.glob("src/**/assets/bundle.js"))


def digest_of(folder: Path) -> str:
    """What page/build.mjs writes at a bundle's head: of each source its path and text, a zero byte after each."""
    own = sorted(path.relative_to(folder).as_posix() for path in folder.glob("src/**/*") if path.is_file())
    found = hashlib.sha256()
    for name in sorted([*own, "build.mjs", "package-lock.json"]):
        found.update(f"{name}\0{(folder / name).read_text(encoding='utf-8')}\0".encode())
    return found.hexdigest()[:16]


@pytest.mark.parametrize("bundle", BUNDLES, ids=lambda path: path.parents[1].name)
def test_a_shipped_script_is_built_of_the_sources_as_they_are(bundle: Path) -> None:
    head = bundle.read_text(encoding="utf-8").partition("\n")[0]
    assert digest_of(PAGE) in head, "run `make page`"


def test_each_page_has_its_own() -> None:
    assert [path.parents[1].name for path in BUNDLES] == ["page", "live_page", "start_page"]


def test_npm_packages_are_locked_by_their_hashes_and_name_no_registry() -> None:
    lock = json.loads((PAGE / "package-lock.json").read_text(encoding="utf-8"))
    wanted = json.loads((PAGE / "package.json").read_text(encoding="utf-8"))["devDependencies"]
    assert lock["packages"][""]["devDependencies"] == wanted
    packages = {name: entry for name, entry in lock["packages"].items() if name}
    assert all(entry["integrity"].startswith("sha512-") for entry in packages.values())
    assert not [name for name, entry in packages.items() if "resolved" in entry]
    hosts = set(re.findall(r"https?://([^/\"]+)", json.dumps(lock)))
    assert hosts <= {"github.com", "opencollective.com", "eslint.org"}  # where their makers ask for support
