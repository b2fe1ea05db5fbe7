"""For MicroPython: data files come as JSON, made from their TOML as the page's Python is made."""

import json


def loads(text):
    return json.loads(text)
