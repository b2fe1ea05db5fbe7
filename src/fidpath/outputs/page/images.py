"""Pictures made small enough to travel in a page, for browsers that can't draw the model themselves."""

from __future__ import annotations

import base64
import io
from collections.abc import Mapping
from typing import Any

from fidpath.outputs.pictures import on_paper
from fidpath.scene import COLUMN, Box, Panel, Scene

SIZES = ((760, 72), (680, 62), (600, 55), (560, 50), (520, 46), (480, 42), (440, 40), (400, 36), (360, 32), (280, 28))
"""Widths in pixels and qualities that are tried, largest first."""

SHARE = 13_500
"""Characters that a picture may take: those of the longest method then leave room for states of the usual length."""

WEBP = "data:image/webp;base64,"


def small(content: bytes, most: int = SHARE, scene: Scene | None = None) -> str:
    """A picture as a data link (WebP) of at most `most` characters: as large as that allows, else the smallest.

    scene: what it is of, where its drawings alone are wanted: a page has its words beside it, in letters that can be
    read.
    """
    opened = _opened(content, scene)
    tried: dict[int, str] = {}
    low, high = 0, len(SIZES) - 1
    while low < high:
        middle = (low + high) // 2
        tried[middle] = _link(opened, *SIZES[middle])
        low, high = (low, middle) if len(tried[middle]) <= most else (middle + 1, high)
    return tried[low] if low in tried else _link(opened, *SIZES[low])


def fitting(links: Mapping[str, str], room: int) -> dict[str, str]:
    """Links by name that take at most `room` characters together, each made smaller where they would take more.

    Where even the smallest don't fit, as many of them as do, in their order.
    """
    if sum(map(len, links.values())) <= room:
        return dict(links)
    most = room // len(links)
    smaller = {name: link if len(link) <= most else small(_content(link), most) for name, link in links.items()}
    return _that_fit(smaller, room)


def _that_fit(links: Mapping[str, str], room: int) -> dict[str, str]:
    kept: dict[str, str] = {}
    for name, link in links.items():
        if len(link) <= room:
            kept[name] = link
            room -= len(link)
    return kept


def _opened(content: bytes, scene: Scene | None) -> Any:
    """A picture no larger than the largest size that is tried."""
    from PIL import Image

    with Image.open(io.BytesIO(content)) as picture:
        opened = on_paper(picture) if scene is None else drawings(on_paper(picture), scene)
    opened.thumbnail((SIZES[0][0], 4 * SIZES[0][0]), Image.Resampling.LANCZOS)
    return opened


def drawings(picture: Any, scene: Scene) -> Any:
    """A scene's picture without title, key and words: its panels, those in the column of words below the others."""
    from PIL import Image

    scale = picture.width / scene.size[0]
    boxes = [tuple(round(scale * side) for side in _corners(panel)) for panel in scene.panels]
    aside = [box for box in boxes if box[0] >= round(scale * COLUMN[0])]
    main = [box for box in boxes if box not in aside]
    left, top = (min(box[side] for box in main) for side in (0, 1))
    right, bottom = (max(box[side] for box in main) for side in (2, 3))
    pieces = [picture.crop(box) for box in ((left, top, right, bottom), *aside)]
    made = Image.new("RGB", (pieces[0].width, sum(piece.height for piece in pieces)), "white")
    below = 0
    for piece in pieces:
        made.paste(piece, (0, below))
        below += piece.height
    return made


def _corners(panel: Panel) -> Box:
    """Left, top, right and bottom of a panel with the band for its caption, page pixels."""
    x, y, width, height = panel.box
    return x, y - panel.head, x + width, y + height


def _link(picture: Any, width: int, quality: int) -> str:
    from PIL import Image

    smaller = picture.copy()
    smaller.thumbnail((width, 4 * width), Image.Resampling.LANCZOS)
    out = io.BytesIO()
    smaller.save(out, format="WEBP", quality=quality, method=2)
    return WEBP + base64.b64encode(out.getvalue()).decode("ascii")


def _content(link: str) -> bytes:
    return base64.b64decode(link.removeprefix(WEBP))
