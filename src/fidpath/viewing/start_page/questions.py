"""A new job by a few questions: the rope, what sits in the eye, what is at hand. What isn't asked keeps its rule."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from fidpath.job import parse_job, template
from fidpath.planning import make_plan
from fidpath.viewing.live_page import (
    Form,
    Refused,
    described,
    fid_size,
    fields,
    measured,
    sized_up,
    switched,
    system_of,
    tried,
)

ROPE = ("rope.diameter", "rope.strands", "rope.weave", "rope.pitch", "rope.crossings", "rope.over")
NOTES = {
    "name": "its results go into a folder of this name",
    "rope.diameter": "nominal, as its label or data sheet says",
    "rope.strands": "count them all: a multiple of 4, half of them turn each way",
    "rope.weave": "how many strands each strand passes over before it passes under",
    "rope.pitch": "along the rope, for one turn of a strand round it",
    "rope.crossings": "20 or more, along one line on top of the rope, under the reference tension",
    "rope.over": "from the first to the last of them",
    "terminator.kind": "what the rope lies round",
    "line.ends[1].splice": "captive: nothing can be passed over the line's other end",
    "line.captive_end": "why nothing can be passed over it",
    "tools.fids": "their diameters, commas between; left empty: the two sizes that this rope asks for",
}
"""What is to be measured or said, where the field alone leaves a doubt."""

ASKED = ("name", *ROPE, "line.captive_end", "line.ends[1].splice", "tools.fids")
SOURCE = "new job"


def blank(system: str) -> Form:
    """The job that a new one begins as: an example whose figures are to be replaced."""
    text = template("my splice")
    job = parse_job(text, SOURCE)
    form = Form(text, job, make_plan(job))
    if system == "mm":
        return form
    changed = tried(form, {**switched(fields(), form.texts, "in"), **INCHES})
    assert isinstance(changed, Form), changed
    return changed


INCHES = {
    "rope.diameter": "3/8 in",
    "rope.name": "12-strand HMPE, 3/8 in",
    "terminator.bearing_diameter": "2 in",
    "terminator.groove_radius": "7/32 in",
    "terminator.width": "9/16 in",
    "terminator.hole": "1 1/4 in",
    "tools.fids": "5/16 in, 7/16 in",
}
"""An example's sizes as they are sold in inches."""


def questions(system: str) -> dict[str, Any]:
    """The questions: the fields asked for, and what stands in them as an example."""
    form = blank(system)
    asked = [field for field in described(form.job) if field["key"] in ASKED or _of_terminator(field["key"])]
    for field in asked:
        field["note"] = NOTES.get(field["key"], field["note"])
    return {"fields": asked, "texts": {field["key"]: form.texts[field["key"]] for field in asked}}


def _of_terminator(key: str) -> bool:
    return key.startswith("terminator.") and key != "terminator.name"


def answered(system: str, texts: Mapping[str, str]) -> Form | Refused:
    """The job that the answers make, or what is wrong with them, field by field; its rope is named by its figures."""
    form = blank(system)
    known = {key: text for key, text in texts.items() if key in form.texts}
    strands, diameter = known.get("rope.strands", "").strip(), known.get("rope.diameter", "").strip()
    usual = {
        "rope.name": f"{strands}-strand HMPE, {diameter}",
        "line.name": known.get("name", ""),
        "line.captive_end": "made off to a fitting",
        "tools.fids": fids_for(diameter),
        "terminator.name": "",
    }
    given = {key: text for key, text in known.items() if text.strip() or key not in usual}
    return tried(form, {**form.texts, **usual, **given})


def fids_for(diameter: str) -> str:
    """Two fids of the sizes that the rules ask for; some or other while the rope's diameter can't be read."""
    measure = measured(diameter)
    if measure is None or measure.unit == "d":
        return "8 mm, 12 mm"
    sizes = (fid_size(name, measure.value) for name in ("fid_opens", "fid_passes"))
    return ", ".join(sized_up(size, system_of(diameter)) for size in sizes)


def file_name(name: str) -> str:
    """What the file of a job of this name is called."""
    return f"{Path(name.strip()).name or 'job'}.toml"
