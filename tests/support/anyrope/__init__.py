"""The page's Python and loops, run outside a browser for the tests."""
