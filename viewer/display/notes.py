"""What is written into a view: labels, lines and pins, by the points that they belong to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely

from trimwright.model.checks.record import Severity
from trimwright.model.geometry.arrays import Array
from trimwright.model.layout import Part
from trimwright.model.message import Message

from .trim_bodies import on_strip

LabelKind = Literal["piece", "short", "note", "step", "tape"]
LineKind = Literal["measure", "tick", "cut", "trace", "water"]

OFF = 0.03
"""How far a label's point lies off the metal, inches."""


@dataclass(frozen=True, slots=True, eq=False)
class Label:
    """A text that belongs to a place.

    Attributes:
        text: A mark or a number as it is, or what is said in one or more lines.
        points: ``(k, 3) float, inches, scene frame``: places it may point at, the best first.
        normals: ``(k, 3)``: which way each of them faces; a label is dropped when none faces the eye unhidden.
        kind: What it says: the mark of a piece, a short piece, a note, the number of a step, a tape mark.
        priority: The higher, the sooner it gets its room.
        mark: The piece it belongs to; None for no single one.
    """

    text: Message | str
    points: Array
    normals: Array
    kind: LabelKind
    priority: int
    mark: str | None = None


@dataclass(frozen=True, slots=True, eq=False)
class NoteLine:
    """A line drawn over the picture.

    Attributes:
        points: ``(k, 3) float, inches, scene frame``.
        kind: A measure with ticks at both ends, a tick with its text at the end, the line of a cut, the way a
            piece is lifted, the way water runs.
        text: What is written on it.
        mark: The piece that a cut is one of; empty for none.
    """

    points: Array
    kind: LineKind
    text: Message | str = ""
    mark: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Pin:
    """A finding, where it is.

    Attributes:
        number: The finding's place in the list of findings, from 1.
        severity: How much it matters.
        point: ``(3,) float, inches, scene frame``.
        text: Rule and place, in a few words.
        mark: The first piece concerned; None when there is none.
        group: Number of the group of findings like it; those of a group are told in one line.
    """

    number: int
    severity: Severity
    point: Array
    text: str
    mark: str | None
    group: int


def piece_label(part: Part, text: Message | str, kind: LabelKind = "piece", priority: int = 5) -> Label:
    """Return a label for a piece, which may point at any of its broad painted legs."""
    stops = [part.low + share * part.length for share in (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92)]
    return label_at(part, stops, text, kind, priority)


def label_at(
    part: Part, stops: Sequence[float], text: Message | str, kind: LabelKind, priority: int
) -> Label:
    """Return a label that may point at a piece's two broadest legs at some run distances, where there is metal."""
    sheet, section = part.sheet, part.sheet.section
    broad = sorted(
        (leg for leg in section.legs if not leg.relieved),
        key=lambda leg: section.v[leg.strip] - section.v[leg.strip + 1],
    )[:2]
    flat = [
        np.array([(u, (section.v[leg.strip] + section.v[leg.strip + 1]) / 2) for u in stops]) for leg in broad
    ]
    places = [on_strip(part, leg.strip, spots, OFF) for leg, spots in zip(broad, flat, strict=True)]
    ends = np.concatenate([sheet.low.line, sheet.high.line[::-1]])  # tabs are folded out of the legs' planes
    legs = shapely.Polygon(ends, list(sheet.holes))
    metal = np.stack([shapely.contains_xy(legs, spots) for spots in flat], axis=1)
    metal |= not metal.any()
    points = np.stack([on for on, _ in places], axis=1)[metal]
    normals = np.broadcast_to([normal for _, normal in places], (*metal.shape, 3))[metal]
    return Label(text, points, normals, kind, priority, part.mark)
