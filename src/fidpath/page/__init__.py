"""The shareable page: one file that opens anywhere, made of strand centre lines and words."""

from fidpath.page.document import Parts, aim_record, page_data, page_of, splice_page
from fidpath.page.images import Link, linker
from fidpath.page.record import strands_record
from fidpath.page.words import step_picture, wrong_picture

__all__ = [
    "Link",
    "Parts",
    "aim_record",
    "linker",
    "page_data",
    "page_of",
    "splice_page",
    "step_picture",
    "strands_record",
    "wrong_picture",
]
