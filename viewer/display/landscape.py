"""The landscape round a house: sky, hills far off, meadow. Pictures and the viewer in a browser draw it from here.

Colors are those of a screen, red, green and blue from 0 to 1; all made up.
"""

from __future__ import annotations

from .daylight import Light

OVERHEAD: Light = (0.40, 0.62, 0.86)
LOW_SKY: Light = (0.80, 0.89, 0.955)
HAZE: Light = (0.925, 0.945, 0.945)
"""The sky high up, low down, and the air over the horizon."""

CREST: Light = (0.47, 0.56, 0.56)
FOOT: Light = (0.68, 0.735, 0.70)
"""The crests of the hills, and their feet in the haze."""

FAR: Light = (0.72, 0.75, 0.635)
NEAR: Light = (0.571, 0.613, 0.461)
"""The meadow at the horizon, and at the viewer's feet."""

TALL = 0.021
"""How high the hills stand over the horizon on average: the tangent of that angle."""

WAVES = (
    (2.0, 0.30, 0.4),
    (5.0, 0.24, 1.9),
    (11.0, 0.2, 4.2),
    (23.0, 0.15, 0.7),
    (57.0, 0.12, 2.6),
    (131.0, 0.08, 5.1),
)
"""What the line of their crests is made of: how many to a full turn, how high each, and where it begins."""

BLUER, CLEARER, NEARER = 1.9, 16.0, 14.0
"""How fast the sky turns blue, the haze ends, and the meadow comes near, with the tangent of the angle to the level."""
