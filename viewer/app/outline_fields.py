"""The fields of an outline: a pair for each corner, what each side has otherwise, and porches."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from trimwright.model.errors import Key
from trimwright.model.message import Message, message
from trimwright.model.units import INCHES, Unit

from .fields import SMALL, Field, FormSection
from .scene_text import value_at

EDGES: Mapping[str, Message] = {"eave": message("eave"), "gable": message("gable")}

BY_SIDE = ("outline", "cross gable")
"""Forms whose edges are named by numbered sides, and that porches may be carried down from."""

PORCHED = ("gable", "hip")
"""Forms that are drawn as an outline once they get a porch."""

CROSS_GABLE_EAVES = (1, 2, 4, 5, 7)
"""Of a house with a wing, the sides that a porch may be carried down from; they are those of its outline."""


HOOD = 24.0
"""How far a porch stands out at the least, inches."""

STEP: Mapping[str, float] = {"feet": 6.0, "mm": 100 / 25.4}
"""What a corner that is dragged goes by, inches: half a foot, or a tenth of a meter."""


PLAN = (
    ("roof", "outline"),
    ("roof", "holes"),
    ("roof", "sides"),
    ("roof", "overhang"),
    ("roof", "porch"),
    ("roof",),
)
"""Where problems stand that are about the outline as a whole, and not about one field of it."""


@dataclass(frozen=True, slots=True)
class WrittenRing:
    """An outline or a courtyard as it is written, readable or not.

    Attributes:
        path: Where its list stands.
        corners: Its corners, as they are written.
        first: Number of its first side.
    """

    path: Key
    corners: Sequence[Any]
    first: int


def unit_in(tables: Mapping[str, Any]) -> Unit:
    """Return what a bare number of a scene is in."""
    unit = tables.get("unit")
    return unit if isinstance(unit, str) and unit in INCHES else "in"  # type: ignore[return-value]


def rings_in(tables: Mapping[str, Any]) -> tuple[WrittenRing, ...]:
    """Return the outline of a scene and its courtyards; nothing of what is no list of corners."""
    outline, holes = value_at(tables, ("roof", "outline")), value_at(tables, ("roof", "holes"))
    written: list[tuple[Key, Any]] = [(("roof", "outline"), outline)]
    if isinstance(holes, list):
        written += [(("roof", "holes", number), hole) for number, hole in enumerate(holes)]
    found: list[WrittenRing] = []
    first = 1
    for path, corners in written:
        if isinstance(corners, list):
            found.append(WrittenRing(path, corners, first))
            first += len(corners)
    return tuple(found)


def outline_sections(tables: Mapping[str, Any]) -> Iterator[FormSection]:
    """Yield the form of an outline: its sides, its corners, its porches."""
    rings = rings_in(tables)
    gables = gables_in(tables)
    for ring in rings:
        for k in range(len(ring.corners)):
            yield _side(ring.first + k, tables)
    for place, ring in enumerate(rings):
        for k in range(len(ring.corners)):
            yield _corner(ring, place, k)
    count = sum(len(ring.corners) for ring in rings)
    yield from porch_sections(tables, [number for number in range(1, count + 1) if number not in gables])


def gables_in(tables: Mapping[str, Any]) -> frozenset[int]:
    """Return the numbers of the sides that a scene says are gables."""
    sides = value_at(tables, ("roof", "sides"))
    found = sides.items() if isinstance(sides, Mapping) else ()
    gable = (number for number, one in found if isinstance(one, Mapping) and one.get("edge") == "gable")
    return frozenset(int(number) for number in gable if number.isdecimal())


def _side(number: int, tables: Mapping[str, Any]) -> FormSection:
    """Return the form of a side; a gable has no pitch, unless somebody wrote one, to be taken out again."""
    at = ("roof", "sides", str(number))
    pitched = number not in gables_in(tables) or value_at(tables, (*at, "pitch")) is not None
    fields = (
        Field((*at, "edge"), message("Edge"), "either", tuple(EDGES.items())),
        *((Field((*at, "pitch"), message("Pitch of this side"), "text"),) if pitched else ()),
        Field((*at, "overhang"), message("Overhang of this side")),
    )
    return FormSection(f"side.{number}", message("Side {number}", number=number), fields, "sides")


def _corner(ring: WrittenRing, place: int, k: int) -> FormSection:
    title = message("Corner {number}", number=k + 1)
    if place:
        title = message("Courtyard {court}, corner {number}", court=place, number=k + 1)
    fields = (
        Field((*ring.path, k, 0), message("From the left"), must=True),
        Field((*ring.path, k, 1), message("From the front"), must=True),
    )
    return FormSection(f"corner.{place}.{k}", title, fields, "corners")


def porch_sections(tables: Mapping[str, Any], sides: Sequence[int]) -> Iterator[FormSection]:
    """Yield the form of each porch; ``sides`` are those that it may be carried down from."""
    porches = value_at(tables, ("roof", "porch"))
    for k in range(len(porches) if isinstance(porches, list) else 0):
        at = ("roof", "porch", k)
        fields = (
            Field(
                (*at, "side"),
                message("Under the eave of side"),
                "count",
                tuple((str(number), str(number)) for number in sides),
                must=True,
            ),
            Field(
                (*at, "from"), message("Begins at"), hint=message("from the side's first corner"), must=True
            ),
            Field((*at, "to"), message("Ends at"), must=True, least=SMALL),
            Field((*at, "depth"), message("How far it stands out"), must=True, least=HOOD),
        )
        yield FormSection(f"porch.{k}", message("Porch {number}", number=k + 1), fields, "porches")
