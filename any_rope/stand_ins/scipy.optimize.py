"""For MicroPython: what only scipy finds is not found in the page."""


def Bounds(_low, _high):
    return None


def minimize(*_given, **_named):
    raise ArithmeticError("this shape closes only by scipy's solver, which the page has not")
