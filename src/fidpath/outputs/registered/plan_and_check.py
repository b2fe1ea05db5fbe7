"""The plan, and the check's reports, as JSON."""

from __future__ import annotations

import json
from typing import Any

from fidpath.outputs.registered import finished_splice, mistakes, steps
from fidpath.outputs.registry import Context, Output, Product, Turn, register
from fidpath.planning import sheet


def make_plan(context: Context, _item: str) -> Product:
    """The plan's figures."""
    return Product({"plan.json": sheet.as_json(sheet.as_data(context.request.plan)).encode("utf-8")})


def make_reports(context: Context, _item: str) -> Product:
    """The check's report on every state that belongs to the build."""
    plan, method, results = context.request.plan, context.request.method, context.results
    report: dict[str, Any] = {"name": plan.job.name, "finished": results[finished_splice.CHECK.name][""].data["report"]}
    states = results.get(steps.STATES.name)
    if states is not None:
        names = zip(method.steps, steps.step_names(method), strict=True)
        report["steps"] = [{"name": step.state, **states[name].data["report"]} for step, name in names]
        wrong = results[mistakes.STATES.name]
        report["mistakes"] = [{"name": one.name, **wrong[one.name].data["report"]} for one in method.mistakes]
    text = json.dumps(report, indent=2, ensure_ascii=False) + "\n"
    return Product({"verify.json": text.encode("utf-8")})


PLAN = register(Output("plan", "the plan", ("plan.json",), make_plan, turn=Turn.FINISHED, seconds=0.0))

REPORTS = register(
    Output(
        "check-reports",
        "the check's report on every state",
        ("verify.json",),
        make_reports,
        needs=(finished_splice.CHECK.name, steps.STATES.name, mistakes.STATES.name),
    )
)
