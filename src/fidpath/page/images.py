"""Pictures made small enough to travel in a page, for browsers that can't draw the model themselves."""

from __future__ import annotations

import base64
import io
from collections.abc import Mapping
from typing import Any

from fidpath.pages import on_paper

SIZES = ((760, 72), (680, 62), (600, 55), (560, 50), (520, 46), (480, 42), (440, 40), (400, 36), (360, 32), (280, 28))
"""Widths in pixels and qualities that are tried, largest first."""


def as_links(pictures: Mapping[str, bytes], room: int) -> dict[str, str]:
    """PNG pictures by name as data links (WebP), together at most `room` characters long; the largest that fit.

    Where even the smallest don't fit, as many of them as do, in their order.
    """
    opened = {name: _opened(content) for name, content in pictures.items()}
    found: dict[str, str] = {}
    for width, quality in SIZES:
        found = {name: _link(picture, width, quality) for name, picture in opened.items()}
        if sum(map(len, found.values())) <= room:
            return found
    return _that_fit(found, room)


def _that_fit(links: Mapping[str, str], room: int) -> dict[str, str]:
    kept: dict[str, str] = {}
    for name, link in links.items():
        if len(link) <= room:
            kept[name] = link
            room -= len(link)
    return kept


def _opened(content: bytes) -> Any:
    """A picture no larger than the largest size that is tried."""
    from PIL import Image

    with Image.open(io.BytesIO(content)) as picture:
        small = on_paper(picture)
    small.thumbnail((SIZES[0][0], 4 * SIZES[0][0]), Image.Resampling.LANCZOS)
    return small


def _link(picture: Any, width: int, quality: int) -> str:
    from PIL import Image

    small = picture.copy()
    small.thumbnail((width, 4 * width), Image.Resampling.LANCZOS)
    out = io.BytesIO()
    small.save(out, format="WEBP", quality=quality, method=4)
    return "data:image/webp;base64," + base64.b64encode(out.getvalue()).decode("ascii")
