"""What a scene says about panels of its own: how their edges lock into each other."""

from __future__ import annotations

from typing import Annotated, Literal

from .fields import BoundedLength, Spec

Fold = Annotated[float, BoundedLength(1 / 8, 2, "1/4 in")]
Flange = Annotated[float, BoundedLength(1 / 2, 3, "1 1/4 in")]


class PanelProfileSpec(Spec):
    """A panel profile: how the edges of two panels are locked into each other.

    Attributes:
        lock: ``double lock`` and ``single lock`` are folded on the roof, ``snap lock`` is pressed together, and the
            cover of a ``rib`` is pressed over a rib whose flange is screwed to the deck.
        fold: How far the edge that lies under is folded over, inches.
        flange: Width of the flange of a ``rib``, inches; the others are held by clips.
    """

    lock: Literal["single lock", "double lock", "snap lock", "rib"]
    fold: Fold = 0.25
    flange: Flange = 1.25
