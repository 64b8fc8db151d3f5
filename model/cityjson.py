"""Buildings in a CityJSON file: their roof and wall surfaces, at the highest level of detail that has roofs.

Source: CityJSON specifications 1.1 and 2.0, and CityJSON Text Sequences (CityJSONSeq), https://www.cityjson.org; from
memory.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from .errors import Problem, SceneError
from .geometry.arrays import Array
from .message import message

LARGEST = 200_000_000
"""Bytes; a file of some thousand buildings. A larger one is a whole district, and best cut into tiles first."""

DEEP = {"MultiSurface": 0, "CompositeSurface": 0, "Solid": 1, "MultiSolid": 2, "CompositeSolid": 2}
"""How many lists lie between a geometry's boundaries and its surfaces, by its type."""

ROOF, WALL = "RoofSurface", "WallSurface"


@dataclass(frozen=True, slots=True, eq=False)
class CitySurface:
    """One surface of a building.

    Attributes:
        kind: As the file says: ``RoofSurface``, ``WallSurface`` ...
        rings: ``(n, 3) float, meters`` each: its outline and its holes, counter-clockwise seen from outside.
    """

    kind: str
    rings: tuple[Array, ...]


@dataclass(frozen=True, slots=True, eq=False)
class City:
    """What is in a file.

    Attributes:
        objects: The city objects as the file has them, by id.
        vertices: ``(n, 3) float, meters``; for each object those that its geometry counts by.
    """

    objects: Mapping[str, Mapping[str, Any]]
    vertices: Mapping[str, Array]

    def buildings(self) -> list[str]:
        """Return the ids of the buildings that have a roof, in the file's order; parts belong to their building."""
        return [
            name
            for name, one in self.objects.items()
            if str(one.get("type", "")) == "Building" and any(True for _ in self.surfaces(name))
        ]

    def surfaces(self, name: str) -> Iterator[CitySurface]:
        """Yield the surfaces of a city object and its parts, at the highest level of detail that has roofs."""
        levels: dict[str, list[CitySurface]] = {}
        for part in self._with_parts(name):
            for geometry in self.objects[part].get("geometry") or ():
                if geometry.get("type") in DEEP:
                    found = _surfaces(geometry, self.vertices[part])
                    levels.setdefault(str(geometry.get("lod", "")), []).extend(found)
        roofed = [lod for lod, found in levels.items() if any(one.kind == ROOF for one in found)]
        if roofed:
            yield from levels[max(roofed, key=_detail)]

    def _with_parts(self, name: str) -> list[str]:
        """Return an object and all below it."""
        found, waiting = [], [name]
        while waiting:
            here = waiting.pop()
            if here in self.objects and here not in found:
                found.append(here)
                waiting += [str(child) for child in self.objects[here].get("children") or ()]
        return found


def read_city(path: Path) -> City:
    """Return the city objects in the file at ``path``.

    Raises:
        SceneError: It cannot be read, or is no CityJSON.
    """
    try:
        if path.stat().st_size > LARGEST:
            told = message("more than {most} bytes; cut the file into tiles first", most=LARGEST)
            raise SceneError(Problem(told, file=path.name))
        text = path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        told = message("there is no such file; give the path of a CityJSON file")
        raise SceneError(Problem(told, file=str(path))) from None
    except (OSError, UnicodeDecodeError) as error:
        told = message("cannot be read: {why}", why=getattr(error, "strerror", None) or "not UTF-8 text")
        raise SceneError(Problem(told, file=path.name)) from None
    try:
        return _city(text)
    except (ValueError, KeyError, TypeError, IndexError, AttributeError, RecursionError) as error:
        told = message("is no CityJSON: {why}", why=f"{type(error).__name__}: {str(error)[:80]}")
        raise SceneError(Problem(told, file=path.name)) from None


def _city(text: str) -> City:
    """Return what a text holds: one CityJSON object, or a sequence of one and its features, a line each."""
    try:
        whole = json.loads(text)
        parts = [whole]
    except json.JSONDecodeError:
        parts = [json.loads(line) for line in text.splitlines() if line.strip()]
    first = parts[0]
    if not isinstance(first, Mapping) or first.get("type") != "CityJSON":
        raise ValueError('the first object is not of type "CityJSON"')
    objects: dict[str, Mapping[str, Any]] = {}
    vertices: dict[str, Array] = {}
    for part in parts:
        placed = _placed(part, first.get("transform"))
        for name, one in part.get("CityObjects", {}).items():
            objects[str(name)] = one
            vertices[str(name)] = placed
    return City(objects, vertices)


def _placed(part: Mapping[str, Any], transform: Mapping[str, Any] | None) -> Array:
    """Return the vertices of an object or a feature, in meters."""
    points = np.array(part.get("vertices") or np.empty((0, 3)), dtype=float).reshape(-1, 3)
    if transform is None:
        return points
    scale, moved = (np.array(transform[key], dtype=float) for key in ("scale", "translate"))
    return np.asarray(points * scale + moved)


def _surfaces(geometry: Mapping[str, Any], vertices: Array) -> Iterator[CitySurface]:
    """Yield the surfaces of one geometry with what the file says that they are."""
    semantics = geometry.get("semantics") or {}
    kinds = [str(one.get("type", "")) for one in semantics.get("surfaces") or ()]
    deep = DEEP[geometry["type"]]
    boundaries = _flat(geometry.get("boundaries") or (), deep)
    values = _flat(semantics.get("values") or (), deep)
    for number, rings in enumerate(boundaries):
        value = values[number] if number < len(values) else None
        kind = kinds[value] if isinstance(value, int) and value < len(kinds) else ""
        yield CitySurface(kind, tuple(vertices[np.array(ring, dtype=int)] for ring in rings if len(ring) > 2))


def _flat(nested: Sequence[Any], deep: int) -> list[Any]:
    """Return what lies ``deep`` lists below, in one list; a missing list stands for nothing."""
    found = list(nested)
    for _ in range(deep):
        found = [item for inner in found if inner is not None for item in inner]
    return found


def _detail(lod: str) -> tuple[float, str]:
    """Sort key of a level of detail: by number, as far as it is one."""
    try:
        return float(lod), lod
    except ValueError:
        return -1.0, lod
