"""What a scene says about the roof: a form and its sizes."""

from __future__ import annotations

from typing import Annotated, Literal, Self, get_args

from pydantic import Field, ValidationError, model_validator
from pydantic_core import InitErrorDetails

from ..message import Length, message
from .faces import FacesSpec
from .fields import Along, Building, Deck, Slope, Spec, WallHeight, refusal
from .outline import SHORTEST_SIDE, OutlineSpec, Porches, SideSpec, porch_problems
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
    overhang: Overhangs = Overhangs.model_construct()
    deck: Deck = 0.5
    taped: Taped = Field(default_factory=dict)

    @property
    def slopes(self) -> tuple[float, ...]:
        """Every pitch that was given, radians."""
        others = (getattr(self, name, None) for name in ("far_pitch", "end_pitch", "upper_pitch"))
        return (self.pitch, *(pitch for pitch in others if pitch is not None))


class _Broken(_Form):
    """What forms have whose pitch may change along a level line.

    Attributes:
        break_at: How far in from the outside of the eave walls, level, the pitch changes, inches; None where it does
            not.
        upper_pitch: The slope from there up, radians: less than below on a gambrel, more where a steep roof goes over
            into a flatter one.
    """

    break_at: Building | None = None
    upper_pitch: Slope | None = None

    @model_validator(mode="after")
    def _has_both(self) -> Self:
        for key, other in (("break_at", "upper_pitch"), ("upper_pitch", "break_at")):
            if getattr(self, key) is None and getattr(self, other) is not None:
                told = message("{other} needs it: give both, or neither", other=other)
                detail = InitErrorDetails(type=refusal(told), loc=(key,), input=None)
                raise ValidationError.from_exception_data(type(self).__name__, [detail])
        return self


class GableSpec(_Broken):
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


class ShedSpec(_Broken):
    """One slope, from the low wall in front up to the high wall at the back."""

    form: Literal["shed"]


class WingSpec(Spec):
    """A wing in front of a gable roof, with a gable of its own.

    Attributes:
        at: Where it begins, from the left end of the front wall, inches.
        width: From wall to wall, along the front wall, inches.
        length: How far it stands out before the front wall, inches.
        pitch: Of its two slopes, radians; None for the roof's.
    """

    at: Along
    width: Building
    length: Building
    pitch: Slope | None = None


class CrossGableSpec(_Form):
    """A gable roof with a wing before it, whose ridge dies into the front slope or crosses it.

    Attributes:
        wing: The wing.
        porch: Porches, in their order along each side.
    """

    form: Literal["cross gable"]
    wing: WingSpec
    porch: Porches = ()

    @property
    def slopes(self) -> tuple[float, ...]:
        """Every pitch that was given, radians."""
        return (self.pitch,) if self.wing.pitch is None else (self.pitch, self.wing.pitch)

    @property
    def outlined(self) -> OutlineSpec:
        """The same roof over its outline: side 1 left of the wing, 3 the wing's gable, 6 and 8 those of the house."""
        wing, front = self.wing, -self.wing.length
        left, right = wing.at, wing.at + wing.width
        plan = [(0.0, 0.0), (left, 0.0), (left, front), (right, front), (right, 0.0), (self.length, 0.0)]
        plan += [(self.length, self.width), (0.0, self.width)]
        gable, slope = SideSpec(edge="gable"), SideSpec.model_construct(pitch=wing.pitch)
        return OutlineSpec.model_construct(
            form="outline",
            outline=tuple(plan),
            pitch=self.pitch,
            porch=self.porch,
            sides={2: slope, 3: gable, 4: slope, 6: gable, 8: gable},
            wall_height=self.wall_height,
            overhang=self.overhang,
            deck=self.deck,
        )

    @model_validator(mode="after")
    def _wing_fits(self) -> CrossGableSpec:
        room = self.length - 2 * SHORTEST_SIDE
        refused: list[InitErrorDetails] = []
        if self.wing.width > room:
            told = message(
                "{width} leaves no wall beside it; give at most {most}, or more roof.length",
                width=Length(self.wing.width),
                most=Length(max(room, 0.0)),
            )
            refused.append(InitErrorDetails(type=refusal(told), loc=("wing", "width"), input=None))
        elif not SHORTEST_SIDE <= self.wing.at <= self.length - self.wing.width - SHORTEST_SIDE:
            told = message(
                "{at} leaves less than {least} of wall beside the wing; give {first} to {last}",
                at=Length(self.wing.at),
                least=Length(SHORTEST_SIDE),
                first=Length(SHORTEST_SIDE),
                last=Length(self.length - self.wing.width - SHORTEST_SIDE),
            )
            refused.append(InitErrorDetails(type=refusal(told), loc=("wing", "at"), input=None))
        else:
            refused += [
                InitErrorDetails(type=refusal(problem.message), loc=problem.key, input=None)
                for problem in porch_problems(self.outlined)
            ]
        if refused:
            raise ValidationError.from_exception_data("CrossGableSpec", refused)
        return self


RoofSpec = Annotated[
    GableSpec | HipSpec | ShedSpec | CrossGableSpec | OutlineSpec | FacesSpec, Field(discriminator="form")
]

FORMS: tuple[str, ...] = tuple(
    get_args(spec.model_fields["form"].annotation)[0] for spec in get_args(get_args(RoofSpec)[0])
)
"""The names of all forms."""
