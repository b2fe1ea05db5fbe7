"""The page without its script: pictures, words and tables as HTML, every text of the job escaped."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from html import escape
from typing import Any


def plain_html(data: Mapping[str, Any], pictures: Mapping[str, str]) -> str:
    """Steps, mistakes, tables and cautions of a page's data; `pictures` are data links by state."""
    tables = data["tables"]
    parts = [
        f'<div class="card">{_card(data)}</div>',
        *(_step(step, pictures.get(step["state"])) for step in data["steps"]),
        "<h2>Usual mistakes</h2>" if data["wrong"] else "",
        *(_wrong(way, pictures.get(way["state"])) for way in data["wrong"]),
        _table("Lengths", tables["lengths"]),
        _table("Angles, counts and tensions", tables["figures"]),
        _items("ul", tables["words"]),
    ]
    return "\n".join(part for part in parts if part)


def _card(data: Mapping[str, Any]) -> str:
    """What is printed by itself to be laid on the bench: the cautions and the marks."""
    tables = data["tables"]
    parts = (
        f"<h2>{escape(data['name'])}: {escape(data['title'])}</h2>",
        _paragraph(data["summary"]),
        _paragraph(data["caution"]),
        _items("ul", tables["cautions"]),
        _items("ul", tables["warnings"]),
        _table("Marks, in the order in which they are made", tables["marks"]),
    )
    return "\n".join(part for part in parts if part)


def _together(parts: Iterable[str]) -> str:
    """What stays on one printed page."""
    return f'<div class="step">{"".join(parts)}</div>'


def _paragraph(text: str, start: str = "") -> str:
    return f"<p>{f'<b>{escape(start)}</b> ' if start else ''}{escape(text)}</p>" if text else ""


def _items(tag: str, texts: Iterable[str]) -> str:
    found = "".join(f"<li>{escape(text)}</li>" for text in texts)
    return f"<{tag}>{found}</{tag}>" if found else ""


def _picture(link: str | None, words: str, state: str) -> str:
    shown = f'alt="{escape(words)}" data-state="{escape(state)}"'
    return f'<img loading="lazy" {shown} src="{escape(link)}">' if link else ""


def _step(step: Mapping[str, Any], link: str | None) -> str:
    return _together(
        [
            f"<h3>Step {escape(step['name'])}: {escape(step['caption'])}</h3>",
            _picture(link, f"Picture of step {step['name']}: {step['caption']}", step["state"]),
            _items("ol", step["instructions"]),
            _paragraph(step["check"], "Check."),
            _paragraph(step["caution"], "Take care."),
        ]
    )


def _wrong(way: Mapping[str, Any], link: str | None) -> str:
    return _together(
        [
            f"<h3>Step {way['step']}: {escape(way['title'])}</h3>",
            _picture(link, f"Picture of the mistake: {way['title']}", way["state"]),
            _items("ul", way["signs"]),
            _paragraph(way["off"], "How far off."),
            "<p>Remedy:</p>",
            _items("ol", way["back"]),
        ]
    )


def _table(caption: str, rows: Iterable[Mapping[str, str]]) -> str:
    heads = "".join(f'<th scope="col">{head}</th>' for head in ("what", "how much", "measured from"))
    lines = "".join(map(_row, rows))
    return f"<table><caption>{escape(caption)}</caption><thead><tr>{heads}</tr></thead><tbody>{lines}</tbody></table>"


def _row(row: Mapping[str, str]) -> str:
    what = f"{escape(row['label'])}<small>{escape(row['formula'])} [{escape(row['source'])}]</small>"
    place = escape(row["measured_from"]) + (f"<small>{escape(row['note'])}</small>" if row["note"] else "")
    return f'<tr><th scope="row">{what}</th><td>{escape(row["shown"])}</td><td>{place}</td></tr>'
