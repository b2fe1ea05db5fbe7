"""The printed handout: the whole work on paper, with a mark strip and a wrap at true size.

Reading order: `type` (what can be printed), `drawing` (lines and words at true size), `strip`, `wrap`, `code`, `rows`
(tables), `contents` (everything as data), `compact` (scenes for small figures), `document` (typeset and finished).
"""

from fidpath.handout.compact import compact
from fidpath.handout.contents import step_key, wrong_key
from fidpath.handout.document import PAPERS, handout

__all__ = ["PAPERS", "compact", "handout", "step_key", "wrong_key"]
