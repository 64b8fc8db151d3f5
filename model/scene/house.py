"""What a scene says about the house under the roof, for pictures: its siding, foundation, windows and doors."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from ..message import message
from .fields import BoundedLength, Spec, refusal

Along = Annotated[float, BoundedLength(0, 12_000, "6'")]
Size = Annotated[float, BoundedLength(6, 600, "3'")]
Sill = Annotated[float, BoundedLength(0, 1200, "44 in")]
Side = Literal["left", "right", "front", "back"]
"""A side of the house, seen from outside."""

Foundation = Annotated[float, BoundedLength(0, 60, "8 in")]


class OpeningSpec(Spec):
    """A window or a door.

    Attributes:
        kind: Which of them.
        wall: The side of the house that it is in.
        at: Its middle, from the left end of that side of the house, seen from outside, inches; where a wing stands out,
            the foremost wall there has it.
        width: Inches.
        height: Inches.
        sill: From the ground to its lower edge, inches; a door stands on the foundation.
    """

    kind: Literal["window", "door"] = "window"
    wall: Side
    at: Along
    width: Size = 36.0
    height: Size = Field(default_factory=lambda data: 80.0 if data.get("kind") == "door" else 48.0)
    sill: Sill | None = None

    @model_validator(mode="after")
    def _stands(self) -> OpeningSpec:
        if self.kind == "door" and self.sill is not None:
            raise refusal(message("a door stands on the foundation; leave its sill out"))
        return self


class HouseSpec(Spec):
    """The house, as pictures show it; no piece of trim depends on it.

    Attributes:
        siding: What its walls are covered with.
        foundation: How high it shows above the ground, inches.
        openings: Windows and a door as houses have them, or none but those of ``opening``.
        opening: Windows and doors. A wall with a window of its own has no automatic ones, others keep theirs; a door
            takes the place of the automatic one, in whatever wall it is.
        gutters: What hangs under the level eaves, with its downspouts.
    """

    siding: Literal["lap", "boards", "plain"] = "lap"
    foundation: Foundation = 8.0
    openings: Literal["automatic", "none"] = "automatic"
    opening: Annotated[tuple[OpeningSpec, ...], Field(max_length=100)] = ()
    gutters: Literal["none", "box", "half-round"] = "none"
