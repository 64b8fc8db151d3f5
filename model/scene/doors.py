"""What a scene says about doors: where people walk in under the trim."""

from __future__ import annotations

from typing import Annotated, Literal

from .fields import BoundedLength, Spec

Side = Literal["left", "right", "front", "back"]
Across = Annotated[float, BoundedLength(0, 12_000, "12'")]
Opening = Annotated[float, BoundedLength(12, 600, "3'")]


class DoorSpec(Spec):
    """A door in a wall of the house.

    Attributes:
        side: The side of the house that it is on.
        left: From the left corner of that side to the door, seen from outside, inches.
        width: Of the door, inches.
    """

    side: Side
    left: Across
    width: Opening = 36.0
