"""Jobs at the edges of every range, alone and in pairs, through verify and the live page: only errors of our own.

Each job is planned; what can be planned is settled and measured in a process of its own, and its texts go through the
fields of the live page. A job that takes longer than the given seconds is counted apart.

Run: python benchmarks/soak_edges.py [seconds] [most]
"""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "tests" / "support"))

from edges import Row, alone, covering, text_of
from fidpath.errors import FidpathError
from fidpath.job import parse_job
from fidpath.planning import make_plan
from fidpath.viewing.live_page import Form, Refused, tried

ROUNDS = 12

VERIFY = """
import sys
from fidpath.building.verification import verify_finished
from fidpath.errors import FidpathError
from fidpath.job import parse_job
try:
    verify_finished(parse_job(sys.stdin.read()))
except FidpathError as refused:
    assert refused.remedy, str(refused)
"""


def main(seconds: float, most: int) -> int:
    """Tries them all; returns how many broke."""
    counts: Counter[str] = Counter()
    broken = 0
    for number, row in enumerate([*alone(), *covering()][:most]):
        outcome = through(row, seconds)
        counts[outcome.split(":")[0]] += 1
        if outcome.startswith("broke"):
            broken += 1
            print(number, row, outcome, flush=True)
    print(", ".join(f"{count} {outcome}" for outcome, count in sorted(counts.items())))
    return broken


def through(row: Row, seconds: float) -> str:
    """What becomes of one row: what verify does of it, once what its plan refuses it for is left out."""
    try:
        for _ in range(ROUNDS):
            refused = planned(row)
            if refused is None:
                return verified(row, seconds)
            blamed = next((key for key in row if key in (refused.key or "")), next(iter(row), ""))
            row = {key: value for key, value in row.items() if key != blamed}
    except Exception as problem:
        return f"broke: {problem!r}"
    return "refused by the plan"


def planned(row: Row) -> FidpathError | None:
    """Plans a row and puts its texts through the live page's fields; the error it is refused by."""
    text = text_of(row)
    try:
        job = parse_job(text)
        plan = make_plan(job)
    except FidpathError as refused:
        return refused
    form = Form(text, job, plan)
    found = tried(form, form.texts)
    assert not isinstance(found, Refused), found
    assert found.job == job
    return None


def verified(row: Row, seconds: float) -> str:
    """What verify says of a row, in a process of its own."""
    command = [sys.executable, "-c", VERIFY]
    try:
        done = subprocess.run(command, input=text_of(row), capture_output=True, text=True, timeout=seconds, check=False)
    except subprocess.TimeoutExpired:
        return "not done in time"
    return "settled or refused in words" if done.returncode == 0 else f"broke: {done.stderr[-400:]}"


if __name__ == "__main__":
    seconds, most = (*sys.argv[1:3], *("120", "1000")[len(sys.argv) - 1 :])
    sys.exit(main(float(seconds), int(most)) > 0)
