"""Any rope in one page: the program itself for a browser, to plan, draw and settle whatever job is typed into it.

The assets are made by `make any-rope` from this program's own source. None of them is written by hand.
"""
