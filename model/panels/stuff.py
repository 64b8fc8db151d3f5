"""What all panels of a roof are made of, and the section that is bent of it: an edge, the pan, the other edge."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from ..metals import METALS
from ..profiles.section import Section, bend_legs
from ..scene.trim import LegSpec
from .flaps import HOOK
from .flat import UP, Ending, Lip
from .record import Edge
from .seam import TIGHT, Seam, Turned

UNDER_LIP = 1 / 32
"""Room between the lip and the turned edge under it, inches: the thickness of a lap. Common practice, no source."""

DRIP = 3 / 4
"""How far a panel is turned down over an edge without trim, inches. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Stuff:
    """What all panels of a roof are made of.

    Attributes:
        metal: Kind of metal.
        thickness: Inches.
        seam: How two of them are locked into each other.
        flanged: They are screwed down by a flange, without clips.
        pan: How far the undersides of their pans lie above the deck, inches.
    """

    metal: str
    thickness: float
    seam: Seam
    flanged: bool
    pan: float

    @property
    def up(self) -> float:
        """Height of a turned-up end, inches: it stays under the seams' tops."""
        return min(UP, self.seam.height - 1 / 8)

    def drop(self, lip: Lip) -> float:
        """Return how far the turned edge lies under the pan, inches, both in the middle of their metal."""
        return self.pan - lip[1] + UNDER_LIP + self.thickness

    def stands_out(self, ending: Ending, lip: Lip | None) -> float:
        """Return how far the flaps of an end stand out over its fold on the flat sheet, inches; 0 if turned up.

        What is turned up is cut to stay within the sheet, see `flaps.within`.
        """
        if lip is not None:
            return self.drop(lip) + HOOK
        return DRIP if ending == "turned down" else 0.0


@lru_cache(256)
def panel_section(
    stuff: Stuff, edges: tuple[Edge, Edge], lips: tuple[Lip | None, ...], width: float
) -> Section:
    """Return a panel's section: its left edge, the pan, its right edge; ``out`` from the column's left bound."""
    t = stuff.thickness
    sides = [_legs(edge, lip, stuff) for edge, lip in zip(edges, lips, strict=True)]
    insets = [_inset(edge, stuff) for edge in edges]
    left, right = sides
    legs = [
        LegSpec.model_construct(
            name=f"left {leg.name}", width=leg.width, turn=before.turn if before else None, direction=None
        )
        for before, leg in zip([None, *left[::-1]], left[::-1], strict=False)
    ]
    turn = left[0].turn if left else None
    pan = width - insets[0] - insets[1]
    legs.append(LegSpec.model_construct(name="pan", width=pan, turn=turn, direction="deck"))
    legs += [
        LegSpec.model_construct(name=f"right {leg.name}", width=leg.width, turn=leg.turn) for leg in right
    ]
    radius = TIGHT * t
    section = bend_legs("panel", tuple(legs), {"deck": 0.0}, METALS[stuff.metal], t, radius)
    strip = section.strip_of("pan")
    shift = [insets[0] + (radius + t if left else 0.0), stuff.pan + t / 2] - section.points[strip]
    return Section(
        section.profile, t, section.v, section.points + shift, section.legs, section.bends, section.nesting
    )


def _legs(edge: Edge, lip: Lip | None, stuff: Stuff) -> tuple[Turned, ...]:
    """Return the legs of one long edge, going out from the pan."""
    t = stuff.thickness
    match edge:
        case "under":
            return stuff.seam.under
        case "over":
            return stuff.seam.over
        case "hooked" if lip is not None:
            return Turned("drop", stuff.drop(lip) + t, 90), Turned("hook", HOOK + t / 2, 90)
        case "turned down":
            return (Turned("drip", DRIP, 90),)
        case "turned up":
            return (Turned("upturn", stuff.up, -90),)
        case _:
            return ()


def _inset(edge: Edge, stuff: Stuff) -> float:
    """Return how far the outside of the bend beside the pan lies inside the column's bound, inches."""
    seam, t = stuff.seam, stuff.thickness
    insets = {"under": seam.insets[0], "over": seam.insets[1], "cut": 0.0, "plain": 0.0, "turned up": t / 2}
    return insets.get(edge, -t / 2)
