"""Daylight: the sky that is mirrored and seen, and the sun. Pictures and the viewer in a browser are lit from here.

Colors are linear light, red, green and blue, where a white sheet square to the sun comes to about 1. Judged by eye, no
source.
"""

from __future__ import annotations

from dataclasses import dataclass

from trimwright.model.scene.schema import Scene

Light = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Daylight:
    """What a fair day gives.

    Attributes:
        zenith: The sky overhead.
        horizon: The sky low down.
        ground: What comes up from below.
    """

    zenith: Light
    horizon: Light
    ground: Light


DAYLIGHT = Daylight((0.45, 0.60, 0.82), (1.0, 1.04, 1.06), (0.24, 0.24, 0.18))


def sun_over(scene: Scene) -> tuple[float, float] | None:
    """Return where a scene has the sun: degrees clockwise from the back (+y), and above level; None for anywhere.

    Where nobody knows where north is, the house looks south.
    """
    if scene.sun is None:
        return None
    bearing, height = scene.sun.place
    return (bearing + (scene.north or 0.0)) % 360, height
