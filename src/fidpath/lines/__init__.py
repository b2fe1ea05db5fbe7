"""Whole lines: jobs, a loft's test splices and spools in stock -> rope to cut, and how far it can be out.

Jobs, sets, lofts and measurements come in; lines, cut lists and calibrations go out. Open `line` first.
"""
