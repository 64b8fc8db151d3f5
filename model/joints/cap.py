"""What the ends of ridge and hip caps have in common: two wings, a middle bend and hems."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import shapely

from ..geometry.arrays import Array
from ..message import Value, message
from ..profiles.leg_words import leg_words
from ..runs import CLEAT_LIP
from ..sheet.sheet import Tab
from ..steps import Step
from .end import step
from .stand import Stand

END_OVERHANG = 0.25
"""How far a cap's end stays clear of the trim that it closes over, inches: room to hook the panels."""

HEM_SETBACK = 0.25
"""How far hems are cut back from a cap's end, so that flaps and neighbors clear them, inches."""

MARGIN = 1 / 64
"""How far a turned-down flap stops short of the bends beside it, inches: as close as snips go."""

OVER_MIDDLE = 1 / 8
"""How far a flap reaches over the middle bend before the bend is seen in it, inches."""


@dataclass(frozen=True, slots=True)
class Wing:
    """One wing of a cap.

    Attributes:
        strip: Its strip.
        outer: Index of its outer line.
        inner: Index of its line at the middle bend.
        hems: Strips outside it.
        face: Index of the roof's face that it lies over.
        left: It is the wing left of the run's direction.
    """

    strip: int
    outer: int
    inner: int
    hems: range
    face: int
    left: bool

    @property
    def words(self) -> Value:
        """What it is called."""
        return leg_words("left wing" if self.left else "right wing")


def wings(stand: Stand) -> tuple[Wing, Wing]:
    """Return the left and the right wing of a cap."""
    section = stand.section
    left, right = section.strip_of("left wing"), section.strip_of("right wing")
    faces = stand.run.edge.faces
    return (
        Wing(left, left, left + 1, range(left), faces[0], True),
        Wing(right, right + 1, right, range(right + 1, section.strips), faces[1], False),
    )


def set_wing(ends: Array, wing: Wing, outer: float, inner: float, setback: float, sign: float) -> None:
    """Write one wing's cut into ``ends``; its hems are cut back square."""
    ends[wing.strip] = (outer, inner) if wing.left else (inner, outer)
    for strip in wing.hems:
        ends[strip] = outer - sign * setback


def close_middle(ends: Array, stand: Stand) -> None:
    """Run the cut straight over the middle bend, from one wing to the other."""
    left, right = (wing.strip for wing in wings(stand))
    v = stand.section.v
    first, last = ends[left, 1], ends[right, 0]
    span = v[right] - v[left + 1]
    for strip in range(left + 1, right):
        share = (v[strip : strip + 2] - v[left + 1]) / span
        ends[strip] = first + (last - first) * share


def hem_cuts(stand: Stand, ends: Array) -> list[list[tuple[float, float]]]:
    """Return the lines that free the hems: straight across them and along their bends to the wings' cuts."""
    v = stand.section.v
    lines = []
    for wing in wings(stand):
        if wing.hems:
            free, edge = float(ends[wing.hems[0], 0]), float(v[0] if wing.left else v[-1])
            at = float(ends[wing.strip, 0 if wing.left else 1])
            bend = float(v[wing.outer])
            lines.append([(free, edge), (free, bend), (at, bend)])
    return lines


def flatten_middle(stand: Stand, flaps: Iterable[Tab]) -> list[Step]:
    """Return how flaps that reach over the middle bend are made flat: the cap comes bent to its very end."""
    left, right = wings(stand)
    middle = (stand.section.v[left.inner] + stand.section.v[right.inner]) / 2
    steps = []
    for flap in flaps:
        metal = shapely.Polygon([*flap.hinge, *flap.flap])
        first, low, last, high = metal.bounds
        own, reach = (left, high - middle) if flap.strip == left.strip else (right, middle - low)
        if reach > OVER_MIDDLE:
            bend = metal.intersection(shapely.LineString([(first, middle), (last, middle)]))
            told = message(
                "Flatten the middle bend where it runs through the flap of the {wing}.", wing=own.words
            )
            steps.append(step("ease", told, shapely.get_coordinates(bend)))
    return steps


def seal_slit() -> Step:
    """Return how an end that two flaps close is made tight."""
    return step(
        "seal",
        message("Set the end on closures bedded in sealant, and run a bead up the slit between the flaps."),
    )


def rise(stand: Stand) -> float:
    """Return how far the cap's underside stands above the deck at its wings, square to it, inches."""
    strip = wings(stand)[0].strip
    return float(stand.section.points[strip] @ stand.section.normals[strip]) - stand.thickness / 2


def hang(stand: Stand) -> float:
    """Return how far the cap's underside stands above the deck at its wings, plumb, inches."""
    _, normal = stand.plane(wings(stand)[0].strip)
    return rise(stand) / float(normal[2])


def reach_past(stand: Stand, others: tuple[Stand, ...], square: Array) -> float:
    """Return how far ``others``, and the cleats on those without a lip, stand out past the corner along ``square``."""
    most = 0.0
    for other in others:
        for line in range(other.section.strips + 1):
            most = max(most, float((other.point(other.u, line) - stand.corner) @ square))
        if other.section.lip is None:
            most = max(most, float((other.run.frame[:3, 1] * CLEAT_LIP) @ square))
    return most
