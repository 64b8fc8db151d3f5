"""Layouts in sums: of all numbers that have one name in them, how many there are, their sum, and where it lies.

A layout has some hundred thousand numbers. Hardly one changes without a change of the sums, and these can be kept in a
file, and read beside those of before.
"""

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from typing import Any, NamedTuple
from zlib import crc32

import numpy as np
from pydantic import BaseModel

CLOSE = 1e-8
"""Share of what its numbers come to, all taken as positive, by which a sum may differ between two machines."""

WORDS = 9973
"""Words count as a number below this prime."""


class Sums(NamedTuple):
    """What all numbers of one name come to.

    Attributes:
        count: How many there are.
        total: Their sum.
        moment: The sum of each times its place among them, from 0 to 1: it tells when two change places.
        size: The sum of all, taken as positive.
    """

    count: int
    total: float
    moment: float
    size: float

    def close(self, other: "Sums") -> bool:
        """Whether two are the same but for rounding."""
        near = CLOSE * (1 + max(self.size, other.size))
        return self.count == other.count and all(
            math.isclose(mine, theirs, rel_tol=0, abs_tol=near)
            for mine, theirs in zip(self[1:], other[1:], strict=True)
        )


def summed(things: Iterable[tuple[str, Any]]) -> dict[str, Sums]:
    """Return the sums of all numbers in named ``things``, by their names from the outside in: ``layout.parts.low``."""
    found: dict[str, list[float]] = {}
    for called, thing in things:
        for name, value in _numbers(thing, called):
            found.setdefault(name, []).append(value)
    return {name: _sums(np.array(values)) for name, values in sorted(found.items())}


def written(sums: Mapping[str, Sums]) -> str:
    """Return a table of sums, a line each."""
    return "".join(
        f"{name}, {one.count}, {one.total:.9g}, {one.moment:.9g}, {one.size:.9g}\n"
        for name, one in sums.items()
    )


def read(table: str) -> dict[str, Sums]:
    """Return the sums of a table that was written."""
    rows = (line.split(", ") for line in table.splitlines())
    return {name: Sums(int(count), *map(float, others)) for name, count, *others in rows}


def _sums(values: np.ndarray) -> Sums:
    place = np.linspace(0, 1, len(values))
    return Sums(len(values), float(values.sum()), float(values @ place), float(np.abs(values).sum()))


def _numbers(thing: Any, name: str) -> Iterator[tuple[str, float]]:
    """Yield each number below ``thing`` with its name; what was asked for in the scene is left out."""
    if isinstance(thing, str):
        yield name, float(crc32(thing.encode()) % WORDS)
    elif isinstance(thing, bool | int | float | np.number):
        yield name, _finite(float(thing))
    elif isinstance(thing, np.ndarray):
        columns = thing.reshape(-1, thing.shape[-1]).T if thing.ndim > 1 else thing[None]
        for axis, values in zip("xyzw" if len(columns) > 1 else [""], columns, strict=False):
            yield from ((f"{name} {axis}".rstrip(), _finite(float(value))) for value in values)
    elif is_dataclass(thing):
        for field in fields(thing):
            yield from _numbers(getattr(thing, field.name), f"{name}.{field.name}")
    elif isinstance(thing, Mapping):
        for key, value in thing.items():
            yield from _numbers((key, value), name)
    elif isinstance(thing, Iterable) and not isinstance(thing, BaseModel):
        for one in sorted(thing) if isinstance(thing, frozenset) else thing:
            yield from _numbers(one, name)


def _finite(value: float) -> float:
    return value if math.isfinite(value) else -1.0
