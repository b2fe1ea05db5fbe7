"""
Why a bury shortens the line
============================

Every strand keeps its length. Where the cover swells over the tail, its strands go further round, so the rope gets
shorter. This is the take-up. On the mean circle sin α = (R/R₀) sin α₀ and L/L₀ = cos α / cos α₀ (form of
Chou and Hannaford, IEEE Trans. Robot. Autom. 12(1) (1996) 90, from memory); the model also counts
the length that strands need to pass over and under each other.
"""

from pathlib import Path

import matplotlib.pyplot as plt
import numpy as np

import fidpath
from fidpath.geometry.bury import shortening

plan = fidpath.plan("../../scenes/demo.toml")
braid, swollen = plan.braid, np.linspace(1.0, 1.6, 61)
figure, (left, right) = plt.subplots(1, 2, figsize=(9, 3.6))
left.plot(swollen, 1 - shortening(braid, swollen * braid.radius), color="#2f6f5e")
left.set(xlabel="cover's mean radius over its own", ylabel="shortening, a share of the rope")

text = Path("../../scenes/demo.toml").read_text(encoding="utf-8")
bury = np.array([16, 24, 36, 48, 60, 72])
taken = [fidpath.plan(text.replace('bury = "72 d"', f'bury = "{b} d"')).take_up for b in bury]
right.plot(bury, taken, "o-", color="#7a3f63")
right.set(xlabel="bury, rope diameters", ylabel="take-up of the demo line, mm")
figure.tight_layout()
