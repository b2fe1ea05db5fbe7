"""The shareable page: one file that opens anywhere, made of strand centre lines and words."""

from fidpath.page.document import page_data, splice_page

__all__ = ["page_data", "splice_page"]
