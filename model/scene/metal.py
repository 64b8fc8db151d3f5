"""What a scene says about the metal of its trim."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator

from ..measures import shorten
from ..message import Listed, Message, message
from ..metals import METALS, Metal
from .fields import Color, Radius, Spec, Stock, Thickness, refusal

MetalKind = Literal["steel", "galvanized", "aluminum", "copper", "zinc", "stainless"]
LABEL = re.compile(r"(?P<number>[\d.]+)[\s-]*(?P<unit>ga|ga\.|gauge|gage|oz|oz\.|ounce|ounces)")
"""How a metal's thickness is called in the trade: ``24 ga``, ``24-gauge``, ``20 oz``."""


class MetalSpec(Spec):
    """The metal of the trim.

    Attributes:
        kind: One of the metals.
        thickness: Inches; the metal's usual one when left out.
        stock: Lengths it can be had in, inches, shortest first.
        color: Of the painted or bare side.
        radius: Inside the bends, inches; 1/32 or the thickness, whichever is more, when left out.
        design_heat: Swing of its temperature over a year, degrees Fahrenheit.
    """

    kind: MetalKind = "steel"
    thickness: Thickness = Field(default_factory=lambda data: METALS[data["kind"]].thickness)
    stock: Annotated[tuple[Stock, ...], Field(min_length=1, max_length=12)] = (126.0,)
    color: Color = Field(default_factory=lambda data: METALS[data["kind"]].color)
    radius: Radius = Field(default_factory=lambda data: max(1 / 32, data["thickness"]))
    design_heat: Annotated[float, Field(ge=0, le=400)] = 160.0

    @field_validator("thickness", mode="before")
    @classmethod
    def _by_label(cls, value: object, info: ValidationInfo) -> object:
        metal = METALS.get(info.data.get("kind", ""))
        named = LABEL.fullmatch(value.strip().lower()) if isinstance(value, str) else None
        if metal is None or named is None:
            return value
        label = f"{named['number']} {'oz' if named['unit'].startswith('o') else 'ga'}"
        if label not in metal.labels:
            raise refusal(_no_label(shorten(value), metal))
        return f"{metal.labels[label]} in"

    @field_validator("stock")
    @classmethod
    def _shortest_first(cls, stock: tuple[float, ...]) -> tuple[float, ...]:
        return tuple(sorted(set(stock)))


def _no_label(came: str, metal: Metal) -> Message:
    """Return what refuses a gauge or weight that a metal does not have."""
    if not metal.labels:
        return message("{came} is no label of {metal}; give a thickness", came=came, metal=metal.title)
    return message(
        "{came} is no label of {metal}; give a thickness, or one of: {labels}",
        came=came,
        metal=metal.title,
        labels=Listed(tuple(metal.labels), "comma"),
    )
