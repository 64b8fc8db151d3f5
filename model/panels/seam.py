"""The seam between two panels: the legs of the edge that lies under and of the edge that laps over it.

All widths follow from the height of the seam, the width of the fold and the metal: the edge that laps over is as much
wider as it needs to go round the other one with a little room on every side.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..scene.panels import PanelProfileSpec

AIR = 0.01
"""Room between two sheets of a closed seam, inches: what the brake and the seamer leave."""

TIGHT = 3 / 4
"""Inside radius of a panel's bends, in sheets: seams are folded flat. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Turned:
    """One leg of a panel's edge, going out from the pan.

    Attributes:
        name: What it is called.
        width: To the outside of its bends, inches.
        turn: How far it turns from the leg before it, degrees, positive away from the painted side.
    """

    name: str
    width: float
    turn: float


@dataclass(frozen=True, slots=True)
class Seam:
    """A closed seam. Its plane is the middle between the backs of the two edges: the clips stand there.

    Attributes:
        under: Legs of the edge that lies under, going out from its pan.
        over: Legs of the edge that laps over it.
        insets: How far the back of the upright leg of the edge under, and of the one over, lies from the plane, inches.
        reach: How far the fold along its top reaches past the plane over the pan of the edge under, inches.
        beyond: How far the seam reaches past the plane on the other side, inches.
        fold_foot: How high the lowest part of the fold hangs above the underside of the pan, inches.
        height: From the underside of the pan to the top, inches.
    """

    under: tuple[Turned, ...]
    over: tuple[Turned, ...]
    insets: tuple[float, float]
    reach: float
    beyond: float
    fold_foot: float
    height: float


def seam_of(profile: PanelProfileSpec, height: float, t: float) -> Seam:
    """Return the seam of a profile in metal ``t`` inches thick.

    Source:
        Edges of 1 1/4 and 1 1/2 in for a double-lock seam 1 in high: *Copper Roofings, a Manual* (1925); here the
        thickness of the metal is added to them. The rest is common practice, no source.
    """
    r, f = TIGHT * t, profile.fold
    gap, air = t + AIR, AIR
    apart = gap + t
    inner, drop = 0.0, t + 2 * air
    under = [Turned("under leg", height - drop, -90), Turned("under fold", f, -180)]
    over = [Turned("over leg", height, -90)]
    skirt = f + 2 * t + r + 3 * air
    match profile.lock:
        case "single lock":
            top, skirt = apart + f + t + r + air, 2 * (r + t)
            under = [Turned("under leg", height - t / 2 - r, -90), Turned("under fold", f, -90)]
            over += [Turned("over fold", top, 90), Turned("over hook", f - air, 180)]
        case "double lock":
            top = apart + 3 * r + 2.5 * t
            over += [Turned("over top", top, 90), Turned("over skirt", skirt, 90)]
            over.append(Turned("over hook", f - 2 * air, 180))
        case "snap lock":
            top = apart + 2 * r + 3 * t + air
            over += [Turned("over top", top, 90), Turned("over skirt", skirt, 90)]
            over.append(Turned("over catch", 2 * (r + t), 90))
        case "rib":
            inner, skirt = 2 * r + t, f + t
            top = inner + apart + 2 * t + air
            over += [Turned("over top", top, 90), Turned("over skirt", skirt, 90)]
            under[1:] = [Turned("rib", height + air, 180), Turned("flange", profile.flange, -90)]
    return Seam(
        tuple(under),
        tuple(over),
        (inner + gap / 2, gap / 2),
        top - gap / 2 - t,
        gap / 2 + t,
        height - skirt,
        height,
    )
