"""A photograph and the taps in it, put into the text of a scene."""

from __future__ import annotations

import json
import math
from typing import Any

import tomlkit

from trimwright.model.message import message

from .scene_text import EditError, with_value

MOST = 60
"""Taps that a scene takes."""

MOST_NAMES = 8
"""Edges that tell one corner."""

NO_PHOTO = message("there is no photograph yet")
"""What is said where one is needed."""


def with_photo(text: str, file: str, film_focal: float | None) -> str:
    """Return a scene's text with another photograph, in which nothing is tapped yet.

    Args:
        text: The scene.
        file: The photograph, beside it.
        film_focal: Focal length as that of 35 mm film, millimeters; None where the file does not say.
    """
    document = tomlkit.parse(text)
    photo = tomlkit.table()
    photo["file"] = file
    if film_focal:
        photo["focal"] = round(film_focal, 2)
    document["photo"] = photo
    return tomlkit.dumps(document)


def with_points(text: str, raw: bytes) -> str:
    """Return a scene's text with other taps.

    Args:
        text: The scene; it has a photograph.
        raw: JSON, a list of ``{"corner": ["front eave", …], "at": [x, y]}``.

    Raises:
        EditError: There is no photograph, or these are no taps.
    """
    document = tomlkit.parse(text)
    photo = document.get("photo")
    if not isinstance(photo, dict) or "file" not in photo:
        raise EditError(NO_PHOTO)
    points = tomlkit.aot()
    for corner, at in _points(raw):
        table = tomlkit.table()
        table["corner"], table["at"] = corner, at
        points.append(table)
    text = with_value(with_value(text, ("photo", "choose"), None), ("photo", "point"), None)
    if not points:
        return text
    document = tomlkit.parse(text)
    document["photo"]["point"] = points
    return tomlkit.dumps(document)


def _points(raw: bytes) -> list[tuple[list[str], list[float]]]:
    try:
        found: Any = json.loads(raw)
        if not isinstance(found, list) or len(found) > MOST:
            raise ValueError
        return [(_names(one["corner"]), _at(one["at"])) for one in found]
    except (ValueError, KeyError, TypeError, RecursionError):
        raise EditError(message("these are no taps in a photograph")) from None


def _names(names: Any) -> list[str]:
    if not isinstance(names, list) or not 1 <= len(names) <= MOST_NAMES:
        raise ValueError
    told = [str(name) for name in names]
    if any(not name or len(name) > 200 or not name.isprintable() for name in told):
        raise ValueError
    return told


def _at(at: Any) -> list[float]:
    x, y = (float(one) for one in at)
    if not (math.isfinite(x) and math.isfinite(y) and abs(x) < 20_000 and abs(y) < 20_000):
        raise ValueError
    return [round(x, 1), round(y, 1)]
