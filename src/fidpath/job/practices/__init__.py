"""Rules of practice as data, each with its unit, its source and how far the source can be trusted.

No code: `job/rules.py` reads the TOML files here, one a set of rules.
"""
