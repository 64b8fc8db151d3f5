"""Every length that a scene holds, with its key: found by the types of its tables, whatever these are."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, Any, get_args, get_origin

from pydantic import BaseModel

from ..errors import Key
from .fields import BoundedLength


def lengths_in(table: BaseModel, key: Key = ()) -> Iterator[tuple[Key, float]]:
    """Yield each length of a table and of all tables in it: its key, and its inches; what is None is left out."""
    for name, field in type(table).model_fields.items():
        yield from _of(getattr(table, name), field.rebuild_annotation(), (*key, name))


def is_said(table: BaseModel, key: Key) -> bool:
    """Return whether a scene says what stands at ``key`` itself, rather than leaving it to the default."""
    at: Any = table
    for part in key:
        if isinstance(at, BaseModel):
            if part not in at.model_fields_set:
                return False
            at = getattr(at, str(part))
        else:
            at = at[part]
    return True


def _of(value: Any, kind: Any, key: Key) -> Iterator[tuple[Key, float]]:
    """Yield the lengths of one value that was read as ``kind``."""
    if isinstance(value, BaseModel):
        yield from lengths_in(value, key)
    elif not isinstance(value, float | Mapping | tuple):
        return
    elif get_origin(kind) is Annotated:
        inner, *marks = get_args(kind)
        if isinstance(value, float) and any(isinstance(mark, BoundedLength) for mark in marks):
            yield key, value
        else:
            yield from _of(value, inner, key)
    elif isinstance(value, Mapping) and get_args(kind):
        for name, item in value.items():
            yield from _of(item, get_args(kind)[1], (*key, str(name)))
    elif isinstance(value, tuple) and get_origin(kind) is tuple:
        kinds = [one for one in get_args(kind) if one is not ...]
        for number, item in enumerate(value):
            yield from _of(item, kinds[min(number, len(kinds) - 1)], (*key, number))
    else:
        for one in get_args(kind):
            yield from _of(value, one, key)
