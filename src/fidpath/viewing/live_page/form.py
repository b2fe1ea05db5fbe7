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
from fidpath.viewing.live_page.field import Field
from fidpath.viewing.live_page.fields import field_keys, fields

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
        value = _below(value, part)
        if value is None:
            return ""
    if isinstance(value, list):
        return ", ".join(_shown(item) for item in value)
    if isinstance(value, dict):
        pairs = (f"{name} = {_shown(item)}" for name, item in value.items())
        return "yes" if field.kind == "switch" else ", ".join(pairs)
    return _shown(value)


def _below(value: Any, part: str | int) -> Any:
    """What a table or a list holds there; None where there is nothing."""
    if isinstance(part, int):
        return value[part] if isinstance(value, list) and part < len(value) else None
    return value.get(part) if isinstance(value, dict) else None


def _shown(value: Any) -> str:
    """One value as it is written in a field."""
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
        example = problem.remedy.partition("= ")[2].replace('"', "").replace("[", "").replace("]", "")
        return "Something has to stand here." if "..." in example else f"Something has to stand here, such as {example}"
    words = f"{problem.what[:1].upper()}{problem.what[1:]}."
    return f"{words} {problem.remedy.rstrip('.')}." if problem.remedy else words


def with_texts(text: str, texts: Mapping[str, str]) -> str:
    """A file's text with these fields' texts, by key; an empty one leaves its key out. The file's comments stay."""
    import tomlkit

    document = tomlkit.parse(text)
    for field in fields():
        if field.key in texts:
            _put(document, field, texts[field.key].strip())
    for table in (document, *document.get("line", {}).get("ends", [])[1:]):
        _keep_to_kind(table.get("terminator", {}))
    _drop_empty(document)
    return tomlkit.dumps(document)


def _put(document: MutableMapping[str, Any], field: Field, text: str) -> None:
    """One field's text into the file's tables; a table that isn't there is added for a text alone."""
    table: Any = document
    for part in field.path[:-1]:
        if not isinstance(_below(table, part), dict | list):
            if not text:
                return
            _add(table, part)
        table = table[part]
    name = field.path[-1]
    if not text:
        table.pop(name, None)
    elif not (field.kind == "switch" and text == "yes" and isinstance(table.get(name), dict)):
        table[name] = _value(field, text)


def _add(table: Any, part: str | int) -> None:
    """An empty table in another, or as a list's next."""
    if isinstance(part, int):
        table.append({})
    else:
        table[part] = {}


def _drop_empty(document: MutableMapping[str, Any]) -> None:
    """Takes out tables that nothing stands in any more; stitches without a pattern are the usual ones."""
    line, practice = document.get("line", {}), document.get("practice", {})
    ends = line.get("ends", [])
    for end in ends[1:]:
        if "kind" not in end.get("terminator", {"kind": ""}):
            del end["terminator"]
    if len(ends) > 1 and not ends[1]:
        del ends[1]
    if line.get("adjuster") == {}:
        del line["adjuster"]
    if practice.get("lock_stitch") == {}:
        practice["lock_stitch"] = True


def _value(field: Field, text: str) -> Any:
    """A text as the value its key wants; one that can't be stays text, which the reader refuses in its own words."""
    if field.kind == "number":
        return int(text) if re.fullmatch(r"[+-]?\d{1,9}", text, re.ASCII) else text
    if field.kind == "share":
        return float(text) if NUMBER.fullmatch(text) else text
    if field.kind == "list":
        return _items(text)
    if field.kind == "numbers":
        return [float(item) if NUMBER.fullmatch(item) else item for item in _items(text)]
    if field.kind == "switch":
        return {"yes": True, "no": False}.get(text, text)
    if field.kind == "sizes" and "=" in text:
        pairs = [item.partition("=") for item in _items(text)]
        return {name.strip(): size.strip() for name, _, size in pairs}
    return text


def _items(text: str) -> list[str]:
    """What stands between commas."""
    return [item.strip() for item in text.split(",") if item.strip()]


def _keep_to_kind(terminator: MutableMapping[str, Any]) -> None:
    """Drops measures that another kind of terminator has and this one hasn't."""
    kind = terminator.get("kind")
    if kind not in kinds():
        return
    for key in set(terminator) - set(keys_of("terminator", kind)):
        del terminator[key]
