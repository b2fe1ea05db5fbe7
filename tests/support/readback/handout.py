"""Reads a handout back from its PDF, by none of the writer's code: straight lines in mm, words, tags, pixels."""

from __future__ import annotations

import io
import re
import subprocess
from html import unescape
from pathlib import Path
from typing import Any

import numpy as np
import pikepdf
from numpy.typing import NDArray

MM = 25.4 / 72


def page_lines(pdf: bytes, index: int) -> tuple[NDArray[np.float64], float]:
    """Straight pieces of a page's paths `(n, 4)` mm (x, y from the top left corner), and the page's height."""
    with pikepdf.open(io.BytesIO(pdf)) as document:
        page = document.pages[index]
        height = float(page.mediabox[3])
        found: list[list[float]] = []
        _walk(page, np.eye(3), page.get("/Resources", {}), found)
    lines = np.array(found).reshape(-1, 4)
    return np.column_stack(
        [lines[:, 0], height - lines[:, 1], lines[:, 2], height - lines[:, 3]]
    ) * MM, height * MM  # fmt: skip


def _walk(stream: Any, start: NDArray[np.float64], resources: Any, found: list[list[float]]) -> None:
    matrix, stack = start.copy(), []
    here: NDArray[np.float64] | None = None
    first: NDArray[np.float64] | None = None
    for operands, operator in pikepdf.parse_content_stream(stream):
        name = str(operator)
        if name == "q":
            stack.append(matrix.copy())
        elif name == "Q":
            matrix = stack.pop()
        elif name == "cm":
            a, b, c, d, e, f = (float(v) for v in operands)
            matrix = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix
        elif name == "m":
            here = first = _at(operands, matrix)
        elif name == "l" and here is not None:
            there = _at(operands, matrix)
            found.append([*here, *there])
            here = there
        elif name == "h" and here is not None and first is not None:
            found.append([*here, *first])
            here = first
        elif name == "c":
            here = _at(operands[4:], matrix)


def _at(operands: Any, matrix: NDArray[np.float64]) -> NDArray[np.float64]:
    return (np.array([float(operands[0]), float(operands[1]), 1.0]) @ matrix)[:2]


def words(pdf: bytes, folder: Path) -> str:
    """All text, as poppler finds it, soft breaks and line ends taken out."""
    path = folder / "words.pdf"
    path.write_bytes(pdf)
    done = subprocess.run(["pdftotext", "-layout", str(path), "-"], capture_output=True, check=True)
    return done.stdout.decode("utf-8").replace("\u200b", "")


def boxes(pdf: bytes, folder: Path) -> list[tuple[int, float, float, float, float, str]]:
    """Every word as `(page, left, top, right, bottom, text)`, mm."""
    path = folder / "boxes.pdf"
    path.write_bytes(pdf)
    text = subprocess.run(["pdftotext", "-bbox", str(path), "-"], capture_output=True, check=True).stdout.decode(
        "utf-8"
    )
    found, page = [], -1
    row = re.compile(r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>')
    for line in text.splitlines():
        page += "<page " in line
        if match := row.search(line):
            left, top, right, bottom = (float(match[i]) * MM for i in range(1, 5))
            found.append((page, left, top, right, bottom, unescape(match[5]).replace("\u200b", "")))
    return found


def pixels(pdf: bytes, page: int, folder: Path, dpi: int = 300) -> NDArray[np.uint8]:
    """A page as grey pixels `(h, w)`, drawn by poppler."""
    from PIL import Image

    path = folder / "pixels.pdf"
    path.write_bytes(pdf)
    number = str(page + 1)
    subprocess.run(
        ["pdftoppm", "-r", str(dpi), "-f", number, "-l", number, "-gray", "-singlefile", str(path), str(folder / "p")],
        check=True, capture_output=True,
    )  # fmt: skip
    with Image.open(folder / "p.pgm") as image:
        return np.asarray(image)


def tags(pdf: bytes) -> list[tuple[str, str]]:
    """Every structure element: its type and its alternative text."""
    found: list[tuple[str, str]] = []

    def walk(node: Any) -> None:
        if isinstance(node, pikepdf.Array):
            for child in node:
                walk(child)
        elif isinstance(node, pikepdf.Dictionary) and "/S" in node:
            found.append((str(node["/S"]), str(node.get("/Alt", ""))))
            if "/K" in node:
                walk(node["/K"])

    with pikepdf.open(io.BytesIO(pdf)) as document:
        walk(document.Root["/StructTreeRoot"]["/K"])
    return found
