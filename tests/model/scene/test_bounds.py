"""The bounds that docs/scene-format.md prints, of lengths, numbers and lists, are those that a scene is held to.

Those of lengths, themselves allowed, and nothing beyond; the others are pydantic's own to hold.
"""

import math
import re
import types
from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Any, get_args, get_origin

import pytest
from annotated_types import Ge, Gt, Le, MaxLen, MinLen
from pydantic import BaseModel, TypeAdapter, ValidationError
from pydantic.fields import FieldInfo

from trimwright.model.measures import parse_length
from trimwright.model.scene.fields import BoundedLength
from trimwright.model.scene.schema import Scene

PAGE = Path(__file__).parents[3] / "docs/scene-format.md"
ROW = re.compile(r"""\| `(\w+)` \| [^|]*?length, (-?)([^|]*?) to ([^|]*?["'])[ ,|]""")
"""A key and its bounds."""

KIND = re.compile(r"^\| `(\w+)` \| ([^|]*) \|", re.MULTILINE)
"""A key and what may stand there."""

RANGE = re.compile(
    r"number, (?:more than )?(?P<low>\S+) to (?P<high>\S+)"
    r"|, (?P<least>\d+) to (?P<most>\d+) of them"
    r"|, at most (?P<top>[\d,]+)"
)
"""The least and the most of a number, or how many of a list there may be."""

HEIGHTS = {(key, -1000.0, 12000.0) for key in ("faces", "holes", "walls")}
"""Third numbers of points: the page prints the bounds of the first two."""

UNPRINTED = {
    ("currency", 0, 8),
    *((key, 0, 100) for key in ("closure", "panel_profile", "profile")),
    *((key, 0, 400) for key in ("sides", "taped")),
    ("sun", 5, 90),
}
"""Letters of a text, tables by name, and the second number of a pair: the page says nothing of how many."""


def models_in(kind: Any) -> Iterator[type[BaseModel]]:
    """Yield the models that a type is made of, itself included."""
    if isinstance(kind, type) and not isinstance(kind, types.GenericAlias) and issubclass(kind, BaseModel):
        yield kind
        for field in kind.model_fields.values():
            yield from models_in(field.annotation)
    for part in get_args(kind):
        yield from models_in(part)


def bounds_in(kind: Any) -> Iterator[BoundedLength]:
    """Yield the bounds of the lengths that a type is made of."""
    yield from (mark for mark in getattr(kind, "__metadata__", ()) if isinstance(mark, BoundedLength))
    for part in get_args(kind):
        yield from bounds_in(part)


def ranges_in(key: str, kind: Any, marks: tuple[Any, ...]) -> Iterator[tuple[str, float, float]]:
    """Yield the least and the most of every number and every list that a type with these marks is made of."""
    own = [one for mark in marks for one in (mark.metadata if isinstance(mark, FieldInfo) else [mark])]
    least = [mark.ge for mark in own if isinstance(mark, Ge)] + [
        mark.gt for mark in own if isinstance(mark, Gt)
    ]
    least += [mark.min_length for mark in own if isinstance(mark, MinLen)]
    most = [mark.le for mark in own if isinstance(mark, Le)]
    most += [mark.max_length for mark in own if isinstance(mark, MaxLen)]
    if most:
        yield key, least[0] if least else 0, most[0]
    if get_origin(kind) is Annotated:
        inner, *more = get_args(kind)
        yield from ranges_in(key, inner, tuple(more))
    else:
        for part in get_args(kind):
            yield from ranges_in(key, part, ())


RANGED = {
    found
    for model in models_in(Scene)
    for key, field in model.model_fields.items()
    for found in ranges_in(field.alias or key, field.annotation, tuple(field.metadata))
}

BOUNDED = {
    (field.alias or key, mark)
    for model in models_in(Scene)
    for key, field in model.model_fields.items()
    for mark in (*(m for m in field.metadata if isinstance(m, BoundedLength)), *bounds_in(field.annotation))
}


def test_the_page_prints_the_bounds_of_every_length() -> None:
    rows = ROW.finditer(PAGE.read_text(encoding="utf-8"))
    printed = {
        (key, math.copysign(parse_length(low), -1 if minus else 1), parse_length(high))
        for key, minus, low, high in (row.groups() for row in rows)
    }
    assert {(key, mark.low, mark.high) for key, mark in BOUNDED} == printed | HEIGHTS


def test_the_page_prints_the_least_and_the_most_of_every_number_and_every_list() -> None:
    printed = {
        (key, *(float((number or "0").replace(",", "")) for number in ends))
        for key, kind in KIND.findall(PAGE.read_text(encoding="utf-8"))
        for low, high, least, most, top in RANGE.findall(kind)
        for ends in [(low or least, high or most or top)]
    }
    assert printed | UNPRINTED == RANGED


@pytest.mark.parametrize("mark", sorted({mark for _, mark in BOUNDED}, key=repr), ids=repr)
def test_a_bound_is_taken_and_what_is_just_beyond_it_refused(mark: BoundedLength) -> None:
    length = TypeAdapter(Annotated[float, mark])
    assert length.validate_python(mark.low) == mark.low
    assert length.validate_python(mark.high) == mark.high
    for beyond in (mark.low - 1e-6, mark.high + 1e-6):
        with pytest.raises(ValidationError, match="give"):
            length.validate_python(beyond)
