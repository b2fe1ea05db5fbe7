"""Plans of every scene, figure by figure, as they were released: they change only with a line in CHANGELOG.md."""

from __future__ import annotations

import json
import math
import runpy
from pathlib import Path
from typing import Any

import pytest

GOLDEN = Path(__file__).parent / "golden"
KEPT = json.loads((GOLDEN / "plans.json").read_text(encoding="utf-8"))


NOW = runpy.run_path(str(GOLDEN / "update.py"))
SCENES = {path.stem: path for path in NOW["scenes"]()}


def differences(kept: Any, now: Any, place: str) -> list[str]:
    """Where two sets of plain data differ by more than a billionth, or than the millionth they are rounded to."""
    if isinstance(kept, dict) and isinstance(now, dict):
        keys = [f"{place}.{key}: only in one" for key in sorted(kept.keys() ^ now.keys())]
        return keys + [
            text for key in kept.keys() & now.keys() for text in differences(kept[key], now[key], f"{place}.{key}")
        ]
    if isinstance(kept, list) and isinstance(now, list) and len(kept) == len(now):
        return [
            text for k, (a, b) in enumerate(zip(kept, now, strict=True)) for text in differences(a, b, f"{place}[{k}]")
        ]
    numbers = all(isinstance(value, int | float) and not isinstance(value, bool) for value in (kept, now))
    same = math.isclose(kept, now, rel_tol=1e-9, abs_tol=2e-6) if numbers else kept == now
    return [] if same else [f"{place}: was {kept}, is {now}"]


def test_every_scene_is_kept() -> None:
    assert SCENES.keys() == KEPT["plans"].keys()


@pytest.mark.parametrize("scene", sorted(KEPT["plans"]))
def test_no_figure_of_a_plan_has_changed(scene: str) -> None:
    assert differences(KEPT["plans"][scene], NOW["figures"](SCENES[scene]), scene) == []


def test_the_last_change_of_figures_is_in_the_changelog() -> None:
    changes = (GOLDEN.parents[2] / "CHANGELOG.md").read_text(encoding="utf-8")
    assert KEPT["because"] in " ".join(changes.split())


def test_a_changed_figure_would_be_seen() -> None:
    kept = KEPT["plans"]["demo"]
    spoilt = json.loads(json.dumps(kept))
    spoilt["take_up_mm"] *= 1 + 1e-6
    spoilt["marks"][0]["name"] = "other"
    assert [text.split(":")[0] for text in sorted(differences(kept, spoilt, "demo"))] == [
        "demo.marks[0].name",
        "demo.take_up_mm",
    ]
