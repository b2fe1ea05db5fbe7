"""What a line is made of against elementary geometry, statics and documents.

Loops and throats: elementary. Leg tension: statics. Take-up pair: Chou & Hannaford, IEEE Trans. Robot. Autom. 12(1)
(1996) 90, form from memory; exact. Reference tension: ISO 2307 Annex A, from memory. Rounding: arithmetic.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fidpath.geometry.braid import braid_of
from fidpath.geometry.bury import shortening
from fidpath.job.job import Job
from fidpath.lines.line import make_line
from fidpath.lines.line_sheet import length
from fidpath.planning.ends import end_plan
from fidpath.planning.planner import make_plan
from jobs import plain_job
from lines import backstay, shroud


def plain_eye(eye: str) -> Job:
    """A plain eye of 10 mm rope round a 50 mm ring: the rope's middle runs on a circle of radius 30 mm."""
    return backstay(
        ('diameter = "12 mm"', 'diameter = "10 mm"'),
        ('eye_length = "150 mm"', f'eye_length = "{eye}"'),
        ('fids = ["10 mm", "14 mm"]', 'fids = ["8 mm", "12 mm"]'),
    )


def test_a_plain_eyes_loop_and_throat() -> None:
    """R = 30, h = 100: a loop of 303.317179 mm, 34.915206 deg (elementary geometry).

    Straight legs at half that angle lie 0.45 d apart 7.5 mm along from where they meet, and the tail goes in there: the
    rope from E round to B is the loop less twice that.
    """
    end = end_plan(plain_eye("125 mm"), 0)
    assert np.degrees(end.throat) == pytest.approx(34.915206, abs=1e-6)
    to_entry = 0.45 * 10 / 2 / np.sin(np.radians(34.915206) / 2)
    loop = dict(end.parts)["eye, from the entry round to the entry"]
    assert loop == pytest.approx(303.317179 - 2 * to_entry, abs=0.3)


def test_a_plain_eye_by_its_throat_angle() -> None:
    """60 degrees: the throat lies two radii from the crown's centre, and each leg bears 0.57735027 of the load."""
    plan = make_plan(plain_job(throat=60.0))
    assert plan.throat_to_crown == pytest.approx(60.0 + 25.0)
    assert plan.leg_tension_share == pytest.approx(0.57735027, abs=1e-8)


def test_the_take_up_pair() -> None:
    """a1 = 18 deg, D2/D1 = sqrt 2: L2/L1 = 0.9457416, for a braid whose strands lie flat on its circle."""
    braid = braid_of(shroud().rope)
    pitch = 2 * np.pi * braid.radius / np.tan(np.radians(18))
    flat = replace(braid, undulation=0.0, pitch=float(pitch))
    ratio = shortening(flat, np.array([braid.radius * np.sqrt(2)]))[0]
    assert ratio == pytest.approx(0.9457416, abs=1e-6)


def test_lengths_are_measured_under_the_reference_tension_unless_the_line_says_otherwise() -> None:
    """d^2/8 daN, 180 N on 12 mm rope: ISO 2307 Annex A, from memory."""
    assert make_line(backstay()).tension == pytest.approx(180.0)
    assert make_line(shroud()).tension == 6000.0


def test_the_cut_goes_up_to_the_tapes_next_sixteenth() -> None:
    """864 mm in sixteenths is 34 1/16 in; 34 in would be short (arithmetic)."""
    line = make_line(shroud(('tape_division = "1 mm"', 'tape_division = "1/16 in"')))
    assert length(line, 864.0, rounding="up") == "34 1/16 in"
