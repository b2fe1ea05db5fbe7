"""Pictures made small enough to travel in a page, for browsers that can't draw the model themselves."""

from __future__ import annotations

import base64
import io
from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from functools import cache
from typing import Any

from fidpath.outputs.pictures import on_paper

SIZES = ((760, 72), (680, 62), (600, 55), (560, 50), (520, 46), (480, 42), (440, 40), (400, 36), (360, 32), (280, 28))
"""Widths in pixels and qualities that are tried, largest first."""


Link = Callable[[bytes, int, int], str]
"""A PNG picture, a width and a quality to the picture as a data link."""


def linker() -> Link:
    """Makes pictures links, each only once in each size."""
    opened = cache(_opened)
    return cache(lambda content, width, quality: _link(opened(content), width, quality))


def as_links(pictures: Mapping[str, bytes], room: int, link: Link | None = None, at_once: int = 2) -> dict[str, str]:
    """PNG pictures by name as data links (WebP), together at most `room` characters long; the largest that fit.

    Where even the smallest don't fit, as many of them as do, in their order. link: remembers those made before.
    """
    link = link or linker()
    with ThreadPoolExecutor(at_once) as hands:  # Pillow lets go of the interpreter

        def links(size: int) -> list[str]:
            return list(hands.map(link, pictures.values(), *zip(*[SIZES[size]] * len(pictures), strict=True)))

        tried: dict[int, list[str]] = {}
        low, high = 0, len(SIZES) - 1
        while low < high and pictures:
            middle = (low + high) // 2
            tried[middle] = links(middle)
            low, high = (low, middle) if sum(map(len, tried[middle])) <= room else (middle + 1, high)
        found = dict(zip(pictures, tried.get(low) or (links(low) if pictures else []), strict=True))
    return found if sum(map(len, found.values())) <= room else _that_fit(found, room)


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
    small.save(out, format="WEBP", quality=quality, method=2)
    return "data:image/webp;base64," + base64.b64encode(out.getvalue()).decode("ascii")
