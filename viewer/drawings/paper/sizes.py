"""Sizes of paper; a command offers them too, so this file imports nothing that takes time."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from trimwright.model.units import Tape

Paper = Literal["letter", "a4"]

PAPERS: Mapping[Paper, tuple[float, float]] = {"letter": (8.5, 11.0), "a4": (210 / 25.4, 297 / 25.4)}
"""Width and height, inches."""


def paper_for(show: Tape) -> Paper:
    """Return the paper that is at hand where lengths are written like this."""
    return "letter" if show.style == "feet" else "a4"
