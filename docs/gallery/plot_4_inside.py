"""
Inside the cover
================

The settled splice, cut open where the tail goes in, and the throat, where each leg runs through the middle of the other.
The check measured these same strands.
"""

import matplotlib.pyplot as plt

import fidpath

job = fidpath.read("../../scenes/demo.toml")
figure, places = plt.subplots(2, 1, figsize=(9, 11))
for axes, name in zip(places, ("throat", "entry"), strict=True):
    axes.imshow(fidpath.picture(job, name))
    axes.axis("off")
figure.tight_layout()

# %%
# What the check found:

report = fidpath.verify(job)["finished"]
for name in (
    "overlap_max",
    "certificate_min",
    "strand_length_change_max",
    "take_up_mm",
    "throat_angle_deg",
    "failures",
):
    print(f"{name:<26} {report[name]}")
