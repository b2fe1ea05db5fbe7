"""
The eye: lines and arcs, and their curvature
============================================

The rope's axis is a chain of lines and arcs, blended so that its curvature has no steps. It runs from the standing part
through the crossing zone between the two holes, round the terminator and back. It is drawn here before settling.
"""

import matplotlib.pyplot as plt
import numpy as np

import fidpath
from fidpath.geometry.curve import curvature, points
from fidpath.geometry.eye import leg_chain

plan = fidpath.plan("../../scenes/demo.toml")
shared, d = 40.0, plan.braid.diameter
line = leg_chain(plan.eye, [(shared, 0.0), *plan.neck.pieces], 0.0, (-(shared + plan.neck.shared_reach), 0.0))
along = np.linspace(0, line.length, 3000)
x, y = points(line, along).T

h2 = shared + plan.neck.length
marks = {"H2": h2, "H1": h2 + plan.eye.zone.rope}
marks["crown"] = marks["H1"] + plan.eye.loop / 2

figure, (shape, bend) = plt.subplots(2, 1, figsize=(9, 6), height_ratios=(3, 2))
shape.plot(x, y, color="#2f6f5e", lw=2)
bend.plot(along, curvature(line, along) * plan.eye.bend_radius, color="#2f6f5e")
for name, at in marks.items():
    place = points(line, np.array([at]))[0]
    shape.plot(*place, "o", color="#b8863b")
    shape.annotate(name, place, xytext=(-8, 10), textcoords="offset points", ha="right")
    bend.axvline(at, color="#b8863b", lw=1)
    bend.annotate(name, (at, 1), xycoords=("data", "axes fraction"), xytext=(3, -12), textcoords="offset points")
shape.set(aspect="equal", xlabel="mm", ylabel="mm")
bend.set(xlabel="along the rope, mm", ylabel="curvature, of the crown's")
figure.tight_layout()

# %%
# The angle between the legs decides each leg's share of the line's tension (statics): 1/(2 cos(angle/2)).

print(f"throat {np.degrees(plan.throat_angle):.1f} degrees, each leg {plan.leg_tension_share:.3f} of the line")
