"""`Job` -> `Plan`: every length and mark of the splice, with its formula, its source and what it is measured from.

A `Job` comes in; a frozen `Plan`, its named figures and the bench sheet go out. Open `planner` first.
"""
