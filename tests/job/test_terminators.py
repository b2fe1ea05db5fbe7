"""What can sit in the eye: every kind read, checked and turned into its body; the registry that all else reads."""

from __future__ import annotations

import ast
import re
from pathlib import Path
from typing import Literal

import pytest

import fidpath
from fidpath.errors import JobError
from fidpath.job.bearing_body import Body, Circle, round_planform
from fidpath.job.keys import Table
from fidpath.job.reader import parse_job
from fidpath.job.template import template
from fidpath.job.terminators.registry import keys_by_name, kinds, register

BEFORE, OWN, AFTER = re.split(r"\[terminator\]\n|(?=\[line\])", template("test splice"), maxsplit=2)
"""A new job file, taken apart at its terminator; its rope is 10 mm thick."""


def job_text(table: str) -> str:
    """A job file with this terminator."""
    return f"{BEFORE}[terminator]\n{table}\n{AFTER}"


def body_of(table: str) -> Body:
    """The body of a terminator, from its table."""
    return parse_job(job_text(table)).terminator.body


def refused(table: str) -> JobError:
    """The error a terminator is refused with."""
    with pytest.raises(JobError) as caught:
        parse_job(job_text(table))
    assert caught.value.line and caught.value.remedy
    return caught.value


def example(word: str) -> dict[str, str]:
    """The table of a kind, each key with its example, as the file has them."""
    return {"kind": f'"{word}"'} | {name: key.written for name, key in kinds()[word].keys().items()}


def table_of(values: dict[str, str]) -> str:
    """A table's text."""
    return "\n".join(f"{name} = {value}" for name, value in values.items())


TEARDROP = 'kind = "teardrop"\nbearing_diameter = "40 mm"\ngroove_radius = "5.5 mm"\nwidth = "12 mm"\n'
DEADEYE = 'kind = "deadeye"\nbearing_diameter = "48 mm"\ngroove_radius = "5.5 mm"\nwidth = "12 mm"\n'
THIMBLE = 'kind = "thimble"\nbearing_diameter = "40 mm"\ngroove_radius = "5.5 mm"\nwidth = "12 mm"\n'
SHEAVE = 'kind = "sheave"\nbearing_diameter = "80 mm"\ngroove_radius = "5.5 mm"\nwidth = "16 mm"\n'


def shackle(**changed: str) -> str:
    """The table of a bow shackle, some keys changed."""
    values = {
        "kind": '"shackle"', "bears_on": '"bow"', "pin_diameter": '"22 mm"', "bow_diameter": '"20 mm"',
        "jaw_width": '"32 mm"', "bow_width": '"50 mm"', "inside_length": '"76 mm"',
    }  # fmt: skip
    return table_of(values | {name: f'"{value}"' for name, value in changed.items()})


@pytest.mark.parametrize(
    ("table", "key", "what"),
    [
        (TEARDROP + 'length = "40 mm"', "length", "shorter than its own circle"),
        (TEARDROP + 'length = "70 mm"\nnose_radius = "20 mm"', "nose_radius", "isn't narrower than the crown"),
        (DEADEYE + 'lashing_holes = 0\nlashing_hole = "9 mm"', "lashing_holes", "0 lashing holes"),
        (DEADEYE + 'lashing_holes = 3\nlashing_hole = "23 mm"', "lashing_hole", "don't fit inside"),
        ('kind = "pin"\nbearing_diameter = "20 mm"\nwidth = "7 mm"', "width", "the pin is 7 mm wide, narrower than"),
        ('kind = "pin"\nbearing_diameter = "20 mm"\nwidth = "9 mm"\nhole = "3 mm"', "hole", "for a pin"),
        ('kind = "pin"\nbearing_diameter = "20 mm"\nwidth = "3 d"', "width", "can't be given in rope diameters"),
        ('kind = "pin"\nbearing_diameter = "9 m"\nwidth = "12 mm"', "bearing_diameter", "9000 mm is too large"),
        (THIMBLE, "shape", "this key is missing"),
        (THIMBLE + 'shape = "oval"', "shape", "not one of the choices"),
        (THIMBLE + 'shape = "teardrop"', "length", "this key is missing"),
        (THIMBLE + 'shape = "round"\nlength = "70 mm"', "length", "a round thimble has no such key"),
        (THIMBLE + 'shape = "round"\nnose_radius = "4 mm"', "nose_radius", "a round thimble has no such key"),
        (THIMBLE + 'shape = "teardrop"\nlength = "38 mm"', "length", "shorter than its own circle"),
        (THIMBLE.replace("12 mm", "9 mm") + 'shape = "round"', "width", "the thimble is 9 mm wide"),
        (SHEAVE, "bore", "this key is missing"),
        (SHEAVE + 'bore = "80 mm"', "bore", "leaves nothing of the bearing of 80 mm"),
        (SHEAVE.replace("5.5 mm", "4 mm") + 'bore = "16 mm"', "groove_radius", "8 mm across, narrower"),
        (shackle(bears_on="jaw"), "bears_on", "not one of the choices"),
        (shackle(bears_on="pin", jaw_width="11 mm"), "jaw_width", "11 mm between the jaws leave no room"),
        (shackle(bow_width="11 mm", jaw_width="8 mm"), "bow_width", "11 mm across the bow leave no room"),
        (shackle(inside_length="11 mm"), "inside_length", "leave no room for the 10 mm rope"),
        (shackle(bow_width="30 mm"), "bow_width", "narrower than the 32 mm between the jaws"),
        (shackle(inside_length="30 mm"), "inside_length", "too short for a bow 50 mm wide"),
    ],
)
def test_a_terminator_that_cant_be(table: str, key: str, what: str) -> None:
    error = refused(table)
    assert error.key == f"terminator.{key}"
    assert what in error.what


