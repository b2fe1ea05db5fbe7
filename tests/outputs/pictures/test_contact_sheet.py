"""The sheet of all step pictures."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from fidpath.outputs.pictures.thumbnails import Thumbnail, contact_sheet, thumbnail
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
