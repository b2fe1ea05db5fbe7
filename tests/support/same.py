"""Every kind of output of one small job, each as its digest, printed; run in processes of their own that differ in what
must not matter.
"""

from __future__ import annotations

import hashlib
import json
import sys

from fidpath.methods.registry import method_of
from fidpath.outputs.handout import handout
from fidpath.outputs.jigs import catalogue
from fidpath.outputs.page import splice_page
from fidpath.planning import sheet
from fidpath.planning.planner import make_plan
from jobs import a_job


def digests() -> dict[str, str]:
    """Digest of every output by its name."""
    plan, way = make_plan(a_job(strands=8, bury=14.0)), method_of("locked-captive")
    found = {
        "plan.json": sheet.as_json(sheet.as_data(plan, True)).encode(),
        "plan.txt": sheet.bench_table(plan, True).encode(),
    }
    for name in catalogue.JIGS:
        found |= dict(catalogue.files(plan, catalogue.JIGS[name](plan), catalogue.USUAL))
    found |= {f"handout-{paper}.pdf": handout(plan, way, {}, paper) for paper in ("a4", "letter")}  # type: ignore[arg-type]
    found |= settled(plan, way)
    return {name: hashlib.sha256(content).hexdigest() for name, content in sorted(found.items())}


def settled(plan, way) -> dict[str, bytes]:  # type: ignore[no-untyped-def]
    """The page of one state, the state's line art, picture and solids, and its scale model."""
    from fidpath.building.state_cache import StateCache
    from fidpath.outputs.registered import steps
    from fidpath.outputs.registry import Context, Request

    context = Context(Request(plan, way), StateCache(plan).settled)
    state = context.settled("h1-first-fid")
    name = next(name for name in steps.step_names(way) if name.endswith("h1-first-fid"))
    drawn = {**steps.make_state(context, name).files, **steps.make_picture(context, name).files}
    files = {"page.html": splice_page(plan, [state], way).encode(), **drawn}
    return {
        **files,
        **dict(catalogue.files(plan, catalogue.make(plan, "model", catalogue.Wanted(), lambda _step: state), ("3mf",))),
    }


if __name__ == "__main__":
    json.dump(digests(), sys.stdout)
