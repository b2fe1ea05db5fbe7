"""A job file (TOML) -> `Job`: what a user asked for, checked, in mm, N and radians.

Text comes in; a frozen `Job` or one `JobError` goes out. Open `job` first, then `reader`. `schema` has the file's
tables and keys, `job_table` makes the `Job` of them, `limits` their bounds; `practices` has the rules of practice
with their sources.
"""

from fidpath.job.bearing_body import WALL, Bar, Body, Circle
from fidpath.job.job import (
    End,
    Job,
    Line,
    Practice,
    Printing,
    Rope,
    SpliceKind,
    StitchPattern,
    Terminator,
    Tools,
    Weave,
    closes,
)
from fidpath.job.job_table import practice_of, rope_of
from fidpath.job.key_paths import KeyPath, key_path
from fidpath.job.keys import Force, JobName, Key, Length, Name, Table, choices_of
from fidpath.job.limits import LIMITS_D, LIMITS_MM, length, positive
from fidpath.job.locate import KeyedError
from fidpath.job.print_table import LEAST_SCALE, scale_within
from fidpath.job.reader import one_line, parse_job, read_job, refusal_of, text_of, toml_of, with_line
from fidpath.job.rules import HOW_TO_COUNT, STATUS_WORDS, Rule, rule
from fidpath.job.schema import PracticeTable, RopeTable, keys_of
from fidpath.job.splice_kinds import FITTING, METHODS, USUAL_SPLICE, Splice, splice_words, splices
from fidpath.job.template import template, write_new
from fidpath.job.terminators.registry import keys_by_name, kinds
from fidpath.job.toml_file import Model, about, read_as

__all__ = [
    "FITTING",
    "HOW_TO_COUNT",
    "LEAST_SCALE",
    "LIMITS_D",
    "LIMITS_MM",
    "METHODS",
    "STATUS_WORDS",
    "USUAL_SPLICE",
    "WALL",
    "Bar",
    "Body",
    "Circle",
    "End",
    "Force",
    "Job",
    "JobName",
    "Key",
    "KeyPath",
    "KeyedError",
    "Length",
    "Line",
    "Model",
    "Name",
    "Practice",
    "PracticeTable",
    "Printing",
    "Rope",
    "RopeTable",
    "Rule",
    "Splice",
    "SpliceKind",
    "StitchPattern",
    "Table",
    "Terminator",
    "Tools",
    "Weave",
    "about",
    "choices_of",
    "closes",
    "key_path",
    "keys_by_name",
    "keys_of",
    "kinds",
    "length",
    "one_line",
    "parse_job",
    "positive",
    "practice_of",
    "read_as",
    "read_job",
    "refusal_of",
    "rope_of",
    "rule",
    "scale_within",
    "splice_words",
    "splices",
    "template",
    "text_of",
    "toml_of",
    "with_line",
    "write_new",
]
