"""How a bare number is read, and a color's name: what that comes to, and what may have been meant instead."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from trimwright.model.message import Length
from trimwright.model.scene.colors import as_hex
from trimwright.model.units import INCHES, Unit

from ..words.speaker import Speaker
from .fields import Field
from .scene_text import value_at

Values = dict[str, Any]


def reading_of(field: Field, tables: Mapping[str, Any], say: Speaker) -> Values | None:
    """Return what a field's bare number or name is read as, and a larger unit where what it says cannot be meant.

    Args:
        field: The field.
        tables: The scene's tables.
        say: In whose words, on whose tape.
    """
    if field.kind == "color":
        return _color_reading(value_at(tables, field.path), say)
    number, unit = value_at(tables, field.path), value_at(tables, ("unit",))
    if field.kind != "length" or isinstance(number, bool) or not isinstance(number, int | float):
        return None
    if field.path[0] == "rules":
        return None  # limits have units of their own
    known: Unit = unit if unit in INCHES else "in"
    inches = float(number * INCHES[known])
    words = say("{number} {unit}, read as {length}", number=f"{number:g}", unit=known, length=Length(inches))
    larger = larger_unit(known)
    if not 0 < inches < field.least or larger is None:
        return {"says": words}
    meant = f"{number:g} {larger}"
    return {"says": words, "meant": meant, "ask": say("Did you mean {length}?", length=meant)}


def _color_reading(value: object, say: Speaker) -> Values | None:
    """Return which digits the name of a color stands for."""
    color = as_hex(value) if isinstance(value, str) else None
    if color is None or color == str(value).lower():
        return None
    return {"says": say("{name}, read as {color}", name=str(value), color=color), "color": color}


def larger_unit(unit: Unit) -> Unit | None:
    """Return the unit in which houses are measured where one writes small things in ``unit``."""
    return {"in": "ft", "mm": "m", "cm": "m"}.get(unit)  # type: ignore[return-value]
