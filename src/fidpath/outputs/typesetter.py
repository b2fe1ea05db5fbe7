"""The typesetter: sources in, a PDF out, from memory alone; no clock, no type of the machine's, no network.

Typst writes every PDF of fidpath: the handout from its own markup, line art from its SVG.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from fidpath.errors import EnvironmentProblem, OutputError


def typeset(sources: Mapping[str, bytes], fonts: Path, what: str, standards: tuple[str, ...] = ()) -> bytes:
    """A PDF of "main.typ" and what it reads; type is looked for in `fonts` alone; `standards`: what it must hold to.

    The same bytes for the same sources. `what` names it in messages. Raises OutputError with the typesetter's own
    words, EnvironmentProblem where Typst is missing.
    """
    try:
        import typst
    except ImportError as problem:
        raise EnvironmentProblem("PDFs need Typst, which isn't installed", "pip install typst") from problem
    compiler: Callable[..., object] = typst.compile
    try:
        content: object = compiler(
            dict(sources),
            format="pdf",
            font_paths=[str(fonts)],
            ignore_system_fonts=True,
            pdf_standards=list(standards),
            timestamp=0,
        )
    except (typst.TypstError, RuntimeError, ValueError) as problem:
        raise OutputError(
            f"{what} can't be typeset: {problem}", "This is a fault in fidpath: please report this job"
        ) from problem
    assert isinstance(content, bytes)
    return content
