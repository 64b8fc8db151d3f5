"""Doors and windows of the house: their fields, and putting one in or taking one away."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np

from trimwright.model.measures import MeasureError, parse_length
from trimwright.model.message import Message, message

from ..words.speaker import speaker_for
from .fields import Field, FormSection, Name
from .outline_edits import lengths_of
from .outline_fields import rings_in, unit_in
from .scene_text import EditError, value_at, with_value

PLACE = ("house", "opening")

KINDS: Mapping[str, Message] = {"window": message("window"), "door": message("door")}

MOST = 100
"""Doors and windows that a house takes."""

USUAL = 288.0
"""Length of a front whose length cannot be read, inches."""


def opening_sections(tables: Mapping[str, Any], walls: tuple[tuple[str, Name], ...]) -> Iterator[FormSection]:
    """Yield the form of each door and window; ``walls`` are the sides of the house that they may be in."""
    written = value_at(tables, PLACE)
    for k in range(len(written) if isinstance(written, list) else 0):
        at = (*PLACE, k)
        door = value_at(tables, (*at, "kind")) == "door"
        sill = Field(
            (*at, "sill"), message("Sill above the ground"), hint=message("empty: heads in one line")
        )
        fields = (
            Field((*at, "kind"), message("Kind"), "either", tuple(KINDS.items())),
            Field((*at, "wall"), message("In the wall at the"), "choice", walls, must=True),
            Field((*at, "at"), message("Its middle, from the left"), must=True),
            Field((*at, "width"), message("Width")),
            Field((*at, "height"), message("Height")),
            *(() if door and value_at(tables, (*at, "sill")) is None else (sill,)),
        )
        title = message("Door {number}", number=k + 1) if door else message("Window {number}", number=k + 1)
        yield FormSection(f"opening.{k}", title, fields, "openings")


def with_opening(text: str, asked: Mapping[str, Any]) -> str:
    """Return a scene's text with another door or window in the front, or without one: ``kind``, or ``away``.

    Raises:
        TrimwrightError: There is no such one, or the text cannot take it.
    """
    tables = tomllib.loads(text)
    written = value_at(tables, PLACE)
    openings = list(written) if isinstance(written, list) else []
    away = asked.get("away")
    if isinstance(away, int) and 0 <= away < len(openings):
        return with_value(text, PLACE, [one for k, one in enumerate(openings) if k != away] or None)
    kind = str(asked.get("kind"))
    if kind not in KINDS or len(openings) >= MOST:
        raise EditError(message("there is no such door or window"))
    tape, long = speaker_for(text).tape, _front(tables)
    middle = long / 2 if kind == "door" else long / 4
    one = {"kind": kind, "wall": "front", "at": tape.typed(tape.down(middle))}
    return with_value(text, PLACE, [*openings, one])


def _front(tables: Mapping[str, Any]) -> float:
    """Return how long the front of the house is, inches."""
    unit = unit_in(tables)
    try:
        return parse_length(value_at(tables, ("roof", "length")), unit)
    except MeasureError:
        ring = next((lengths_of(ring, unit) for ring in rings_in(tables)), None)
        return USUAL if ring is None or not len(ring) else float(np.ptp(ring[:, 0]))
