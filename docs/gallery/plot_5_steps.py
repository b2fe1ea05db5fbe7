"""
Right and wrong, side by side
=============================

In step 9 the bight goes into the hole in the tail at the same face as the tail's end. If it goes in at the other face,
the splice looks much the same but is wrong. The check tells the two apart by the linking of the legs and the groups.
"""

import matplotlib.pyplot as plt

import fidpath

job = fidpath.read("../../scenes/demo.toml")
for name in ("9b", "bight-other-face"):
    figure, axes = plt.subplots(figsize=(9, 6.6))
    axes.imshow(fidpath.picture(job, name))
    axes.axis("off")
    figure.tight_layout()
