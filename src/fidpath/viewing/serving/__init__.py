"""What every page served on this machine shares: who may speak to it, how it answers, and its server.

Requests of this machine's own browser come in; answers go out. Open `guard` first, then `server`.
"""

from fidpath.viewing.serving.answers import Endpoint, asset, file, page_answer, said, table, text_in, texts_in, words_of
from fidpath.viewing.serving.guard import Address, Guard, new_token
from fidpath.viewing.serving.rest import Rest
from fidpath.viewing.serving.server import Open, Say, Server, listening, open_browser, opened, told_end

__all__ = [
    "Address",
    "Endpoint",
    "Guard",
    "Open",
    "Rest",
    "Say",
    "Server",
    "asset",
    "file",
    "listening",
    "new_token",
    "open_browser",
    "opened",
    "page_answer",
    "said",
    "table",
    "text_in",
    "texts_in",
    "told_end",
    "words_of",
]
