"""The numbers that a takeoff counts with, each with where it comes from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from ..message import Message, message
from ..metals import METALS
from ..source import Source


@dataclass(frozen=True, slots=True)
class Fact:
    """A number that something is counted with.

    Attributes:
        name: What it is, as a list of what was assumed says it.
        value: The number.
        unit: Its unit.
        source: Where it comes from.
    """

    name: Message
    value: float
    unit: str
    source: Source


_PRACTICE = Source(message("common practice, no source"), "practice")

SPARE = Fact(
    message("screws, cleats and sealant to spare"),
    0.10,
    "1",
    Source(message("the project's own"), "practice"),
)
LAP_BEADS = Fact(message("beads of sealant across a lap"), 2, "beads", _PRACTICE)
CORNER_BEADS = Fact(message("beads of sealant across a corner"), 1, "beads", _PRACTICE)
CLOSURE_BEADS = Fact(message("beads of sealant along a closure, under and over it"), 2, "beads", _PRACTICE)
BEAD = Fact(message("diameter of a bead"), 0.25, "in", _PRACTICE)
TUBE = Fact(message("contents of a tube"), 10.1, "fl oz", _PRACTICE)
HEM_CLEATS = Fact(
    message("cleats on a hem of a valley's pan, apart"),
    12,
    "in",
    Source(message("Copper Flashings (1925) sec. 33"), "pub"),
)
FLUID_OUNCE = 231 / 128
"""Cubic inches in a US fluid ounce: a gallon of 231 is 128 of them, by definition."""

FACTS = (SPARE, LAP_BEADS, CORNER_BEADS, CLOSURE_BEADS, BEAD, TUBE)
"""All of them but the densities, and what is counted on valleys alone."""

DENSITIES: Mapping[str, Fact] = MappingProxyType(
    {
        kind: Fact(message("density of {metal}", metal=kind), metal.density, "lb/in³", metal.density_source)
        for kind, metal in METALS.items()
    }
)
"""By kind of metal."""
