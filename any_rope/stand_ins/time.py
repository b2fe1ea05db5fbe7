"""A clock in seconds, by the browser, for MicroPython."""

import nd


def perf_counter():
    return nd.seconds()
