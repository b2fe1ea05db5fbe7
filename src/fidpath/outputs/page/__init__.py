"""The shareable page: one file that opens anywhere, made of strand centre lines and words.

A `Plan`, its settled states and a method come in; one HTML file goes out. Open `document` first, then `record`.
"""

from fidpath.outputs.page.content import step_picture, wrong_picture
from fidpath.outputs.page.document import page_data, page_of, splice_page
from fidpath.outputs.page.images import small
from fidpath.outputs.page.parts import GrowingParts, Parts, aim_record
from fidpath.outputs.page.record import strands_record

__all__ = [
    "GrowingParts",
    "Parts",
    "aim_record",
    "page_data",
    "page_of",
    "small",
    "splice_page",
    "step_picture",
    "strands_record",
    "wrong_picture",
]
