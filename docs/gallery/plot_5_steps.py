"""
Right and wrong, side by side
=============================

Step 9: the bight goes into the hole in the tail by the same face that the tail's end took. By the other face the splice
looks much the same and is another one: the check tells them apart by what the legs and the groups are linked with.
"""

import matplotlib.pyplot as plt

import fidpath

job = fidpath.read("../../scenes/demo.toml")
for name in ("9b", "bight-other-face"):
    figure, axes = plt.subplots(figsize=(9, 6.6))
    axes.imshow(fidpath.picture(job, name))
    axes.axis("off")
    figure.tight_layout()
