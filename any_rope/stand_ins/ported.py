"""What `port` calls in place of what MicroPython has not, or has otherwise."""

import nd


def text(value, form=""):
    """A value as a format's text, numbers rounded as Python rounds them."""
    if not form:
        return str(value)
    if isinstance(value, (int, float)) and form[-1] in "feg%":
        return nd.text(float(value), form)
    return ("{:" + form + "}").format(value)


def rounded(value, digits=None):
    if digits is None:
        return round(value)
    return float(nd.text(float(value), ".%df" % digits)) if digits >= 0 else round(value, digits)


def divided(a, b):
    return a.parts() if hasattr(a, "parts") else divmod(a, b)


def isprintable(value):
    return nd.printable(value)


def ljust(value, width):
    return value + " " * (width - len(value))


def rjust(value, width):
    return " " * (width - len(value)) + value


def removeprefix(value, start):
    return value[len(start) :] if value.startswith(start) else value


def removesuffix(value, end):
    return value[: len(value) - len(end)] if end and value.endswith(end) else value


def capitalize(value):
    return value[:1].upper() + value[1:].lower()
