"""What a scene says about a photograph of the house: the file, and which corners of the roof are where in it."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from .fields import Spec, Text

Pixel = Annotated[float, Field(ge=-20_000, le=40_000)]


class PhotoPoint(Spec):
    """A corner of the roof that is seen in the photograph.

    Attributes:
        corner: Names of edges that meet there; as few as tell it from every other corner.
        at: Where it is seen: pixels from the left and from the top.
    """

    corner: Annotated[tuple[Text, ...], Field(min_length=1, max_length=8)]
    at: tuple[Pixel, Pixel]


class PhotoSpec(Spec):
    """A photograph of the house.

    Attributes:
        file: JPEG, PNG or WebP, beside the scene.
        point: Corners seen in it: four or more, better six or more on two faces.
        focal: Focal length of the lens as that of 35 mm film, millimeters; what the file says when left out.
        sun: Where its light comes from: degrees clockwise from the back (+y), and degrees above level.
        front: Picture of the same size, white where something stands before the roof, such as a tree.
        choose: Which camera, where several fit, from 1.
    """

    file: Text
    point: Annotated[tuple[PhotoPoint, ...], Field(max_length=60)] = ()
    focal: Annotated[float, Field(ge=8, le=400)] | None = None
    sun: tuple[Annotated[float, Field(ge=-360, le=360)], Annotated[float, Field(ge=5, le=90)]] | None = None
    front: Text | None = None
    choose: Annotated[int, Field(ge=1, le=20)] = 1
