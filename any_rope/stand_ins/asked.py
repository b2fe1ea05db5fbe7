"""What the page asks of the program, in MicroPython: jobs come as JSON, figures go back as JSON, strands as arrays."""

import json

import nd
from dataclasses import Data
from fidpath.errors import FidpathError
from fidpath.job import bearing_body, job
from fidpath.planning.planner import make_plan
from fidpath.planning.sheet import as_data
from fidpath.settling.solver import BOUND, settle
from fidpath.settling.thin_start import clearest
from fidpath.states.kinds import kind_of, made

STEP_BOUND = 0.0009
CLASSES = {
    name: one
    for module in (bearing_body, job)
    for name, one in module.__dict__.items()
    if isinstance(one, type) and issubclass(one, Data)
}


def read(value):
    """A job's values: lists are tuples, an object of one class has its name and its fields."""
    if isinstance(value, list):
        return tuple([read(one) for one in value])
    if isinstance(value, dict) and "class" in value:
        fields = {name: read(one) for name, one in value["fields"].items()}
        return CLASSES[value["class"]](**fields)
    return value


def plan_of(text):
    """The plan of a job as JSON, kept for what follows; `refused` with words where there is none."""
    global plan
    try:
        plan = make_plan(read(json.loads(text)))
        return json.dumps(as_data(plan))
    except FidpathError as refused:
        return json.dumps({"refused": str(refused)})


def draft_of(kind):
    """The clearest start of a state of the kept plan, kept; its laid and thin strands handed to the page."""
    global draft, bound
    own, state = made(plan, kind)
    draft = clearest(state)
    bound = BOUND if kind_of(kind).finished else STEP_BOUND
    nd.give("laid", draft.laid.points.held)
    nd.give("thin", draft.thin.held)
    nd.give("rest", draft.rest.held)


def settled():
    """The kept draft settled, its strands handed to the page; the log as JSON."""
    found = settle(draft, progress=nd.tell, bound=bound)
    nd.give("settled", found.strands.points.held)
    log = found.log
    return json.dumps({"sweeps": log.sweeps, "certificate": log.certificate_min, "overlap": log.overlap})
