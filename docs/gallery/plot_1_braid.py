"""
The braid laid flat, and where a hole may go
============================================

Twelve strands over-two. The rope's surface is cut along one side and laid flat. Six strands turn each way, and all
crossings lie on a lattice. A hole may go where a straight line across the axis has six strands on each side: in the
middle of a diamond, one pick from the crossings.
"""

import matplotlib.pyplot as plt
import numpy as np

import fidpath
from fidpath.geometry.braid import hands, lift, strand_angles

braid = fidpath.plan("../../scenes/demo.toml").braid
station = np.linspace(0, braid.pitch / 2, 800)
angle = strand_angles(braid.strands, braid.pitch, station)
over = lift(braid.strands, "over-two", braid.pitch, station, angle)

figure, axes = plt.subplots(figsize=(9, 4.2))
for k, hand in enumerate(hands(braid.strands)):
    round_ = np.degrees(angle[k]) % 360
    broken = np.where(np.abs(np.diff(round_, append=round_[-1])) > 180, np.nan, round_)
    axes.plot(station, broken, color="0.75", lw=1)
    axes.plot(station, np.where(over[k] > 0, broken, np.nan), color="#2f6f5e" if hand > 0 else "#b8863b", lw=6)
axes.set(xlabel="along the rope, mm", ylabel="round the rope, degrees", ylim=(0, 360))
axes.set_title("thick where a strand lies on top")
figure.tight_layout()

# %%
# By counting, a pitch has N²/2 crossings. The strand is the thickest round one that clears its neighbours at the
# rope's diameter and pitch:

print(f"{braid.strands} strands, {braid.strands**2 // 2} crossings to a pitch of {braid.pitch:.0f} mm")
print(f"strand thickness {braid.thickness / braid.diameter:.3f} d")
