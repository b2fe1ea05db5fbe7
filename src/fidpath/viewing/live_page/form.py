"""What stands in the fields -> a checked job, or what is wrong, field by field."""

from __future__ import annotations

import re
from collections.abc import Mapping, MutableMapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path as FilePath
from typing import Any

from fidpath.errors import FidpathError
from fidpath.job import Job, keys_of, kinds, parse_job, text_of, toml_of
from fidpath.planning import Plan, make_plan
from fidpath.viewing.live_page.fields import Field, field_keys, fields

LONGEST = 200
"""Letters in one field."""

NUMBER = re.compile(r"[+-]?(\d{1,9}(\.\d{0,9})?|\.\d{1,9})", re.ASCII)


@dataclass(frozen=True)
class Form:
    """A job that holds: the text of its file, the job it makes, and its plan."""

    text: str
    job: Job
    plan: Plan

    @cached_property
    def tables(self) -> Mapping[str, Any]:
        """The file's tables."""
        return toml_of(self.text, self.job.source)

    @cached_property
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
    return Form(text, job, make_plan(job))


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
            candidate = _formed(form, given)
        except FidpathError as problem:
            key = _field_of(problem.key or "")
            if key not in changed or key in errors:
                return _placed(problem, key, changed, errors)
            errors[key] = _said(problem)
            continue
        return Refused(errors) if errors else candidate
    return Refused(errors)


def _formed(form: Form, given: Mapping[str, str]) -> Form:
    """The form with these fields changed. Raises JobError or CannotBeMade."""
    text = with_texts(form.text, given)
    job = parse_job(text, form.job.source)
    return Form(text, job, make_plan(job))


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


def with_texts(text: str, texts: Mapping[str, str]) -> str:
    """A file's text with these fields' texts, by key; an empty one leaves its key out. The file's comments stay."""
    import tomlkit

    document = tomlkit.parse(text)
    for field in fields():
        if field.key in texts:
            _put(document, field, texts[field.key].strip())
    _keep_to_kind(document.get("terminator", {}))
    return tomlkit.dumps(document)


def _put(document: MutableMapping[str, Any], field: Field, text: str) -> None:
    """One field's text into the file's tables; a table that isn't there is added for a text alone."""
    table: Any = document
    for part in field.path[:-1]:
        if not isinstance(part, int) and part not in table:
            if not text:
                return
            table[part] = {}
        table = table[part]
    name = field.path[-1]
    if text:
        table[name] = _value(field, text)
    elif name in table:
        del table[name]


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


def _keep_to_kind(terminator: MutableMapping[str, Any]) -> None:
    """Drops measures that another kind of terminator has and this one hasn't."""
    kind = terminator.get("kind")
    if kind not in kinds():
        return
    for key in set(terminator) - set(keys_of("terminator", kind)):
        del terminator[key]
