"""The live page: a job's parameters as fields in the browser, its plan and its settled splice beside them.

A job file comes in; a page served on this machine alone and changed job files go out. Open `server` first, then `form`.
"""

from fidpath.viewing.live_page.fields import described, fields
from fidpath.viewing.live_page.following import fid_size
from fidpath.viewing.live_page.form import Form, Refused, read_form, tried
from fidpath.viewing.live_page.lengths import measured, sized_up, switched, system_of
from fidpath.viewing.live_page.routes import Served, routes_of
from fidpath.viewing.live_page.server import Wish, serve
from fidpath.viewing.live_page.session import Session

__all__ = [
    "Form",
    "Refused",
    "Served",
    "Session",
    "Wish",
    "described",
    "fid_size",
    "fields",
    "measured",
    "read_form",
    "routes_of",
    "serve",
    "sized_up",
    "switched",
    "system_of",
    "tried",
]
