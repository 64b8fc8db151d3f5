"""Paints to try, by names of our own, and what a color is called."""

from __future__ import annotations

from collections.abc import Iterator

from trimwright.model.message import Message, message
from trimwright.model.metals import METAL_WORDS, METALS, Metal
from trimwright.model.scene.colors import PAINTS as CODES
from trimwright.model.scene.schema import Scene

from .coats import BARE_METALS, coat_name
from .color_math import rgb

OWN = (
    message("chalk"),
    message("fog"),
    message("gull"),
    message("slate"),
    message("tar"),
    message("oak bark"),
    message("rope"),
    message("brick"),
    message("rowan"),
    message("moss"),
    message("pine"),
    message("harbor"),
)
"""Names of our own paints."""

PAINTS = tuple((name, CODES[name.text]) for name in OWN)
"""Paints to try, by names of our own, each with its color."""

MILLED = "aluminum"
"""A metal that is painted as a rule, and may be left as it comes from the mill."""


def color_name(code: str, scene: Scene, bare: bool = False) -> Message:
    """Return what a color is called: by the paint or the age of the metal that it is, else by the nearest.

    Args:
        code: The color, ``#rrggbb``.
        scene: Whose color it is.
        bare: It is that of the scene's metal without paint.
    """
    named = list(ages_of(METALS[scene.metal.kind])) if bare else paints_of(scene)
    name, near = min(named, key=lambda one: _apart(one[1], code))
    if near == code.lower() or bare:
        return name
    return message("like {paint}", paint=name)


def paints_of(scene: Scene) -> list[tuple[Message, str]]:
    """Return the paints that can be had, each with its color: those of the shop's chart first, then our own."""
    return [(message("{name}", name=one.name), one.color) for one in scene.shop.color] + list(PAINTS)


def color_told(code: str, scene: Scene, bare: bool = False) -> Message:
    """Return a color by name and code, as it is ordered."""
    return message("{name}, {code}", name=color_name(code, scene, bare), code=code)


def ages_of(metal: Metal) -> Iterator[tuple[Message, str]]:
    """Yield the colors of a bare metal from new to old, each with a name; of one that keeps its color, that."""
    name = METAL_WORDS[metal.kind]
    if not metal.patina:
        yield message("{metal}, mill finish", metal=name) if metal.kind == MILLED else name, metal.color
        return
    ages = (
        message("{metal}, new", metal=name),
        message("{metal}, dulled", metal=name),
        message("{metal}, old", metal=name),
    )
    yield from zip(ages, metal.patina, strict=False)


def is_bare(scene: Scene) -> bool:
    """Return whether the metal of a scene has no paint."""
    return coat_name(scene) == "bare"


def bare_ages() -> Iterator[tuple[Metal, Message, str]]:
    """Yield every age of every metal that is left bare, with its name and color."""
    for metal in METALS.values():
        if metal.kind in BARE_METALS or metal.kind == MILLED:
            for name, color in ages_of(metal):
                yield metal, name, color


def _apart(one: str, other: str) -> float:
    """Return how unlike two colors are: weighted for the eye.

    Source: the "redmean" approximation of T. Riemersma. From memory.
    """
    (r1, g1, b1), (r2, g2, b2) = rgb(one), rgb(other)
    mean = (r1 + r2) / 2
    return (2 + mean / 256) * (r1 - r2) ** 2 + 4 * (g1 - g2) ** 2 + (2 + (255 - mean) / 256) * (b1 - b2) ** 2
