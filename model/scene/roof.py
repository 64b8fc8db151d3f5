"""What a scene says about the roof: a form and its sizes."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from .faces import FacesSpec
from .fields import Building, Deck, Slope, Spec, WallHeight
from .outline import OutlineSpec
from .overhangs import Overhangs
from .survey import Taped


class _Form(Spec):
    """What every form has.

    Attributes:
        length: Along the ridge of a gable or hip, along the eave of a shed, over the walls, inches.
        width: From eave wall to eave wall, or from low wall to high wall, inches.
        pitch: Slope from level, radians; of a gable, the front's; of a hip, the two sides'.
        wall_height: Of the eave walls, inches.
        overhang: How far the deck reaches past the walls.
        deck: Its thickness, inches.
        taped: What was measured on the deck, overhangs included: the true sizes.
    """

    length: Building
    width: Building
    pitch: Slope
    wall_height: WallHeight = 96.0
    overhang: Overhangs = Overhangs()
    deck: Deck = 0.5
    taped: Taped = Field(default_factory=dict)

    @property
    def slopes(self) -> tuple[float, ...]:
        """Every pitch that was given, radians."""
        given = (self.pitch, getattr(self, "far_pitch", None), getattr(self, "end_pitch", None))
        return tuple(pitch for pitch in given if pitch is not None)


class GableSpec(_Form):
    """Two slopes and two gable ends.

    Attributes:
        far_pitch: The back's slope, radians; None when both are alike.
        far_wall_height: Of the back wall, inches; None when both eaves are at one height. A saltbox has a lower one.
    """

    form: Literal["gable"]
    far_pitch: Slope | None = None
    far_wall_height: WallHeight | None = None


class HipSpec(_Form):
    """Four slopes; a square plan with equal slopes is a pyramid.

    Attributes:
        end_pitch: The slope of the two ends, radians; None when all are alike.
    """

    form: Literal["hip"]
    end_pitch: Slope | None = None


class ShedSpec(_Form):
    """One slope, from the low wall in front up to the high wall at the back."""

    form: Literal["shed"]


RoofSpec = Annotated[GableSpec | HipSpec | ShedSpec | OutlineSpec | FacesSpec, Field(discriminator="form")]
