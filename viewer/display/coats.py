"""Coats: what a surface is to light, by metal, age and paint. Pictures, page, app and 3D model all take theirs here.

The two numbers are those that physically based shading is written in: how much of a surface is bare metal, and how
rough it is, each from 0 to 1 (glTF 2.0, section 3.9.2). Their values are judged by eye, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from trimwright.model.metals import METALS
from trimwright.model.scene.colors import Coat as CoatName
from trimwright.model.scene.schema import Scene

from .color_math import Color, hexed, rgb


@dataclass(frozen=True, slots=True)
class Coat:
    """What a surface is to light.

    Attributes:
        metal: Share of it that is bare metal.
        rough: From a mirror, 0, to chalk, 1.
    """

    metal: float
    rough: float


PAINT: Mapping[str, Coat] = {
    "matt": Coat(0.0, 0.8),
    "satin": Coat(0.0, 0.5),
    "gloss": Coat(0.0, 0.22),
}
"""Paint on metal, by what a scene calls it."""

BARE: Mapping[str, tuple[Coat, ...]] = {
    "copper": (Coat(0.78, 0.4), Coat(0.6, 0.5), Coat(0.05, 0.85)),
    "zinc": (Coat(0.8, 0.42), Coat(0.65, 0.52), Coat(0.5, 0.6)),
    "galvanized": (Coat(0.8, 0.42), Coat(0.6, 0.55), Coat(0.45, 0.68)),
    "stainless": (Coat(0.85, 0.34),),
    "aluminum": (Coat(0.85, 0.36),),
    "steel": (Coat(0.8, 0.45),),
}
"""Bare metal, from new to old, as the metal's own colors go: rolled sheet scatters some of what it mirrors, and green
copper is a crust that mirrors next to nothing."""

HEADS = Coat(0.9, 0.4)
"""Of the heads of screws."""

DULL = Coat(0.0, 0.95)
"""Of wood, siding, concrete and the like."""

GLASS = Coat(0.55, 0.06)
"""Of a window: by day it mirrors more than it shows."""

BARE_METALS = frozenset({"galvanized", "copper", "zinc", "stainless"})
"""Metals that are left bare unless a scene says otherwise; the others are painted."""


def coat_name(scene: Scene) -> CoatName:
    """Return what the metal of a scene is coated with."""
    return scene.colors.coat or ("bare" if scene.metal.kind in BARE_METALS else "satin")


def coat_of(scene: Scene, color: Color) -> Coat:
    """Return the coat of a scene's metal where it has this color: of bare metal, that of the age that looks so."""
    name = coat_name(scene)
    return bare_coat(scene.metal.kind, color) if name == "bare" else PAINT[name]


def gutter_coat(scene: Scene) -> Coat:
    """Return the coat of a scene's gutters: that of the trim, or paint where they have a color of their own."""
    colors = scene.colors
    return PAINT["satin"] if colors.gutters else coat_of(scene, rgb(colors.trim))


def bare_coat(kind: str, color: Color) -> Coat:
    """Return the coat of a bare metal at the age whose color is nearest."""
    coats, ages = BARE[kind], METALS[kind].patina
    if len(coats) != len(ages):
        return coats[0]
    nearest = min(ages, key=lambda age: sum((a - b) ** 2 for a, b in zip(rgb(age), color, strict=True)))
    return coats[ages.index(nearest)]


def coated(color: str, coat: Coat, of: str | None = None) -> dict[str, object]:
    """Return a color with its coat as the viewer in a browser takes it.

    Args:
        color: ``#rrggbb``.
        coat: What it is to light.
        of: The metal that is bare; None for paint, which has a primed back.
    """
    return {
        "color": hexed(rgb(color)),
        "metal": coat.metal,
        "rough": coat.rough,
        "bare": of is not None,
        "of": of,
    }
