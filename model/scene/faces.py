"""A roof that was measured: what a scene says of its faces, or of the file that has them."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any, Literal

import numpy as np
from pydantic import Field, ValidationInfo, model_validator

from ..cityjson import ROOF, WALL, City, CitySurface, read_city
from ..errors import SceneError
from ..geometry.arrays import Array
from ..geometry.polygon import area_vector
from ..message import Listed, Message, message
from .fields import BoundedLength, Coordinate, Deck, Spec, Text, refusal
from .survey import Taped

METER = 1 / 0.0254
"""Inches in a meter."""

MOST_FACES = 400
"""Faces of one building; more is a whole block."""

Height = Annotated[float, BoundedLength(-1_000, 12_000, "9'")]
Point = tuple[Coordinate, Coordinate, Height]
Outline = Annotated[tuple[Point, ...], Field(min_length=3, max_length=400)]
Tolerance = Annotated[float, BoundedLength(0, 12, "1/2 in")]


class FacesSpec(Spec):
    """A roof of measured faces; the deck's top, out to its edges.

    Attributes:
        faces: Corners of each face, counter-clockwise seen from above; x and y and height, inches.
        holes: By number of the face, from 1: what is left out of it, clockwise seen from above.
        walls: Of the building, for the pictures, counter-clockwise seen from outside.
        file: Name of a CityJSON file to read the faces from, absolute or relative to the scene.
        building: Id of a city object in the file; its parts belong to it.
        tolerance: Corners this close are one, and faces may be this far from plane, inches.
        deck: Its thickness, inches.
        taped: What was measured on the deck besides: the true sizes.
    """

    form: Literal["faces"]
    faces: Annotated[tuple[Outline, ...], Field(min_length=1, max_length=MOST_FACES)]
    holes: dict[int, tuple[Outline, ...]] = Field(default_factory=dict)
    walls: Annotated[tuple[Outline, ...], Field(max_length=4 * MOST_FACES)] = ()
    file: Text | None = None
    building: Text | None = None
    tolerance: Tolerance = 0.5
    deck: Deck = 0.5
    taped: Taped = Field(default_factory=dict)

    @property
    def length(self) -> float:
        """From the leftmost corner to the rightmost, inches."""
        return float(np.ptp(self._corners[:, 0]))

    @property
    def width(self) -> float:
        """From the frontmost corner to the one farthest back, inches."""
        return float(np.ptp(self._corners[:, 1]))

    @property
    def _corners(self) -> Array:
        return np.array([point for face in self.faces for point in face])

    @model_validator(mode="before")
    @classmethod
    def _from_file(cls, raw: Any, info: ValidationInfo) -> Any:
        if not isinstance(raw, dict) or not isinstance(raw.get("file"), str) or "faces" in raw:
            return raw
        folder = (info.context or {}).get("folder")
        path = Path(raw["file"])
        if not path.is_absolute() and folder is None:
            raise refusal(
                message(
                    "'{file}' is relative, and the scene is in no file; give its whole path", file=raw["file"]
                )
            )
        try:
            city = read_city(path if folder is None else Path(folder, path))
        except SceneError as error:
            raise refusal(error.problems[0].message) from None
        found = faces_of_building(city, raw.get("building"))
        if isinstance(found, Message):
            raise refusal(found)
        return {**raw, **found}


def faces_of_building(city: City, building: object) -> dict[str, Any] | Message:
    """Return the faces, holes and walls of a building as a scene writes them, or why there are none.

    Meters become inches; x, y and height are counted from the building's lowest corner; plumb roof surfaces are walls.
    """
    if not isinstance(building, str) or building not in city.objects:
        known = Listed(tuple(city.buildings()[:8]) or ("",), "comma")
        return message(
            "there is no building of that id in the file; there are, among others: {known}", known=known
        )
    surfaces = [one for one in city.surfaces(building) if one.rings]
    roofs = [one for one in surfaces if one.kind == ROOF and not _is_plumb(one)]
    if not roofs:
        return message("this building has no roof surfaces; give one whose level of detail is 2 or more")
    if len(roofs) > MOST_FACES:
        return message(
            "this building has {count} roof surfaces, more than {most}", count=len(roofs), most=MOST_FACES
        )
    least = np.concatenate([ring for one in surfaces for ring in one.rings]).min(axis=0)

    def written(ring: Array) -> list[list[str]]:
        return [[f"{value!r} in" for value in point] for point in ((ring - least) * METER).tolist()]

    turned = [_upward(one.rings) for one in roofs]
    walls = [one for one in surfaces if one.kind == WALL or (one.kind == ROOF and _is_plumb(one))]
    return {
        "faces": [written(rings[0]) for rings in turned],
        "holes": {k: [written(ring) for ring in rings[1:]] for k, rings in enumerate(turned, 1) if rings[1:]},
        "walls": [written(one.rings[0]) for one in walls],
    }


def _is_plumb(one: CitySurface) -> bool:
    """Return whether a surface stands within 5 degrees of plumb, or has no area."""
    vector = area_vector(one.rings[0])
    return abs(float(vector[2])) <= 0.0872 * float(np.linalg.norm(vector))


def _upward(rings: tuple[Array, ...]) -> tuple[Array, ...]:
    """Return the rings of a surface so that it is seen from above."""
    return rings if area_vector(rings[0])[2] > 0 else tuple(ring[::-1] for ring in rings)
