"""Services of the machine: writing whole files, compiled loops, hashes, and what a machine lacks.

Nothing of ropes comes in; paths, bytes and digests go out. Open `files` first.
"""

from fidpath.machine.digest import digest_of, source_digest
from fidpath.machine.files import (
    RESERVED,
    beside,
    folder_name,
    in_xml,
    locked,
    make_folder,
    private_text,
    results_folder,
    user_folder,
    write_new,
)
from fidpath.machine.resources import core_count, for_one_command, free_memory_mb, give_back_memory, one_blas_thread

__all__ = [
    "RESERVED",
    "beside",
    "core_count",
    "digest_of",
    "folder_name",
    "for_one_command",
    "free_memory_mb",
    "give_back_memory",
    "in_xml",
    "locked",
    "make_folder",
    "one_blas_thread",
    "private_text",
    "results_folder",
    "source_digest",
    "user_folder",
    "write_new",
]
