"""Tools and what else lies about a rope, as closed bodies without any colour.

Placements come in; `Solid`s go out. `solids` has the plain bodies that the others are made of.
"""
