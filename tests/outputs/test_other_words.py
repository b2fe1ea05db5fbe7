"""Where only a step's words have changed, its picture and its line art are what drawing them anew would give."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest

from fidpath.building.manifest import Manifest
from fidpath.building.request import request_for
from fidpath.methods.method import Method
from fidpath.outputs.registered.steps import PICTURES, make_picture, pictures, step_names
from fidpath.outputs.registry import Context, PictureStyle, Product, Request, Result
from fidpath.settling.settled_states import SettledState
from jobs import a_job
from scenes.settled import settled

SCREEN = PictureStyle()

KINDS = ("laid-out", "h2-inside-out", "locked")
"""A step with one view, one with an opened place cut across, and one with several views."""

WORDS = {
    "caption": "An odd caption",
    "instructions": ("Do this.", "Do that too."),
    "check": "Look.",
    "caution": "Mind it.",
}


def request_of(style: PictureStyle = SCREEN, **changed: Mapping[str, Any]) -> Request:
    """A small splice; changed: fields of steps, by the step's state, its hyphens as underscores."""
    request = request_for(a_job(strands=8, bury=14.0), style)
    other = {state.replace("_", "-"): fields for state, fields in changed.items()}
    steps = tuple(replace(step, **other.get(step.state, {})) for step in request.method.steps)
    return replace(request, method=replace(request.method, steps=steps))


def name_of(method: Method, kind: str) -> str:
    return next(name for name, step in zip(step_names(method), method.steps, strict=True) if step.state == kind)


@lru_cache(maxsize=32)
def drawn(kind: str, style: PictureStyle = SCREEN, reworded: bool = False) -> Product:
    """A step drawn anew, as the method has it or with other words."""
    request = request_of(style, **({kind.replace("-", "_"): WORDS} if reworded else {}))
    return make_picture(Context(request, lambda state: settled(request.plan, state)), name_of(request.method, kind))


def kept(product: Product, folder: Path) -> Result:
    """The same as an earlier build has written it."""
    Manifest(folder).write("step", "digest", product)
    earlier = Manifest(folder).earlier("step")
    assert earlier is not None
    return earlier


def never(kind: str) -> SettledState:
    raise AssertionError(f"{kind} is settled again")


@pytest.mark.parametrize("look", ["screen", "print"])
@pytest.mark.parametrize("kind", KINDS)
def test_other_words_give_the_same_bytes_without_settling_or_drawing(kind: str, look: str, tmp_path: Path) -> None:
    style = PictureStyle(look)
    request = request_of(style, **{kind.replace("-", "_"): WORDS})
    earlier = kept(drawn(kind, style), tmp_path)
    again = make_picture(Context(request, never, earlier=earlier), name_of(request.method, kind))
    anew = drawn(kind, style, reworded=True)
    assert again.files == anew.files
    assert again.files.keys() == drawn(kind, style).files.keys()
    assert all(again.files[name] != content for name, content in drawn(kind, style).files.items())
    assert again.data == kept(anew, tmp_path / "anew").data


@pytest.mark.parametrize("style", [PictureStyle("print"), PictureStyle("screen", transparent=True)])
def test_another_look_is_drawn_anew(style: PictureStyle, tmp_path: Path) -> None:
    request, earlier = request_of(style), kept(drawn("laid-out"), tmp_path)
    with pytest.raises(AssertionError, match="settled again"):
        make_picture(Context(request, never, earlier=earlier), name_of(request.method, "laid-out"))


def test_another_view_mark_or_place_in_the_work_is_drawn_anew(tmp_path: Path) -> None:
    step = request_of().method.step("h2-inside-out")
    views = (replace(step.views[0], say="from somewhere else"), *step.views[1:])
    earlier = kept(drawn("h2-inside-out"), tmp_path)
    others = ({"h2_inside_out": {"views": views}}, {"h2_inside_out": {"marks": ()}})
    for request in (request_of(**other) for other in others):
        with pytest.raises(AssertionError, match="settled again"):
            make_picture(Context(request, never, earlier=earlier), name_of(request.method, "h2-inside-out"))


def test_a_transparent_picture_keeps_its_words(tmp_path: Path) -> None:
    style = PictureStyle("screen", transparent=True)
    earlier = kept(drawn("laid-out", style), tmp_path)
    with pytest.raises(AssertionError, match="settled again"):
        make_picture(Context(request_of(style), never, earlier=earlier), name_of(request_of().method, "laid-out"))


def test_files_that_arent_as_they_were_written_are_no_start(tmp_path: Path) -> None:
    product = drawn("laid-out")
    Manifest(tmp_path).write("step", "digest", product)
    (tmp_path / next(iter(product.files))).write_bytes(b"spoilt")
    assert Manifest(tmp_path).earlier("step") is None
    assert Manifest(tmp_path).earlier("another") is None


def test_words_are_what_a_steps_picture_is_made_from() -> None:
    assert PICTURES.rewords
    plain, other = (list(pictures(request)) for request in (request_of(), request_of(laid_out=WORDS)))
    assert [one.name for one, another in zip(plain, other, strict=True) if one != another] == [plain[0].name]
