"""The sheet of all step pictures."""

from __future__ import annotations

import io
from collections import Counter

import numpy as np
import pytest
from PIL import Image

from fidpath.outputs.pictures.pen import TEXT, Pen, Tint
from fidpath.outputs.pictures.thumbnails import CAPTION, HEAD, Thumbnail, contact_sheet, thumbnail
from fidpath.scene.colours import Colour


def _picture(colour: Colour) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (1600, 1200), colour).save(out, format="PNG")
    return out.getvalue()


def test_the_sheet_shows_every_picture_in_order() -> None:
    tones = [(200, 30 * i, 40) for i in range(6)]
    sheet = contact_sheet(
        "job", [Thumbnail(str(i), f"step {i}", thumbnail(_picture(tone))) for i, tone in enumerate(tones)]
    )
    image = np.asarray(Image.open(io.BytesIO(sheet)))
    found = [tuple(int(c) for c in row) for row in image.reshape(-1, 3)[:: image.shape[1] // 60]]
    first = [found.index(tone) for tone in tones]
    assert all(tone in found for tone in tones)
    assert first == sorted(first)
    with pytest.raises(ValueError, match="at least one"):
        contact_sheet("job", [])


def test_no_word_of_a_long_caption_is_lost_or_cut_off(monkeypatch: pytest.MonkeyPatch) -> None:
    written: list[tuple[float, float, str]] = []
    set_text = Pen.text

    def noted(pen: Pen, at: tuple[float, float], text: str, size: int = TEXT, tint: Tint = Tint.INK) -> None:
        written.append((at[0] + pen.extent(text, size)[0], at[1] + pen.extent(text, size)[1], text))
        set_text(pen, at, text, size, tint)

    monkeypatch.setattr(Pen, "text", noted)
    title = "a long name of a job, with the whole of a stay and of what it is made fast to: " * 3
    captions = [
        "Short",
        "Draw H2 out through H1, open it and count the strands over the fids and under them " * 2,
    ]
    small = thumbnail(_picture((200, 0, 40)))
    sheet = contact_sheet(title, [Thumbnail(str(i), caption, small) for i, caption in enumerate(captions)])
    width, height = Image.open(io.BytesIO(sheet)).size
    assert Counter(" ".join([title, *captions]).split()) <= Counter(" ".join(text for *_, text in written).split())
    assert max(right for right, _, _ in written) <= width
    captioned = [low for _, low, text in written if text in captions[1] and len(text) > 8]
    assert max(captioned) <= HEAD + CAPTION < height