def test_what_a_refusal_says_to_write_is_then_taken() -> None:
    """The least clear length, and the least room between the jaws, as the refusals have them."""
    for changed in ({"inside_length": "30 mm"}, {"bears_on": "pin", "jaw_width": "11 mm"}):
        said = refused(shackle(**changed))
        wanted = re.search(r"at least ([\d.]+ mm)", said.remedy)
        assert wanted is not None
        body_of(shackle(**changed | {said.key.partition(".")[2]: wanted[1]}))


def test_bodies_of_every_kind() -> None:
    drop = body_of(TEARDROP + 'length = "70 mm"\nnose_radius = "5 mm"')
    assert drop.planform == (Circle(0.0, 0.0, 20.0), Circle(-45.0, 0.0, 5.0))
    assert body_of(TEARDROP + 'length = "70 mm"').planform[1].radius == pytest.approx(0.15 * 20)
    eye = body_of(DEADEYE + 'lashing_holes = 3\nlashing_hole = "9 mm"')
    assert [hole.radius for hole in eye.holes] == [4.5] * 3 and eye.planform == round_planform(48.0)
    assert body_of('kind = "pin"\nbearing_diameter = "20 mm"\nwidth = "11 mm"') == Body(round_planform(20.0), 11.0)
    wheel = body_of(SHEAVE + 'bore = "16 mm"')
    assert (wheel.bore, wheel.groove, wheel.width, wheel.bearing_diameter) == (16.0, 5.5, 16.0, 80.0)
    assert not wheel.bars and len(wheel.faces) == 4


def test_a_thimble_is_what_its_shape_says() -> None:
    ring = THIMBLE.replace("thimble", "ring")
    assert body_of(THIMBLE + 'shape = "round"\nhole = "20 mm"') == body_of(ring + 'hole = "20 mm"')
    length = 'length = "70 mm"\nnose_radius = "4 mm"'
    assert body_of(THIMBLE + f'shape = "teardrop"\n{length}') == body_of(TEARDROP + length)


def test_a_shackle_bears_on_its_pin_between_its_jaws_or_on_its_bows_bar() -> None:
    on_pin, on_bow = (body_of(shackle(bears_on=on)) for on in ("pin", "bow"))
    assert (on_pin.bearing_diameter, on_pin.width, on_pin.groove) == (22.0, 32.0, 0.0)
    assert (on_bow.bearing_diameter, on_bow.width, on_bow.groove) == (20.0, 15.0, 25.0)
    assert len(on_pin.bars) == len(on_bow.bars)


def test_every_kinds_example_is_a_job(monkeypatch: pytest.MonkeyPatch) -> None:
    for word in kinds():
        terminator = parse_job(job_text(table_of(example(word)))).terminator
        assert (terminator.kind, f'"{terminator.name}"') == (word, example(word)["name"])


def test_a_new_job_file_has_every_key_of_every_kind_in_its_notes() -> None:
    """What the notes give for a kind, in place of what stands there, is that kind's table."""
    first = dict(re.findall(r"^(\w+) = (\S+(?: \w+)*\"|\S+)", OWN, re.M))
    assert set(first) == {"kind", *kinds()["ring"].keys()}
    for word, kind in kinds().items():
        noted = re.findall(r"^# (\w+) = (.+?) +# ([\w, ]+): ", OWN, re.M)
        own = {key: value for key, value, words in noted if word in words.split(", ")}
        assert kind.keys().keys() <= first.keys() | own.keys()
        values = {key: value for key, value in (first | own).items() if key in kind.table.model_fields}
        assert parse_job(job_text(table_of(values | {"kind": f'"{word}"'}))).terminator.kind == word


def test_keys_that_kinds_share_have_one_label_and_the_same_limits() -> None:
    for name, (key, words) in keys_by_name().items():
        for word in words:
            own = kinds()[word].keys()[name]
            assert (own.label, own.limits) == (key.label, key.limits)
            assert own.label and own.note


def test_a_second_kind_of_one_word_and_a_key_without_its_note_are_refused() -> None:
    class Again(Table):
        kind: Literal["ring"]

    class Bare(Table):
        kind: Literal["bare"]
        width: int

    for table, error in ((Again, ValueError), (Bare, LookupError)):
        with pytest.raises(error):
            register(table, label="x", note="x")(lambda table, d: Body(round_planform(1.0), 1.0))
    assert "bare" not in kinds()


def test_no_module_but_a_kinds_own_says_a_kinds_word() -> None:
    """Outside `job/terminators` no string is a kind's word, but for the one that a new job file begins with."""
    home = Path(fidpath.__file__).parent
    others = [path for path in home.rglob("*.py") if path.parent.name != "terminators"]
    said = []
    for path in others:
        tree = ast.parse(path.read_text(encoding="utf-8"))
        words = [node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and node.value in kinds()]
        said += [(path.name, word) for word in words]
    assert said == [("template.py", "ring")]
