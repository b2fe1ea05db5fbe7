"""`Job` -> a folder of results: the tasks of a build, the processes that do them, and what can be kept.

A `Job` and a folder come in; files go out. Open `pipeline` first. What can be built is registered in
`outputs/registered`; `manifest` knows what is up to date. `verification` settles and checks without writing.
"""

from fidpath.building.manifest import Manifest
from fidpath.building.pipeline import build
from fidpath.building.verification import verify_job

__all__ = ["Manifest", "build", "verify_job"]
