"""Words for turns and for where a view is seen from."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fidpath.methods.card import card_lines
from fidpath.methods.registry import method_of
from fidpath.methods.wording import worded_method
from fidpath.planning.planner import make_plan
from fidpath.scene.captions import Sight, entry_words, seen_from, sights, turn_words
from fidpath.scene.paint import model_of
from fidpath.scene.stage import staged
from jobs import a_job
from scenes.settled import settled
from scenes.steps import settled_state, small_plan, worded_step


def test_turns_are_counted_with_their_hands() -> None:
    assert [turn_words(turns) for turns in (0, 1, -1, 2)] == [
        "no turn",
        "1 turn right-handed",
        "1 turn left-handed",
        "2 turns right-handed",
    ]
    labels = [label.text for label in staged(settled_state("h2-inside-out"), None, small_plan(), (), turns=True).labels]
    assert labels == ["top group:\n1 turn left-handed", "bottom group:\n1 turn right-handed"]
    (h2,) = staged(settled_state("locked"), None, small_plan(), ("H2",), turns=True).labels
    assert h2.text.endswith("no turn in either group")


def test_where_a_view_is_seen_from_is_said() -> None:
    views = [
        view
        for kind in ("h1-second-fid", "h1-in-h2", "locked")
        for view in sights(worded_step(kind), ())
        if not view.state
    ]
    assert [seen_from(view) for view in views] == [
        "from the standing part's left",
        "from above",
        "from the captive end's side",
        "from above",
        "from above",
    ]
    assert seen_from(Sight(("eye",), (0.3, -0.6, 0.8), (0.0, 0.0, 1.0))) == "from the standing part's right"


@pytest.mark.parametrize(
    ("method", "state"), [("locked-captive", "buried"), ("locked-free", "buried"), ("plain", "plain-buried")]
)
def test_words_say_the_side_that_the_tail_goes_in_on_in_the_state(method: str, state: str) -> None:
    """Measured on the settled strands: the tail's middle just outside the entry, beside the standing part's."""
    plan = make_plan(a_job(bury=18.0, bearing=4.0, splice=method))
    model = model_of(settled(plan, state))
    bury, d = model.strands.bury, model.d
    assert bury is not None
    strands = model.points()
    tail, host = (strands[:, model.column(at)].mean(axis=0) for at in (bury.guest[0] - d, bury.host[0] + d))
    side = "left" if np.cross(model.along(bury.host[0] + d), tail - host)[2] > 0 else "right"
    assert entry_words(model) == f"entry: the tail goes in\non the standing part's {side}"
    words = worded_method(method_of(method), plan)
    burying = " ".join(text for step in words.steps for text in step.instructions if "up the middle of" in text)
    assert f"out at E on the standing part's {side}" in burying
    assert any(f"In at E on the standing part's {side}" in line for line in card_lines(method_of(method), plan))


def test_a_mirrored_tail_goes_in_on_the_other_side() -> None:
    job = a_job(bury=18.0, bearing=4.0)
    plan, left = (make_plan(replace(job, practice=replace(job.practice, hand=hand))) for hand in ("right", "left"))
    sides = [entry_words(model_of(settled(one, "buried"))).split()[-1] for one in (plan, left)]
    assert sorted(sides) == ["left", "right"]
    assert entry_words(model_of(settled(plan, "locked"))) == ""


def test_a_leg_between_two_holes_is_named_by_them() -> None:
    """With H2 in its curl the standing part lies in it, and the rope that comes back from H1: not yet the eye."""
    labels = staged(settled_state("h2-curled"), None, small_plan(), ("H1", "H2"), turns=False).labels
    assert {"between the holes:\nfrom H1 to H2", "standing part"} <= {label.text for label in labels}
    assert "eye" not in {label.text for label in labels}
