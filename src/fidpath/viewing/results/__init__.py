"""A job's results on a page: everything built in a process of its own, links to each file, the page on a phone.

A job's text comes in; files in its folder of results and answers about them go out. Open `routes` first.
"""

from fidpath.viewing.results.builds import Builds
from fidpath.viewing.results.phone import Phone
from fidpath.viewing.results.routes import Results, results_routes

__all__ = ["Builds", "Phone", "Results", "results_routes"]
