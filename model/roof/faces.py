"""Faces of a roof: each ring of corners with its plane, checked and named."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely

from ..errors import GeometryError
from ..geometry.arrays import Array
from ..geometry.polygon import area_vector
from ..message import Angle, Fine, Length, message
from ..tolerances import LEVEL, POINT
from .names import Names, numbered
from .record import Face


def faces_of(
    vertices: Array, rings: Sequence[list[int]], owner: Sequence[int], tolerance: float, names: Names
) -> tuple[Face, ...]:
    """Return the faces that rings of corners make.

    Args:
        vertices: ``(n, 3) float, inches``.
        rings: Each as indices of them; the outlines of all faces first, in order, then the holes.
        owner: Which face each ring belongs to.
        tolerance: Faces may be this far from plane, inches.
        names: What they are called.

    Raises:
        GeometryError: A face without area, level or plumb, listed clockwise, or not plane.
    """
    found = []
    for index in range(max(owner) + 1):
        outline, *holes = (vertices[ring] for ring, face in zip(rings, owner, strict=True) if face == index)
        face = face_over(outline, holes, tolerance)
        found.append(replace(face, name=names.face(index, face)))
    called = numbered([face.name for face in found])
    return tuple(replace(face, name=name) for face, name in zip(found, called, strict=True))


def face_over(outline: Array, holes: Sequence[Array], tolerance: float) -> Face:
    """Return the face over an outline and its holes, without a name.

    Args:
        outline: ``(n, 3) float, inches``, counter-clockwise seen from above.
        holes: ``(n, 3) float, inches`` each, clockwise.
        tolerance: It may be this far from plane, inches.

    Raises:
        GeometryError: It has no area, is level or plumb, listed clockwise, not plane, or meets itself.
    """
    vector = np.sum([area_vector(ring) for ring in (outline, *holes) if len(ring) > 2], axis=0)
    area = float(np.linalg.norm(vector))
    if area <= tolerance**2:
        raise GeometryError(
            message("A roof face has no area. Give every face at least three corners in a triangle.")
        )
    normal = vector / area
    slope = math.atan2(math.hypot(normal[0], normal[1]), normal[2])
    if slope >= math.pi / 2:
        raise GeometryError(
            message(
                "A roof face stands plumb or is listed clockwise (slope {slope} deg). "
                "List its corners counter-clockwise seen from above.",
                slope=Angle(slope, 1),
            )
        )
    if slope <= LEVEL:
        raise GeometryError(
            message(
                "A roof face falls only {slope} deg, less than can be told from level. "
                "Give it more than {least} deg.",
                slope=Angle(slope, 3),
                least=Angle(LEVEL, 2),
            )
        )
    off = max(float(np.abs((ring - outline[0]) @ normal).max()) for ring in (outline, *holes))
    if off > max(tolerance, POINT):
        raise GeometryError(
            message(
                "A roof face is {off} out of plane, and {allowed} is allowed. "
                "Split it into triangles or correct its corners.",
                off=Fine(off),
                allowed=Fine(tolerance),
            )
        )
    _refuse_meeting_itself(outline, holes)
    return Face("", outline, tuple(holes), normal, area, slope, _azimuth(normal))


def _refuse_meeting_itself(outline: Array, holes: Sequence[Array]) -> None:
    """Raise a problem where a face's outline crosses or touches itself."""
    plan = shapely.Polygon(outline[:, :2], [ring[:, :2] for ring in holes])
    where = re.search(r"Self-intersection\[(\S+) (\S+)\]", shapely.is_valid_reason(plan))
    if where is not None:
        raise GeometryError(
            message(
                "The outline of a roof face meets itself at {x}, {y}. Make two faces of it there, or correct its "
                "corners.",
                x=Length(float(where[1])),
                y=Length(float(where[2])),
            )
        )


def _azimuth(toward: Array) -> float:
    """Return a direction in plan, radians clockwise from +y, in ``[0, 2 pi)``; a hair short of +y is +y."""
    azimuth = math.atan2(toward[0], toward[1]) % math.tau
    return 0.0 if math.tau - azimuth < POINT else azimuth
