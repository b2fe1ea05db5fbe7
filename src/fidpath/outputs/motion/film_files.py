"""Films as files: animated WebP and GIF by Pillow's own codecs, MP4 where the optional imageio-ffmpeg is there.

Every writer takes pictures with the time each is shown, and gives the same bytes for the same pictures.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fidpath.errors import EnvironmentProblem
from fidpath.machine import beside

Picture = NDArray[np.uint8]

QUALITIES = (78, 50, 32)
"""Qualities of WebP that every picture is written at; the best that keeps the film within its limit is kept."""

EFFORT = 2
"""Effort of the WebP encoder, 0 to 6."""

GIF_WIDTHS = (640, 480, 400, 320, 240)
"""Widths tried for a GIF, pixels: it packs far worse, so it is smaller."""

GIF_COLOURS = 64

MP4_RATE = 30
"""Pictures a second in an MP4; a picture shown longer is repeated."""


@dataclass(frozen=True)
class Still:
    """One picture of a film `(h, w, 3) uint8`, and how long it is shown, in milliseconds."""

    picture: Picture
    shown: int


def write_film(target: Path, stills: Iterable[Still], limit: int) -> None:
    """Writes a film in the format of the target's suffix, if possible in no more than `limit` bytes.

    Raises OutputError where it can't be written, EnvironmentProblem where the format or its library isn't there.
    """
    writer = WRITERS.get(target.suffix.lower())
    if writer is None:
        raise EnvironmentProblem(
            f"a film can't be written as {target.suffix or 'a file without a suffix'}",
            f"Use one of {', '.join(WRITERS)}",
        )
    with beside(target) as part:
        writer(part, iter(stills), limit)


@dataclass(frozen=True)
class _ChangedPart:
    """What changes from one picture to the next: its left and top edge, size, time shown, and its bytes by quality."""

    corner: tuple[int, int]
    size: tuple[int, int]
    shown: int
    bytes: Future[list[bytes]]


def _webp(part: Path, stills: Iterator[Still], limit: int) -> None:
    """Every picture coded by itself, only where it differs from the one before, in a RIFF container (WebP container
    specification, animation)."""
    with ThreadPoolExecutor(2) as pool:
        pieces, size = [], (0, 0)
        before: Picture | None = None
        for still in stills:
            pieces.append(_piece(still, before, pool))
            before = still.picture
            size = (before.shape[1], before.shape[0])
        coded = [piece.bytes.result() for piece in pieces]
    for quality in range(len(QUALITIES)):
        content = _riff(size, [_anmf(piece, each[quality]) for piece, each in zip(pieces, coded, strict=True)])
        if len(content) <= limit:
            break
    part.write_bytes(content)


def _piece(still: Still, before: Picture | None, pool: ThreadPoolExecutor) -> _ChangedPart:
    """The part of a picture that differs from the one before, from even edges on, coded in the background."""
    height, width = still.picture.shape[:2]
    left, top, right, low = 0, 0, width, height
    if before is not None:
        changed = (still.picture != before).any(axis=2)
        rows, columns = np.flatnonzero(changed.any(axis=1)), np.flatnonzero(changed.any(axis=0))
        left, right = (int(columns[0]) // 2 * 2, int(columns[-1]) + 1) if len(columns) else (0, 2)
        top, low = (int(rows[0]) // 2 * 2, int(rows[-1]) + 1) if len(rows) else (0, 2)
    part = np.ascontiguousarray(still.picture[top:low, left:right])
    return _ChangedPart((left, top), (right - left, low - top), still.shown, pool.submit(_coded, part))


def _coded(picture: Picture) -> list[bytes]:
    """The picture's WebP data at each quality, without the file's own header."""
    from PIL import Image

    image, coded = Image.fromarray(picture), []
    for quality in QUALITIES:
        out = io.BytesIO()
        image.save(out, format="WEBP", quality=quality, method=EFFORT)
        coded.append(out.getvalue()[12:])
    return coded


def _anmf(piece: _ChangedPart, data: bytes) -> bytes:
    """One frame's chunk: it replaces what lay there before, and stays."""
    x, y = (edge // 2 for edge in piece.corner)
    head = b"".join(_three(n) for n in (x, y, piece.size[0] - 1, piece.size[1] - 1, piece.shown)) + b"\x02"
    return _chunk(b"ANMF", head + data)


def _riff(size: tuple[int, int], frames: list[bytes]) -> bytes:
    """The whole file: an animation on white that runs for ever."""
    head = _chunk(b"VP8X", b"\x02\0\0\0" + _three(size[0] - 1) + _three(size[1] - 1))
    return _chunk(b"RIFF", b"WEBP" + head + _chunk(b"ANIM", b"\xff\xff\xff\xff\0\0") + b"".join(frames))


def _chunk(name: bytes, content: bytes) -> bytes:
    return name + len(content).to_bytes(4, "little") + content + b"\0" * (len(content) % 2)


def _three(number: int) -> bytes:
    return number.to_bytes(3, "little")


def _gif(part: Path, stills: Iterator[Still], limit: int) -> None:
    """The widest of GIF_WIDTHS that keeps within the limit, in colours that cover those of a few pictures along it."""
    from PIL import Image

    kept = [(Image.fromarray(still.picture), still.shown) for still in stills]
    few = [image for image, _ in kept[:: max(len(kept) // 6, 1)]]
    strip = Image.new("RGB", (few[0].width // 2, few[0].height // 2 * len(few)))
    for row, image in enumerate(few):
        strip.paste(image.resize((image.width // 2, image.height // 2)), (0, row * (image.height // 2)))
    colours = strip.quantize(GIF_COLOURS, method=Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE)
    for width in GIF_WIDTHS:
        content = _gif_bytes(kept, colours, width)
        if len(content) <= limit:
            break
    part.write_bytes(content)


def _gif_bytes(kept: list[tuple[Any, int]], colours: Any, width: int) -> bytes:
    from PIL import Image

    height = round(kept[0][0].height * width / kept[0][0].width)
    small = [
        image.resize((width, height), Image.Resampling.BOX).quantize(palette=colours, dither=Image.Dither.NONE)
        for image, _ in kept
    ]
    out = io.BytesIO()
    small[0].save(
        out, format="GIF", save_all=True, append_images=small[1:], duration=[t for _, t in kept], loop=0, disposal=1
    )
    return out.getvalue()


def _mp4(part: Path, stills: Iterator[Still], limit: int) -> None:
    """H.264 by one thread, without dates or versions in the file."""
    try:
        import imageio_ffmpeg
    except ImportError as problem:
        raise EnvironmentProblem(
            "a film as MP4 needs imageio-ffmpeg, which isn't installed",
            "pip install 'fidpath[film]', or write .webp or .gif",
        ) from problem
    kept = list(stills)
    seconds = sum(still.shown for still in kept) / 1000
    height, width = kept[0].picture.shape[:2]
    exact = ["-threads", "1", "-fflags", "+bitexact", "-flags:v", "+bitexact", "-map_metadata", "-1"]
    writer = imageio_ffmpeg.write_frames(
        str(part),
        (width, height),
        fps=MP4_RATE,
        codec="libx264",
        bitrate=int(0.85 * 8 * limit / seconds),
        macro_block_size=2,
        output_params=[*exact, "-movflags", "+faststart"],
    )
    writer.send(None)
    for still in kept:
        for _ in range(max(round(still.shown * MP4_RATE / 1000), 1)):
            writer.send(np.ascontiguousarray(still.picture))
    writer.close()


WRITERS: dict[str, Callable[[Path, Iterator[Still], int], None]] = {".webp": _webp, ".gif": _gif, ".mp4": _mp4}
"""Formats of a film by its file's suffix."""
