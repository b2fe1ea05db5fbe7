"""`Job` -> a folder of results: pieces of work, the processes that do them, and what is still good from before.

A `Job` and a folder come in; files go out. Open `pipeline` first.
"""

from fidpath.building.manifest import Manifest
from fidpath.building.pipeline import build
from fidpath.building.verification import verify_job

__all__ = ["Manifest", "build", "verify_job"]
