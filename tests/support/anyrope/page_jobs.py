"""Jobs as the page's Python takes them."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import Any


def as_given(value: Any) -> Any:
    """A job, or any of its values, as plain data."""
    if is_dataclass(value):
        return {
            "class": type(value).__name__,
            "fields": {one.name: as_given(getattr(value, one.name)) for one in fields(value)},
        }
    return [as_given(one) for one in value] if isinstance(value, tuple | list) else value
