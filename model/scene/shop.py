"""What a scene says about the shop: who offers the roof, from which price list, and how trim is formed there."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from .colors import Coat
from .fields import BoundedLength, Color, Spec, Text


def _lines(value: object) -> object:
    """Return one line as the list that it stands for."""
    return [value] if isinstance(value, str) else value


Lines = Annotated[tuple[Text, ...], BeforeValidator(_lines), Field(max_length=40)]


Brake = Annotated[float, BoundedLength(12, 600, "10' 6\"")]
Address = Annotated[Text, Field(pattern=r"^https?://[^\s#]+$")]
SmallestLeg = Annotated[float, BoundedLength(0.125, 6, "1/2 in")]


class ChartColor(Spec):
    """A color of the shop's own chart.

    Attributes:
        name: What the shop calls it; a scene may name it wherever it wants a color.
        color: What it looks like.
        coat: The gloss of the paint.
        reflectance: How much of the sun's light and heat it sends back, percent; None when nobody has measured it.
    """

    name: Text
    color: Color
    coat: Coat = "satin"
    reflectance: Annotated[float, Field(ge=0, le=100)] | None = None


class ShopSpec(Spec):
    """The shop. All of it is the shop's own; nothing is made up where it says nothing.

    Attributes:
        name: What it is called.
        contact: Address, telephone and the like, a line each.
        logo: Picture file, PNG or JPEG, beside the scene.
        prices: Price list, CSV or XLSX, beside the scene.
        currency: Stands before every amount.
        terms: What an offer says at its end, a paragraph each.
        colors: Color chart, CSV, XLSX or TOML, beside the scene.
        color: The colors that it has, with those of the chart.
        forming: Whether trim comes formed and its ends are cut then, or is cut flat and formed afterwards.
        brake: The longest piece that the brake forms, inches; None when unknown.
        smallest_leg: The narrowest leg that the brake can grip, inches; None when unknown.
        page: Address at which the page of this roof can be opened; labels lead to their pieces there.
    """

    name: Text | None = None
    contact: Lines = ()
    logo: Text | None = None
    prices: Text | None = None
    currency: Annotated[str, Field(max_length=8)] = ""
    terms: Lines = ()
    colors: Text | None = None
    color: Annotated[tuple[ChartColor, ...], Field(max_length=100)] = ()
    forming: Literal["before cutting", "after cutting"] = "before cutting"
    brake: Brake | None = None
    smallest_leg: SmallestLeg | None = None
    page: Address | None = None
