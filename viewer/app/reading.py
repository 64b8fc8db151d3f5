"""How a bare number is read: in which unit, what that comes to, and what may have been meant instead."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from trimwright.model.message import Length
from trimwright.model.units import INCHES, Unit

from ..words.speaker import Speaker
from .fields import Field
from .scene_text import value_at

Values = dict[str, Any]


def reading_of(field: Field, tables: Mapping[str, Any], say: Speaker) -> Values | None:
    """Return what a bare number in a field is read as, and a larger unit that is offered where it cannot be meant.

    Args:
        field: The field.
        tables: The scene's tables.
        say: In whose words, on whose tape.
    """
    number, unit = value_at(tables, field.path), value_at(tables, ("unit",))
    if field.kind != "length" or isinstance(number, bool) or not isinstance(number, int | float):
        return None
    if field.path[0] == "rules":
        return None  # limits have units of their own
    known: Unit = unit if unit in INCHES else "in"
    inches = float(number * INCHES[known])
    words = say("{number} {unit}, read as {length}", number=f"{number:g}", unit=known, length=Length(inches))
    larger = _larger(known)
    if not 0 < inches < field.least or larger is None:
        return {"says": words}
    meant = f"{number:g} {larger}"
    return {"says": words, "meant": meant, "ask": say("Did you mean {length}?", length=meant)}


def _larger(unit: Unit) -> Unit | None:
    """Return the unit in which houses are measured where one writes small things in ``unit``."""
    return {"in": "ft", "mm": "m", "cm": "m"}.get(unit)  # type: ignore[return-value]
