"""How far the deck reaches past the walls."""

from __future__ import annotations

from .fields import Overhang, Spec


class Overhangs(Spec):
    """How far the deck reaches past the walls, level, inches.

    Attributes:
        eave: At the low edges.
        rake: At the sloping edges.
        high: At the upper edge of a shed.
    """

    eave: Overhang = 12.0
    rake: Overhang = 8.0
    high: Overhang = 8.0
