"""A piece's flat pattern as plain values, measured from where the tape hooks on."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import shapely

from trimwright.model.layout import Part
from trimwright.model.sheet.sheet import Sheet


def flat_of(part: Part) -> dict[str, Any]:
    """Return area, width, outline, holes and bends of a piece."""
    return flat_of_sheet(part.sheet)


def flat_of_sheet(sheet: Sheet) -> dict[str, Any]:
    """Return area, width, outline, holes and bends of a sheet.

    Points are ``(u, v)``, inches: ``u`` from the piece's low end, ``v`` from its inboard edge. A bend is given
    where it lies in the metal: its middle line, and the width of metal that goes into it.
    """
    first = sheet.extent[0]
    low = np.array([first, 0.0])
    return {
        "area": sheet.area,
        "width": sheet.section.width,
        "outline": sheet.outline - low,
        "holes": [hole - low for hole in sheet.holes],
        "bends": [*_brake_bends(sheet, first), *_tab_folds(sheet, low)],
    }


def _brake_bends(sheet: Sheet, low: float) -> list[dict[str, Any]]:
    section, (start, end) = sheet.section, sheet.extent
    ends = [(float(section.v[bend.first]), float(section.v[bend.last])) for bend in section.bends]
    bent = [(*span, bend.angle) for span, bend in zip(ends, section.bends, strict=True) if span[1] > span[0]]
    middles = [(first + last) / 2 for first, last, _ in bent]
    lines = np.array([[(start - 1, middle), (end + 1, middle)] for middle in middles]).reshape(-1, 2, 2)
    reach = shapely.bounds(shapely.intersection(sheet.pattern, shapely.linestrings(lines)))
    return [
        {
            "fold": "brake",
            "line": [(left - low, middle), (right - low, middle)],
            "width": last - first,
            "angle": math.degrees(angle),
        }
        for (first, last, angle), middle, (left, _, right, _) in zip(
            bent, middles, reach.tolist(), strict=True
        )
        if not math.isnan(left)
    ]


def _tab_folds(sheet: Sheet, low: np.ndarray[Any, Any]) -> list[dict[str, Any]]:
    return [
        {"fold": "tab", "line": tab.hinge - low, "width": 0.0, "angle": math.degrees(tab.angle)}
        for tab in sheet.tabs
    ]
