"""For MicroPython: nothing guards a mapping there."""


def MappingProxyType(mapping):
    return mapping
