"""Plain values: what JSON can hold, from arrays, numpy numbers and tuples."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import numpy as np

DIGITS = 6
"""Decimals that a report keeps: a millionth of an inch or a degree."""


def plain(value: Any, digits: int = DIGITS) -> Any:
    """Return ``value`` as dicts, lists, text, numbers and None; numbers rounded, no minus before a zero.

    Args:
        value: What to make plain.
        digits: Decimals that its numbers keep.

    Raises:
        ValueError: A number is not finite.
        TypeError: It holds something that JSON has no word for.
    """
    if isinstance(value, float):
        if not math.isfinite(value):
            raise ValueError(f"{value} cannot be reported")
        return round(value, digits) + 0.0
    if isinstance(value, tuple | list):
        return [plain(item, digits) for item in value]
    if isinstance(value, Mapping):
        return {str(key): plain(item, digits) for key, item in value.items()}
    if isinstance(value, np.ndarray | np.generic):
        return plain(value.tolist(), digits)
    if value is None or isinstance(value, bool | str | int):
        return value
    raise TypeError(f"{type(value).__name__} cannot be reported")
