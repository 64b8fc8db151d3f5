"""The numbers that a takeoff counts with, each with where it comes from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from ..limits.record import Trust


@dataclass(frozen=True, slots=True)
class Fact:
    """A number that something is counted with.

    Attributes:
        name: What it is, as a list of what was assumed says it.
        value: The number.
        unit: Its unit.
        source: Where it comes from.
        trust: How far it can be trusted.
    """

    name: str
    value: float
    unit: str
    source: str
    trust: Trust


SPARE = Fact("screws, cleats and sealant to spare", 0.10, "1", "the project's own", "practice")
LAP_BEADS = Fact("beads of sealant across a lap", 2, "beads", "common practice, no source", "practice")
CORNER_BEADS = Fact("beads of sealant across a corner", 1, "beads", "common practice, no source", "practice")
CLOSURE_BEADS = Fact(
    "beads of sealant along a closure, under and over it",
    2,
    "beads",
    "common practice, no source",
    "practice",
)
BEAD = Fact("diameter of a bead", 0.25, "in", "common practice, no source", "practice")
TUBE = Fact("contents of a tube", 10.1, "fl oz", "common practice, no source", "practice")
CLEAT_SPACING = Fact(
    "most between two cleats on a seam; the panel's maker and the local code decide",
    24,
    "in",
    "common practice, no source",
    "practice",
)

FLUID_OUNCE = 231 / 128
"""Cubic inches in a US fluid ounce: a gallon of 231 is 128 of them, by definition."""

FACTS = (SPARE, LAP_BEADS, CORNER_BEADS, CLOSURE_BEADS, BEAD, TUBE, CLEAT_SPACING)
"""All of them but the densities."""

_MEMORY = {"steel": 0.2836, "galvanized": 0.2836, "aluminum": 0.098, "zinc": 0.258, "stainless": 0.290}

DENSITIES: Mapping[str, Fact] = MappingProxyType(
    {
        **{
            kind: Fact(f"density of {kind}", value, "lb/in³", "from memory", "memory")
            for kind, value in _MEMORY.items()
        },
        "copper": Fact(
            "density of copper",
            0.322,
            "lb/in³",
            "Copper Development Association handbook, table 1.1.3: from ounces a square foot and thickness",
            "pub",
        ),
    }
)
"""By kind of metal."""
