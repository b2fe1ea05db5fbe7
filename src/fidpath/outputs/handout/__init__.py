"""The printed handout: the whole work on paper, with a mark strip and a wrap at true size.

Reading order: `type` (what can be printed), `drawing` (lines and words at true size), `strip`, `wrap`, `code`, `rows`
(tables), `contents` (everything as data), `compact` (scenes for small figures), `document` (typeset and finished).
"""

from fidpath.outputs.handout.compact_scenes import compact
from fidpath.outputs.handout.contents import step_key, wrong_key
from fidpath.outputs.handout.typesetting import PAPERS, handout

__all__ = ["PAPERS", "compact", "handout", "step_key", "wrong_key"]
