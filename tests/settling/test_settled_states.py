"""States with their sections: made once where they are shown, and not at all for a ghost."""

from __future__ import annotations

import pickle

import pytest

from fidpath.loading.in_hand import state_in_hand
from fidpath.scene.paint import model_of
from fidpath.settling import settled_states
from fidpath.settling.settled_states import laid_state
from scenes.steps import settled_state, small_plan, step_scene, worded_step


def _no_sections(*_: object) -> None:
    raise AssertionError("sections were made")


def test_a_settled_state_is_handed_on_with_its_sections(monkeypatch: pytest.MonkeyPatch) -> None:
    made = state_in_hand(small_plan(), "h1-second-fid")
    monkeypatch.setattr(settled_states, "sections_of", _no_sections)
    assert (pickle.loads(pickle.dumps(made)).sections.rings == made.sections.rings).all()


def test_a_laid_state_is_a_ghost_without_sections(monkeypatch: pytest.MonkeyPatch) -> None:
    before, made = laid_state(small_plan(), "tail-swung-round"), settled_state("bight-in-h2")
    with monkeypatch.context() as none_made:
        none_made.setattr(settled_states, "sections_of", _no_sections)
        scene = step_scene(worded_step("bight-in-h2"), made, before, small_plan())
    assert any(panel.ghosts for panel in scene.panels)
    assert before.sections.rings.shape[2] == before.rays == 12


def test_sections_for_views_from_far_off_are_made_once() -> None:
    model = model_of(settled_state("h1-second-fid"))
    assert model.coarse is model.coarse
    assert model.coarse.rings.shape[2] == 12
