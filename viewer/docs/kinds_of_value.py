"""What a value of a scene may be, in words: read off the types of its models."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from annotated_types import Ge, Gt, Le, MaxLen, MinLen
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from trimwright.model.scene.fields import BoundedLength, Color, Slope
from trimwright.model.scene.survey import PitchError, Taped
from trimwright.model.units import Tape


def either(kinds: Iterable[str]) -> str:
    """Return different kinds as a choice: ``a, b or c``."""
    *first, last = dict.fromkeys(kinds)
    return f"{', '.join(first)} or {last}" if first else last


def kind_of_field(field: FieldInfo) -> str:
    """Return what the value of a model's key may be."""
    return kind_of(field.annotation, tuple(field.metadata))


def kind_of(kind: Any, facts: tuple[Any, ...] = ()) -> str:
    """Return what a value may be, in words."""
    origin = get_origin(kind)
    if origin is Annotated:
        inner, *more = get_args(kind)
        more = [
            fact for extra in more for fact in (extra.metadata if isinstance(extra, FieldInfo) else [extra])
        ]
        return kind_of(inner, (*facts, *more))
    if origin in (Union, UnionType):
        return either(kind_of(one, facts) for one in get_args(kind) if one is not NoneType)
    if origin is Literal:
        return either(f"`{as_toml(option)}`" for option in get_args(kind))
    if any(getattr(fact, "func", None) is _reader(Taped) for fact in facts):
        return "length or pitch, by name"
    if origin is dict:
        key, value = get_args(kind)
        inner = kind_of(value)
        by = "number" if key is int else "name"
        return f"tables by {by}" if inner == "table" else f"{inner}, by {by}"
    if origin is tuple:
        return _list(get_args(kind), facts)
    return _plain(kind, facts)


def _list(items: tuple[Any, ...], facts: tuple[Any, ...]) -> str:
    each = kind_of(items[0])
    if items[-1] is not Ellipsis:
        return f"pair of {each}"
    least = next((fact.min_length for fact in facts if isinstance(fact, MinLen)), 0)
    most = next((fact.max_length for fact in facts if isinstance(fact, MaxLen)), None)
    count = f", {least} to {most} of them" if least and most else f", at most {most:,}" if most else ""
    return f"list of {each}{count}"


def _plain(kind: Any, facts: tuple[Any, ...]) -> str:
    """Return the words for a value that is no collection."""
    length = next((fact for fact in facts if isinstance(fact, BoundedLength)), None)
    if length is not None:
        return f"length, {in_inches(length.low)} to {in_inches(length.high)}"
    readers = {
        _reader(Slope): "pitch, 0.25 to 85 deg",
        _reader(PitchError): "pitch, 0.01 to 10 deg",
        _reader(Color): "color",
    }
    for fact in facts:
        if getattr(fact, "func", None) in readers:
            return readers[fact.func]
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        return "table"
    if kind is bool:
        return "yes or no"
    if kind in (float, int):
        low = next((f"{fact.ge:g}" for fact in facts if isinstance(fact, Ge)), None)
        low = low or next((f"more than {fact.gt:g}" for fact in facts if isinstance(fact, Gt)), None)
        high = next((f"{fact.le:,.0f}" for fact in facts if isinstance(fact, Le)), None)
        return f"{'whole ' if kind is int else ''}number" + (f", {low} to {high}" if low and high else "")
    return "text"


def _reader(kind: Any) -> Callable[..., Any]:
    """Return the function that reads a kind of value."""
    func: Callable[..., Any] = get_args(kind)[-1].func
    return func


def in_inches(value: float) -> str:
    """Return a length as a tape reads it, or in decimals where none can."""
    tape = Tape("feet", 64)
    return (
        f'{value:g}"'
        if 0 < value < 1 / 64 or not math.isclose(value * 64, round(value * 64))
        else tape(value)
    )


def as_toml(value: object) -> str:
    """Return a value as a scene writes it."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return '"' + value.replace('"', '\\"') + '"'
    if isinstance(value, list | tuple):
        return f"[{', '.join(as_toml(one) for one in value)}]"
    return str(value)
