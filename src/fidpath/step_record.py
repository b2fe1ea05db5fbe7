"""What a build writes of a method's steps and mistakes, and keeps of their reports."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from fidpath import output
from fidpath.bench_hand import Drawn, part
from fidpath.errors import CannotBeMade
from fidpath.method import Method, worded
from fidpath.plan import Plan
from fidpath.step_sheet import Entry, contact_sheet

Result = Callable[[], Drawn]


def without_time(report: Mapping[str, Any]) -> dict[str, Any]:
    """A report without its run time, so that the same job gives the same bytes."""
    return {key: value for key, value in report.items() if key != "settle_seconds"}


class Record:
    """Writes what the crew has drawn, refuses what fails its check, and remembers the reports."""

    def __init__(self, way: Method, plan: Plan, out: Path, tell: Callable[[str, float], None]) -> None:
        self.way, self.plan, self.out, self.tell = way, plan, out, tell
        self.reports: dict[str, list[dict[str, Any]]] = {"steps": [], "wrong_ways": []}

    def steps(self, results: Sequence[Result]) -> list[Path]:
        """Every step's files, and the contact sheet. Raises CannotBeMade for a step that fails its check."""
        written, entries = [], []
        for number, result in enumerate(results):
            step = worded(self.way.steps[number], self.plan)
            self.tell(f"step {step.number}: {step.state}", number / len(results))
            drawn = result()
            if drawn.report["failures"]:
                raise CannotBeMade(_refused(step.state, drawn.report), "See `fidpath verify --steps` for all figures")
            written += self._write("steps", drawn, self.reports["steps"])
            picture = next(content for name, content in drawn.files.items() if name.endswith(".png"))
            entries.append(Entry(f"{step.number}{part(self.way, number)}", step.caption, picture))
        sheet = self.out / "contact-sheet.png"
        output.write_bytes(sheet, contact_sheet(f"{self.plan.job.name}: {self.way.title}", entries))
        return [*written, sheet]

    def wrong_ways(self, results: Sequence[Result]) -> list[Path]:
        """Every mistake's picture. Raises CannotBeMade for one that the check doesn't name."""
        written = []
        for number, result in enumerate(results):
            name = self.way.wrong_ways[number].name
            self.tell(f"wrong way: {name}", number / len(results))
            drawn = result()
            if drawn.report["named"] != name:
                said = drawn.report["named"] or "nothing"
                raise CannotBeMade(f"the check names {said} where {name} is shown", "Report this job: a fault of ours")
            written += self._write("wrong", drawn, self.reports["wrong_ways"])
        return written

    def _write(self, folder: str, drawn: Drawn, reports: list[dict[str, Any]]) -> list[Path]:
        reports.append({"name": drawn.kind, **without_time(drawn.report)})
        home = self.out / folder
        output.make_folder(home)
        for name, content in drawn.files.items():
            output.write_bytes(home / name, content)
        return [home / name for name in drawn.files]


def _refused(state: str, report: Mapping[str, Any]) -> str:
    parts = [f"{f['check']} is {f['value']}, bound {f['bound']}" for f in report["failures"]]
    return f"the step {state} misses its bounds: " + "; ".join(parts)
