"""A job's text, changed and refused, for the tests of reading."""

import pytest

from fidpath.errors import Exit, JobError
from fidpath.job.reader import parse_job

GOOD = """\
schema = 1
name = "test splice"

[rope]
diameter = "8 mm"
strands = 12
weave = "over-two"
pitch = "7 d"

[terminator]
kind = "ring"
bearing_diameter = "40 mm"
groove_radius = "4.5 mm"
width = "12 mm"

[line]
captive_end = "made off"

[[line.ends]]
name = "lower end"

[tools]
fids = ["10 mm", "6 mm"]
"""


def changed(old: str, new: str) -> str:
    """The good file with one line replaced."""
    assert GOOD.count(old) == 1, old
    return GOOD.replace(old, new)


def refused(text: str) -> JobError:
    """The error a text is refused with."""
    with pytest.raises(JobError) as caught:
        parse_job(text, "job.toml")
    assert caught.value.code == Exit.JOB
    assert caught.value.what and caught.value.remedy
    assert "\n" not in str(caught.value)
    return caught.value
