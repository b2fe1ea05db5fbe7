"""The live page: a job's parameters as fields in the browser, its plan and its settled splice beside them.

A job file comes in; a page served on this machine alone and changed job files go out. Open `server` first, then `form`.
"""

from fidpath.viewing.live_page.server import Wish, open_browser, serve

__all__ = ["Wish", "open_browser", "serve"]
