"""The answer to what is seen at the bench, for reading and for other programs."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator
from typing import Any

from fidpath.cautions import BESIDE_DIAGNOSES
from fidpath.machine import results_folder
from fidpath.methods.diagnosis import Answer, Diagnosis

MISTAKE_SCHEMA = 2
WIDTH = 110
NOTHING = "None of this points to a usual mistake. What wasn't looked at may still be wrong."
NO_JOB = "Figures in square brackets are the job's: name its file to see them."


def picture_of(job_name: str | None, name: str) -> str:
    """Where `fidpath build` puts the picture of a mistake; nothing without a job."""
    return "" if job_name is None else (results_folder(job_name, None) / "wrong" / f"{name}.png").as_posix()


def as_json(answer: Answer, job_name: str | None) -> str:
    """The answer as JSON text that ends with a line end."""
    data = {
        "mistake_schema": MISTAKE_SCHEMA,
        "job": job_name,
        "sightings": dict(answer.sightings),
        "likely": [_entry(one, job_name) for one in answer.likely],
        "look_next": list(answer.look_next),
        "cautions": list(BESIDE_DIAGNOSES),
    }
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _entry(one: Diagnosis, job_name: str | None) -> dict[str, Any]:
    return {
        "name": one.mistake.name,
        "title": one.mistake.title,
        "weight": one.weight,
        "why": list(one.why),
        "made_at_step": one.mistake.step_number,
        "how_far_off": one.how_far_off,
        "signs": list(one.mistake.signs),
        "remedy": list(one.mistake.remedy),
        "picture": picture_of(job_name, one.mistake.name),
    }


def as_text(answer: Answer, job_name: str | None) -> str:
    """The answer as it is read at the bench; ends with a line end."""
    blocks = [list(_block(number, one, job_name)) for number, one in enumerate(answer.likely, 1)]
    blocks = blocks or [list(_wrapped(NOTHING))]
    if answer.look_next:
        blocks.append(["LOOK NEXT", *(line for text in answer.look_next for line in _wrapped(text, "  - "))])
    if answer.likely and job_name is None:
        blocks.append(list(_wrapped(NO_JOB)))
    blocks.append(["CAUTIONS", *(line for text in BESIDE_DIAGNOSES for line in _wrapped(text, "  - "))])
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def _block(number: int, one: Diagnosis, job_name: str | None) -> Iterator[str]:
    yield f"{number}. {one.mistake.title.upper()} (made at step {one.mistake.step_number})"
    for text in one.why:
        yield from _wrapped(text, "   seen      ")
    if one.how_far_off:
        yield from _wrapped(one.how_far_off, "   how far   ")
    for place, text in enumerate(one.mistake.remedy, 1):
        yield from _wrapped(text, f"   {'remedy' if place == 1 else '':<9} {place}. ")
    for place, text in enumerate(one.mistake.signs):
        yield from _wrapped(text, f"   {'its signs' if place == 0 else '':<9} ")
    picture = picture_of(job_name, one.mistake.name)
    if picture:
        yield f"   picture   {picture} (`fidpath build` writes it)"


def _wrapped(text: str, start: str = "") -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=start, subsequent_indent=" " * len(start), break_long_words=False)
