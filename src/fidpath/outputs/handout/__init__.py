"""The printed handout: the whole work on paper, with a mark strip and a wrap at true size.

Reading order: `typeface` (what can be printed), `true_size` (lines and words at true size), `mark_strip`, `sleeve`,
`qr_code`, `table_rows`, `contents` (everything as data), `compact_scenes` (small figures), `typesetting`.
"""

from fidpath.outputs.handout.compact_scenes import compact
from fidpath.outputs.handout.contents import step_key, wrong_key
from fidpath.outputs.handout.typesetting import PAPERS, PaperName, handout

__all__ = ["PAPERS", "PaperName", "compact", "handout", "step_key", "wrong_key"]
