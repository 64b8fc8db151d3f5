"""Daylight: the sun, the sky that is mirrored and seen, the land below it, by how high the sun stands.

Pictures, the film, the window and the viewer in a browser are lit from here. Judged by eye, no source.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace

from trimwright.model.scene.schema import Scene
from trimwright.model.scene.sun import LOWEST

Light = tuple[float, float, float]
"""Red, green and blue."""


@dataclass(frozen=True, slots=True)
class Daylight:
    """What a fair day gives.

    The first six are linear light, where a white sheet square to the sun comes to about 1; the others are colors of a
    screen, from 0 to 1.

    Attributes:
        sun: The light of the sun.
        sky: That of the open sky.
        earth: What comes up from below.
        zenith: What is mirrored of the sky overhead.
        horizon: What is mirrored of it low down.
        ground: What is mirrored from below.
        overhead: The sky high up.
        low_sky: The sky low down.
        haze: The air over the horizon.
        crest: The crests of the hills.
        foot: Their feet in the haze.
        far: The meadow at the horizon.
        near: The meadow at the viewer's feet.
    """

    sun: Light
    sky: Light
    earth: Light
    zenith: Light
    horizon: Light
    ground: Light
    overhead: Light
    low_sky: Light
    haze: Light
    crest: Light
    foot: Light
    far: Light
    near: Light


DAY = Daylight(
    sun=(1.0, 0.95, 0.86),
    sky=(0.84, 0.92, 1.0),
    earth=(0.54, 0.53, 0.44),
    zenith=(0.45, 0.60, 0.82),
    horizon=(1.0, 1.04, 1.06),
    ground=(0.24, 0.24, 0.18),
    overhead=(0.40, 0.62, 0.86),
    low_sky=(0.80, 0.89, 0.955),
    haze=(0.925, 0.945, 0.945),
    crest=(0.47, 0.56, 0.56),
    foot=(0.68, 0.735, 0.70),
    far=(0.72, 0.75, 0.635),
    near=(0.571, 0.613, 0.461),
)
"""While the sun is up."""

LOW = Daylight(
    sun=(1.06, 0.74, 0.44),
    sky=(0.66, 0.70, 0.88),
    earth=(0.40, 0.35, 0.29),
    zenith=(0.34, 0.43, 0.64),
    horizon=(1.02, 0.84, 0.68),
    ground=(0.17, 0.15, 0.12),
    overhead=(0.39, 0.52, 0.74),
    low_sky=(0.88, 0.80, 0.745),
    haze=(0.985, 0.865, 0.715),
    crest=(0.43, 0.45, 0.51),
    foot=(0.69, 0.63, 0.60),
    far=(0.76, 0.70, 0.56),
    near=(0.60, 0.585, 0.43),
)
"""When it is about to set."""

GOLDEN = 22.0
"""Degrees above level below which the sun turns warm."""

USUAL = 40.0
"""How high the sun stands where a scene does not say; ``DAY`` has the meadow as it is lit then."""

HEIGHTS = (3.0, 6.0, 10.0, 15.0, 22.0, 30.0, 40.0, 60.0, 90.0)
"""For which the viewer in a browser is handed the daylight; it takes what lies between."""

FAIR = (0.98, 0.56, 0.44)
"""Strength of the sun, the sky and the light from below on a fair day."""


def daylight_at(height: float) -> Daylight:
    """Return the daylight when the sun stands so many degrees above level."""
    share = min(max((GOLDEN - height) / (GOLDEN - LOWEST), 0.0), 1.0)
    share = share * share * (3 - 2 * share)
    mixed = Daylight(
        *(_mixed(getattr(DAY, part.name), getattr(LOW, part.name), share) for part in fields(Daylight))
    )
    dim = (_on_level(height) / _on_level(USUAL)) ** (1 / 2.2)
    return replace(mixed, far=_times(mixed.far, math.sqrt(dim)), near=_times(mixed.near, dim))


def daylights() -> list[Mapping[str, object]]:
    """Return the daylight for some heights of the sun, from low to high, as the viewer in a browser takes it."""
    return [{"height": height, **_rounded(daylight_at(height))} for height in HEIGHTS]


def sun_over(scene: Scene) -> tuple[float, float] | None:
    """Return where a scene has the sun: degrees clockwise from the back (+y), and above level; None for anywhere.

    Where nobody knows where north is, the house looks south.
    """
    if scene.sun is None:
        return None
    bearing, height = scene.sun.place
    return (bearing + (scene.north or 0.0)) % 360, height


def _on_level(height: float) -> float:
    """Return how much light falls on level ground."""
    return FAIR[0] * math.sin(math.radians(height)) + FAIR[1]


def _mixed(one: Light, other: Light, share: float) -> Light:
    red, green, blue = (a + share * (b - a) for a, b in zip(one, other, strict=True))
    return red, green, blue


def _times(color: Light, share: float) -> Light:
    red, green, blue = (share * band for band in color)
    return red, green, blue


def _rounded(day: Daylight) -> dict[str, list[float]]:
    return {part.name: [round(band, 4) for band in getattr(day, part.name)] for part in fields(Daylight)}
