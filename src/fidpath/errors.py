"""One family of errors: what is wrong, where in the file, what to do, and the exit code."""

from __future__ import annotations

from enum import IntEnum


class Exit(IntEnum):
    """Exit codes of the command line; they are part of its interface (docs/exit-codes.md)."""

    OK = 0
    INTERNAL = 1
    USAGE = 2
    JOB = 3
    CANNOT_BE_MADE = 4
    CHECK_FAILED = 5
    OUTPUT = 6
    ENVIRONMENT = 7
    INTERRUPTED = 130


class FidpathError(Exception):
    """What a person sees when something is wrong: `file:line: key: what. remedy`."""

    code: Exit = Exit.INTERNAL

    def __init__(
        self,
        what: str,
        remedy: str = "",
        *,
        file: str | None = None,
        line: int | None = None,
        key: str | None = None,
    ) -> None:
        super().__init__(what)
        self.what = what
        self.remedy = remedy
        self.file = file
        self.line = line
        self.key = key

    def __str__(self) -> str:
        place = ":".join(str(part) for part in (self.file, self.line) if part is not None)
        parts = [part for part in (place, self.key, self.what) if part]
        return ": ".join(parts) + (f". {self.remedy}" if self.remedy else "")


class NoSuchName(FidpathError, ValueError):
    """Something was asked for by a name that nothing has; the message lists those there are."""

    code = Exit.USAGE


class JobError(FidpathError):
    """The job file can't be read or says something that can't be."""

    code = Exit.JOB


class CannotBeMade(FidpathError):
    """The job is well-formed, but what it asks for can't be made; the message says what would do."""

    code = Exit.CANNOT_BE_MADE


class CheckFailed(FidpathError):
    """A check of `verify` failed; the message says which and where."""

    code = Exit.CHECK_FAILED


class OutputError(FidpathError):
    """Something can't be written; nothing half-written is left under a final name."""

    code = Exit.OUTPUT


class NotOurs(OutputError):
    """A file of the user's own stands where one was to be written; it is left alone."""


class EnvironmentProblem(FidpathError):
    """The machine lacks what this output needs."""

    code = Exit.ENVIRONMENT
