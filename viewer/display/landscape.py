"""The landscape round a house: hills far off, and how sky and meadow change. Its colors are those of the daylight.

Pictures and the viewer in a browser draw it from here. All made up.
"""

from __future__ import annotations

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
