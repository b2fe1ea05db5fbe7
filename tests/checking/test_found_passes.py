"""What goes through which hole, and what lies beside."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fidpath.checking import found_passes, rope_measures
from fidpath.geometry.rods import Rod
from fidpath.geometry.strands import Strands


def test_a_fid_beside_the_rope_goes_through_nothing(laid: Strands) -> None:
    middle = np.interp(laid.bury.host[1], laid.station, rope_measures.centre_line(laid)[:, 0]) if laid.bury else 0.0
    through = Rod((float(middle), 40.0, 0.0), (0.0, 1.0, 0.0), 3.0, 1.0, 10.0, 80.0)
    beside = replace(through, tip=(float(middle), 900.0, 0.0))
    found = found_passes.fids_found(replace(laid, rods=(beside, through)))
    assert len(found) == 1 and found == found_passes.fids_found(replace(laid, rods=(through,)))
    assert found_passes.fids_found(replace(laid, rods=(beside,))) == ()
