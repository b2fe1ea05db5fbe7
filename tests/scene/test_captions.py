"""Words for turns and for where a view is seen from."""

from __future__ import annotations

from fidpath.scene.captions import seen_from, sights, turn_words
from fidpath.scene.stage import staged
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
        for kind in ("h1-second-fid", "bight-in-h2", "locked")
        for view in sights(worded_step(kind), ())
        if not view.state
    ]
    assert [seen_from(view) for view in views] == [
        "from the standing part's left",
        "from above",
        "from the captive end's side",
        "from above",
        "from the standing part's right",
    ]
