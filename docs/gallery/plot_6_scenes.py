"""
Rings, thimbles, deadeyes, pins, shackles, sheaves
==================================================

Every scene of ``scenes/``, settled and drawn, with figures from its plan.
"""

from pathlib import Path

import matplotlib.pyplot as plt

import fidpath

scenes = sorted(Path("../../scenes").glob("*.toml"))
figure, places = plt.subplots(-(-len(scenes) // 2), 2, figsize=(12, 5.2 * -(-len(scenes) // 2)))
for axes in places.flat:
    axes.axis("off")
for axes, scene in zip(places.flat, scenes, strict=False):
    plan = fidpath.plan(scene)
    axes.imshow(fidpath.picture(scene, "whole"))
    axes.set_title(
        f"{scene.stem}: {plan.braid.strands} strands, D/d {plan.D_over_d:.1f},\n"
        f"eye {plan.eye_length:.0f} mm, bury {plan.bury_length:.0f} mm, take-up {plan.take_up:.0f} mm",
        fontsize=9,
    )
figure.tight_layout()
