"""Corners of a roof by the names of the edges that meet there: what is tapped in a photograph."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import numpy as np

from trimwright.model.errors import Problem, SceneError
from trimwright.model.geometry.arrays import Array
from trimwright.model.message import Listed, Message, message
from trimwright.model.roof.record import Roof
from trimwright.model.scene.photo import PhotoSpec


def tapped(roof: Roof, photo: PhotoSpec) -> tuple[Array, Array]:
    """Return the tapped corners, ``(n, 3) float, inches, scene frame``, and where they are seen, ``(n, 2)`` pixels.

    Raises:
        SceneError: A corner is none of the roof, or more than one; every such point.
    """
    names = {edge.name for edge in roof.edges}
    corners: list[int] = []
    problems: list[Problem] = []
    for number, point in enumerate(photo.point):
        found = _corners_of(roof, point.corner)
        if len(found) == 1:
            corners.append(found[0])
            continue
        key = ("photo", "point", number, "corner")
        problems.append(Problem(_untold(point.corner, names, len(found)), key))
    if problems:
        raise SceneError(*problems)
    taps = np.array([point.at for point in photo.point], dtype=float).reshape(-1, 2)
    return roof.vertices[corners].reshape(-1, 3), taps


def corner_names(roof: Roof) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Yield every corner that edges tell, by its number, with names of edges that tell it from all others."""
    for corner in range(len(roof.vertices)):
        names = sorted({edge.name for edge in roof.edges if corner in edge.vertices})
        few = (some for count in (1, 2, 3) for some in combinations(names, count))
        found = next((some for some in few if _corners_of(roof, some) == [corner]), None)
        if found is not None:
            yield corner, found


def _corners_of(roof: Roof, names: tuple[str, ...]) -> list[int]:
    """Return the corners at which all edges of these names end."""
    ends = [
        {vertex for edge in roof.edges if edge.name == name for vertex in edge.vertices} for name in names
    ]
    return sorted(set.intersection(*ends))


def _untold(asked: tuple[str, ...], names: set[str], found: int) -> Message:
    """Return why edges do not tell one corner."""
    unknown = [name for name in asked if name not in names]
    if unknown:
        return message(
            "this roof has no edge called {unknown}; it has: {names}",
            unknown=Listed(tuple(unknown), "or"),
            names=Listed(tuple(sorted(names)), "comma"),
        )
    if found:
        return message("these edges meet at {found} corners; name one edge more that ends there", found=found)
    return message("these edges do not meet at one corner; name edges that do")
