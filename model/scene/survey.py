"""What was measured on a roof, and how well."""

from __future__ import annotations

import math
from typing import Annotated, Any

from pydantic import BeforeValidator, ConfigDict, Field, TypeAdapter, ValidationError, ValidationInfo
from pydantic_core import InitErrorDetails

from ..measures import MeasureError, bare, parse_pitch
from ..message import message
from .fields import BoundedLength, Slope, Spec, Text, refusal

PITCH = "pitch"
"""What the name of a measured slope ends with; all else that is measured is a length."""

LONGEST = 12_000
"""Of a tape, inches."""


def _error(value: object) -> float:
    """Return how far a pitch may be off, radians."""
    try:
        angle = parse_pitch(value)
    except MeasureError as error:
        raise refusal(error.message) from None
    if not math.radians(0.01) <= angle <= math.radians(10):
        raise refusal(
            message("{came} is out of bounds; give 0.01 deg to 10 deg, such as 0.5 deg", came=bare(value))
        )
    return angle


PitchError = Annotated[float, BeforeValidator(_error)]


class SurveySpec(Spec):
    """How well lengths and pitches are known.

    Attributes:
        tape: How far a tape may be off either way, inches: two standard errors.
        pitch: How far a measured pitch may be off either way, radians: two standard errors.
    """

    tape: Annotated[float, BoundedLength(1 / 64, 12, "1/8 in")] = 1 / 8
    pitch: PitchError = math.radians(0.5)


_LATER = ConfigDict(defer_build=True)
_LENGTH: TypeAdapter[float] = TypeAdapter(
    Annotated[float, BoundedLength(1, LONGEST, "34' 1 1/4\"")], config=_LATER
)
_SLOPE: TypeAdapter[float] = TypeAdapter(Slope, config=_LATER)


def _measured(raw: Any, info: ValidationInfo) -> Any:
    """Return each measure as a number: of what is called a pitch, radians; of all else, inches."""
    if not isinstance(raw, dict):
        return raw
    read: dict[object, float] = {}
    refused: list[InitErrorDetails] = []
    for name, value in raw.items():
        kind = _SLOPE if str(name).rstrip().endswith(PITCH) else _LENGTH
        try:
            read[name] = kind.validate_python(value, context=info.context)
        except ValidationError as error:
            refused += [
                InitErrorDetails(type=refusal(one["ctx"]["message"]), loc=(str(name),), input=value)
                for one in error.errors()
            ]
    if refused:
        raise ValidationError.from_exception_data("Taped", refused)
    return read


Taped = Annotated[dict[Text, float], Field(max_length=400), BeforeValidator(_measured)]
"""By the name of an edge, a diagonal, a pitch, a height or a way between plumb marks: what was read."""
