"""Kinds of value in a scene: each reads what a person writes and says what it would take."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    GetCoreSchemaHandler,
    StringConstraints,
)
from pydantic_core import PydanticCustomError, core_schema

from ..measures import MeasureError, bare, parse_length, parse_pitch, shorten
from ..message import Message, message
from ..units import Tape, Unit
from .colors import as_color


class Spec(BaseModel):
    """A table of a scene: frozen, and closed to keys that it does not know.

    What reads it is made when the first scene is read, once for all tables.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, defer_build=True)


def refusal(message: Message) -> PydanticCustomError:
    """Return the error that carries ``message`` and says nothing else."""
    return PydanticCustomError("refusal", "{message}", {"message": message})


def unit_of(info: core_schema.ValidationInfo) -> Unit:
    """Return the unit of the scene that is being read; inches outside of one."""
    unit: Unit = (info.context or {}).get("unit", "in")
    return unit


@dataclass(frozen=True, slots=True)
class BoundedLength:
    """A length within bounds, as text with a unit or as a bare number in the scene's unit; inches inside.

    Attributes:
        low: The least, inches.
        high: The most, inches.
        example: What a good one looks like.
    """

    low: float
    high: float
    example: str

    def read(self, value: object, info: core_schema.ValidationInfo) -> float:
        """Return ``value`` in inches, or raise with what came and what is allowed."""
        unit = unit_of(info)
        try:
            inches = parse_length(value, unit)
        except MeasureError as error:
            raise refusal(error.message) from None
        if self.low <= inches <= self.high:
            return inches
        raise refusal(
            self._out_of_bounds(inches, bare(value), Tape("feet" if unit in ("in", "ft") else "mm", 64))
        )

    def _out_of_bounds(self, inches: float, came: str, tape: Tape) -> Message:
        """Return what refuses a length that is none, too short or too long."""
        if inches <= 0 < self.low:
            return message(
                "{came} is not a length; give more than 0, such as {example}", came=came, example=self.example
            )
        if inches <= 0:
            return message(
                "{came} is not a length; give 0 or more, such as {example}", came=came, example=self.example
            )
        bound = self.low if inches < self.low else self.high
        shown = tape(bound) if bound >= 1 / 16 else tape.fine(bound)
        if inches < self.low:
            return message(
                "{came} is too short; give at least {bound}, such as {example}",
                came=came,
                bound=shown,
                example=self.example,
            )
        return message(
            "{came} is too long; give at most {bound}, such as {example}",
            came=came,
            bound=shown,
            example=self.example,
        )

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """Read before pydantic sees a plain float."""
        return core_schema.with_info_before_validator_function(self.read, handler(source))


def _slope(value: object) -> float:
    """Return a pitch as an angle from level, radians."""
    try:
        angle = parse_pitch(value)
    except MeasureError as error:
        raise refusal(error.message) from None
    if angle < math.radians(0.25):
        raise refusal(message("{came} is too flat; give 0.25 deg to 85 deg, such as 6/12", came=bare(value)))
    if angle > math.radians(85):
        raise refusal(message("{came} is too steep; give 0.25 deg to 85 deg, such as 6/12", came=bare(value)))
    return angle


def _color(value: object, info: core_schema.ValidationInfo) -> str:
    """Return a color as ``#rrggbb`` in lower case; the shop's own chart is asked first."""
    color = as_color(value, (info.context or {}).get("chart") or {})
    if isinstance(color, Message):
        raise refusal(color)
    return color


def _one_line(text: str) -> str:
    """Return ``text`` if it can be printed on one line."""
    if not text.isprintable():
        raise refusal(
            message(
                "{came} has line breaks or control characters; give plain text on one line",
                came=shorten(text),
            )
        )
    return text


def _in_a_row(value: object) -> object:
    """Return one text as a row of one."""
    return (value,) if isinstance(value, str) else value


def _each_once(codes: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(codes))


Slope = Annotated[float, BeforeValidator(_slope)]
Color = Annotated[str, BeforeValidator(_color)]
Text = Annotated[
    str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200), AfterValidator(_one_line)
]
LanguageCode = Annotated[str, StringConstraints(pattern=r"^[a-z]{2,3}$")]
Languages = Annotated[
    tuple[LanguageCode, ...],
    BeforeValidator(_in_a_row),
    AfterValidator(_each_once),
    Field(min_length=1, max_length=4),
]
"""One code, or several for words beside each other."""

Building = Annotated[float, BoundedLength(12, 12_000, "32'")]
Along = Annotated[float, BoundedLength(0, 12_000, "10'")]
Coordinate = Annotated[float, BoundedLength(-12_000, 12_000, "44'")]
Overhang = Annotated[float, BoundedLength(0, 120, "12 in")]
Deck = Annotated[float, BoundedLength(1 / 8, 12, "1/2 in")]
WallHeight = Annotated[float, BoundedLength(6, 1200, "9'")]
Stock = Annotated[float, BoundedLength(6, 1200, "10' 6\"")]
Thickness = Annotated[float, BoundedLength(0.005, 0.25, "0.0239 in")]
Radius = Annotated[float, BoundedLength(0, 0.5, "1/32 in")]
Lap = Annotated[float, BoundedLength(0.5, 24, "4 in")]
Tab = Annotated[float, BoundedLength(0, 2, "3/8 in")]
PieceLength = Annotated[float, BoundedLength(1, 1200, "7' 2\"")]
Spacing = Annotated[float, BoundedLength(1, 120, "20 in")]
FromEnd = Annotated[float, BoundedLength(0.25, 60, "6 in")]
TapeMark = Annotated[float, BoundedLength(0, 1200, "6 in")]
Head = Annotated[float, BoundedLength(1 / 8, 1, "5/16 in")]
Hole = Annotated[float, BoundedLength(1 / 32, 0.5, "1/8 in")]
Cover = Annotated[float, BoundedLength(4, 60, "16 in")]
Seam = Annotated[float, BoundedLength(0.25, 4, "1 1/2 in")]
Offset = Annotated[float, BoundedLength(0, 60, "8 in")]
Width = Annotated[float, BoundedLength(1 / 16, 48, "3 1/2 in")]
