"""What a scene says about the sun: the day, the hour and the latitude that finished pictures are lit for."""

from __future__ import annotations

import math
from typing import Annotated

from pydantic import Field, StrictInt, model_validator

from ..message import Angle, message
from .fields import Spec, refusal

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
"""Of each month of a common year."""

LOWEST = 3.0
"""Degrees above level below which nothing is lit by it."""


class SunSpec(Spec):
    """Where the sun stands.

    Attributes:
        month: Of the year.
        day: Of the month.
        hour: By the sun: 12 when it is highest.
        latitude: Degrees, north of the equator positive.
    """

    month: Annotated[StrictInt, Field(ge=1, le=12)] = 6
    day: Annotated[StrictInt, Field(ge=1, le=31)] = 21
    hour: Annotated[float, Field(ge=0, le=24)] = 15.0
    latitude: Annotated[float, Field(ge=-66, le=66)]

    @model_validator(mode="after")
    def _up(self) -> SunSpec:
        if self.day > DAYS[self.month - 1]:
            raise refusal(message("there is no such day; give month and day of a year"))
        height = self.place[1]
        if height < LOWEST:
            raise refusal(
                message(
                    "the sun stands {height} degrees high then; give an hour of the day, such as 15",
                    height=Angle(math.radians(height)),
                )
            )
        return self

    @property
    def place(self) -> tuple[float, float]:
        """Degrees clockwise from north, and degrees above level.

        Source:
            The declination is P. I. Cooper's (1969), 23.45 sin(360 (284 + day) / 365) degrees; with it, height and
            bearing follow from spherical trigonometry. The formula is from memory.
        """
        day = sum(DAYS[: self.month - 1]) + self.day
        tilt = math.radians(23.45) * math.sin(math.tau * (284 + day) / 365)
        turn, at = math.radians(15 * (self.hour - 12)), math.radians(self.latitude)
        east = -math.cos(tilt) * math.sin(turn)
        north = math.sin(tilt) * math.cos(at) - math.cos(tilt) * math.sin(at) * math.cos(turn)
        up = math.sin(at) * math.sin(tilt) + math.cos(at) * math.cos(tilt) * math.cos(turn)
        return math.degrees(math.atan2(east, north)) % 360, math.degrees(math.asin(max(-1.0, min(1.0, up))))
