"""What stands in the fields -> a checked job, or what is wrong, field by field."""

from __future__ import annotations

import copy
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any

from fidpath.errors import FidpathError, JobError
from fidpath.job.job import Job
from fidpath.job.reader import parse_job, text_of, toml_of
from fidpath.job.schema import keys_of
from fidpath.job.terminators.registry import kinds
from fidpath.planning.plan import Plan
from fidpath.planning.planner import make_plan
from fidpath.viewing.live_page.fields import Field, field_keys, fields
from fidpath.viewing.live_page.writer import job_text

LONGEST = 200
"""Letters in one field."""

NUMBER = re.compile(r"[+-]?(\d{1,9}(\.\d{0,9})?|\.\d{1,9})", re.ASCII)


@dataclass(frozen=True)
class Form:
    """A job that holds: its tables as a file has them, the job they make, and its plan."""

    tables: Mapping[str, Any]
    job: Job
    plan: Plan

    @property
    def texts(self) -> dict[str, str]:
        """What stands in each field, by key; "" where the file leaves it out."""
        return {field.key: text_in(self.tables, field) for field in fields()}


@dataclass(frozen=True)
class Refused:
    """What is wrong, in words beside each field's key; `general` is what belongs to none."""

    errors: Mapping[str, str]
    general: str = ""


def read_form(path: FilePath) -> Form:
    """The form of a job file. Raises JobError and CannotBeMade as the plan of the file does."""
    text = text_of(path)
    job = parse_job(text, str(path))
    return Form(toml_of(text, str(path)), job, make_plan(job))


def text_in(tables: Mapping[str, Any], field: Field) -> str:
    """What the tables hold for a field, as it is written in it."""
    value: Any = tables
    for part in field.path:
        value = value[part] if isinstance(part, int) else value.get(part)
        if value is None:
            return ""
    if isinstance(value, list):
        return ", ".join(str(item) for item in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:.12g}" if isinstance(value, float) else str(value)


def tried(form: Form, texts: Mapping[str, str]) -> Form | Refused:
    """The form with these texts in its fields; or every field that is wrong, each on its own account.

    A field that is wrong is set back to see whether others are wrong too.
    """
    if long := {
        key: f"This is too long: write at most {LONGEST} letters." for key, t in texts.items() if len(t) > LONGEST
    }:
        return Refused(long)
    changed = {key for key, text in texts.items() if key in field_keys() and text.strip() != form.texts[key]}
    errors: dict[str, str] = {}
    for _ in range(len(fields()) + 1):
        given = {key: texts[key] for key in changed - errors.keys()}
        try:
            found = _formed(form, given)
        except FidpathError as problem:
            key = _field_of(problem.key or "")
            if key not in changed or key in errors:
                return _placed(problem, key, changed, errors)
            errors[key] = _said(problem)
            continue
        return Refused(errors) if errors else found
    return Refused(errors)


def _formed(form: Form, given: Mapping[str, str]) -> Form:
    """The form with these fields changed. Raises JobError or CannotBeMade."""
    tables = with_texts(form.tables, given)
    job = parse_job(job_text(tables), form.job.source)
    return Form(tables, job, make_plan(job))


def _field_of(key: str) -> str:
    """The field a key of the file belongs to: an item of a list, to its list."""
    return key if key in field_keys() else re.sub(r"\[\d+\]$", "", key)


def _placed(problem: FidpathError, key: str, changed: set[str], errors: dict[str, str]) -> Refused:
    """A problem that lies not in a changed field but between fields: said at the field it names, or in general."""
    if errors:
        return Refused(errors)
    if key in field_keys():
        waiting = {field: "Not used yet: another field has to follow." for field in changed}
        return Refused({**waiting, key: _said(problem)})
    if len(changed) == 1:
        return Refused({next(iter(changed)): _said(problem)})
    return Refused({}, _said(problem))


def _said(problem: FidpathError) -> str:
    """A problem's words, without file and line: the field is its place."""
    if problem.what == "this key is missing":
        example = problem.remedy.partition("= ")[2].strip("[]").replace('"', "")
        return f"Something has to stand here, such as {example}."
    words = f"{problem.what[:1].upper()}{problem.what[1:]}."
    return f"{words} {problem.remedy.rstrip('.')}." if problem.remedy else words


def with_texts(tables: Mapping[str, Any], texts: Mapping[str, str]) -> dict[str, Any]:
    """A copy of a file's tables with these fields' texts, by key; an empty text leaves its key out."""
    made: dict[str, Any] = copy.deepcopy(dict(tables))
    for field in fields():
        if field.key in texts:
            _put(made, field, texts[field.key].strip())
    _keep_to_kind(made.get("terminator", {}))
    return made


def _put(tables: dict[str, Any], field: Field, text: str) -> None:
    """One field's text into the tables."""
    table: Any = tables
    for part, after in zip(field.path[:-1], field.path[1:], strict=True):
        if not isinstance(part, int):
            table.setdefault(part, [] if isinstance(after, int) else {})
        table = table[part]
    name = field.path[-1]
    if text:
        table[name] = _value(field, text)
    else:
        table.pop(name, None)


def _value(field: Field, text: str) -> Any:
    """A text as the value its key wants; one that can't be stays text, which the reader refuses in its own words."""
    if field.kind == "number":
        return int(text) if re.fullmatch(r"[+-]?\d{1,9}", text, re.ASCII) else text
    if field.kind == "share":
        return float(text) if NUMBER.fullmatch(text) else text
    if field.kind == "list":
        return [item.strip() for item in text.split(",") if item.strip()]
    if field.kind == "switch":
        return {"yes": True, "no": False}.get(text, text)
    return text


def _keep_to_kind(terminator: dict[str, Any]) -> None:
    """Drops measures that another kind of terminator has and this one hasn't."""
    kind = terminator.get("kind")
    if kind not in kinds():
        return
    for key in set(terminator) - set(keys_of("terminator", kind)):
        del terminator[key]


def saved_text(form: Form) -> str:
    """The form as a job file's text. Raises JobError where it would not read as the same job: then it isn't written."""
    text = job_text(form.tables)
    if parse_job(text, form.job.source) != form.job:
        raise JobError("the job would not come out of the file as it is here", "Report this job: it is a fault of ours")
    return text
