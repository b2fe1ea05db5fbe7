"""The start page: all that fidpath does, begun from a browser by who has never used a terminal.

A folder of job files comes in; a page served on this machine alone, new files and results go out. Open `server` first.
"""

from fidpath.viewing.start_page.server import StartWish, serve

__all__ = ["StartWish", "serve"]
