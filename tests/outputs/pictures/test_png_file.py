"""PNG: what is read back is what was written, at the size asked for on paper, and not much larger than need be."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from fidpath.outputs.pictures.png_file import png_bytes


@pytest.mark.parametrize("depth", [3, 4])
@pytest.mark.parametrize("size", [(1, 1), (5, 1), (1, 7), (40, 30)])
def test_what_is_read_back_is_what_was_written(depth: int, size: tuple[int, int]) -> None:
    pixels = np.random.default_rng(3).integers(0, 256, (*size, depth), dtype=np.uint8)
    written = png_bytes(Image.fromarray(pixels))
    Image.open(io.BytesIO(written)).verify()
    np.testing.assert_array_equal(np.asarray(Image.open(io.BytesIO(written))), pixels)


def test_pixels_to_an_inch_are_told() -> None:
    image = Image.new("RGB", (4, 4))
    assert Image.open(io.BytesIO(png_bytes(image, 230))).info["dpi"] == pytest.approx((230, 230), abs=0.01)
    assert "dpi" not in Image.open(io.BytesIO(png_bytes(image))).info


def test_shaded_bodies_on_paper_are_packed_about_as_small_as_by_an_image_library() -> None:
    across, down = np.meshgrid(np.linspace(-2, 2, 400), np.linspace(-1.5, 1.5, 300))
    ball = np.clip(1 - across**2 - down**2, 0, 1)
    pixels = (255 - np.sqrt(ball)[..., None] * [60, 120, 200]).astype(np.uint8)
    image, out = Image.fromarray(pixels), io.BytesIO()
    image.save(out, format="PNG", compress_level=2)
    assert len(png_bytes(image)) < 1.1 * len(out.getvalue())
