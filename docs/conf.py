"""Sphinx's settings, and the pages made from the program itself: job file, rules of practice, commands, scenes.

`make docs` builds all of it, without a network; a warning is an error.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import Any

from pygments.lexers.special import TextLexer
from sphinx.errors import ExtensionError

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE))

import made_pages  # noqa: E402

project = "fidpath"
author = "The fidpath developers"
version = release = "0.1.0"
extensions = ["myst_parser", "sphinx_gallery.gen_gallery", "mathml"]
source_suffix = {".md": "markdown", ".rst": "restructuredtext"}
exclude_patterns = ["gallery/*.rst", "**/sg_execution_times.rst", "sg_execution_times.rst", "_build"]
myst_enable_extensions = ["colon_fence", "dollarmath"]
html_math_renderer = "mathml"
myst_heading_anchors = 3
html_theme = "furo"
html_static_path = ["static"]
html_css_files = ["formulas.css"]
html_title = "fidpath"
html_show_sourcelink = False
html_copy_source = False
html_show_copyright = False
html_show_sphinx = False
suppress_warnings = ["config.cache"]
sphinx_gallery_conf = {
    "examples_dirs": ["gallery"],
    "gallery_dirs": ["made/gallery"],
    "filename_pattern": r".*\.py",
    "download_all_examples": False,
    "show_memory": False,
    "show_signature": False,
    "min_reported_time": 1e9,
    "matplotlib_animations": False,
    "within_subsection_order": "FileNameSortKey",
    "backreferences_dir": None,
    "write_computation_times": False,
    "reset_modules": ("matplotlib",),
    "abort_on_example_error": True,
}


def setup(app: Any) -> None:
    """Writes the made pages before Sphinx reads any. `sum` and `by`: lines worked by hand, which the tests evaluate."""
    made_pages.write(HERE / "made")
    app.connect("build-finished", nothing_from_afar)
    for name in ("sum", "by"):
        app.add_lexer(name, TextLexer)


def nothing_from_afar(app: Any, failed: Exception | None) -> None:
    """Ends the build where a page would load anything over a network: a script, a style, a font, a picture."""
    if failed is not None:
        return
    loads = re.compile(r"""<(?:script|link|img|iframe)\b[^>]*?\b(?:src|href)\s*=\s*["'](?:https?:)?//[^"']+""", re.I)
    styles = re.compile(r"""url\(\s*["']?(?:https?:)?//|@import\s+["'](?:https?:)?//""", re.I)
    for page in sorted(Path(app.outdir).rglob("*")):
        pattern = {".html": loads, ".css": styles}.get(page.suffix)
        found = pattern.search(page.read_text(encoding="utf-8")) if pattern else None
        if found:
            raise ExtensionError(f"{page.name} loads from afar: {found[0][:120]}")
