"""The plan and the check's reports as JSON."""

from __future__ import annotations

import json
from typing import Any

from fidpath.outputs.registered import finished_splice, mistakes, steps
from fidpath.outputs.registry import Context, Output, Product, register
from fidpath.planning import sheet


def make_texts(context: Context, _item: str) -> Product:
    """plan.json, and verify.json with the check's report on every state that belongs to the build."""
    plan, method, results = context.request.plan, context.request.method, context.results
    report: dict[str, Any] = {"name": plan.job.name, "finished": results[finished_splice.CHECK.name][""].data["report"]}
    states = results.get(steps.STATES.name)
    if states is not None:
        names = zip(method.steps, steps.step_names(method), strict=True)
        report["steps"] = [{"name": step.state, **states[name].data["report"]} for step, name in names]
        wrong = results[mistakes.STATES.name]
        report["mistakes"] = [{"name": one.name, **wrong[one.name].data["report"]} for one in method.mistakes]
    text = json.dumps(report, indent=2, ensure_ascii=False) + "\n"
    return Product(
        {"plan.json": sheet.as_json(sheet.as_data(plan)).encode("utf-8"), "verify.json": text.encode("utf-8")}
    )


TEXTS = register(
    Output(
        "plan-and-check",
        "the plan, and the check's report on every state",
        ("plan.json", "verify.json"),
        make_texts,
        needs=(finished_splice.CHECK.name, steps.STATES.name, mistakes.STATES.name),
    )
)
