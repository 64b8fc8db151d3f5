"""Lengths of a scene: the bounds that docs/scene-format.md prints hold, themselves allowed, and nothing beyond."""

import math
import re
import types
from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Any, get_args

import pytest
from pydantic import BaseModel, TypeAdapter, ValidationError

from trimwright.model.measures import parse_length
from trimwright.model.scene.fields import BoundedLength
from trimwright.model.scene.schema import Scene

PAGE = Path(__file__).parents[3] / "docs/scene-format.md"
ROW = re.compile(r"""\| `(\w+)` \| [^|]*?length, (-?)([^|]*?) to ([^|]*?["'])[ ,|]""")
"""A key and its bounds."""

HEIGHTS = {(key, -1000.0, 12000.0) for key in ("faces", "holes", "walls")}
"""Third numbers of points: the page prints the bounds of the first two."""


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


@pytest.mark.parametrize("mark", sorted({mark for _, mark in BOUNDED}, key=repr), ids=repr)
def test_a_bound_is_taken_and_what_is_just_beyond_it_refused(mark: BoundedLength) -> None:
    length = TypeAdapter(Annotated[float, mark])
    assert length.validate_python(mark.low) == mark.low
    assert length.validate_python(mark.high) == mark.high
    for beyond in (mark.low - 1e-6, mark.high + 1e-6):
        with pytest.raises(ValidationError, match="give"):
            length.validate_python(beyond)
