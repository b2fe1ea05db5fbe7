"""Normal forms of text, by the browser, for MicroPython."""

import nd


def normalize(form, text):
    return nd.normal(form, text)
