"""What all closures under one wing of a run have in common, and how one of them is made between its two ends.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..geometry.arrays import Array
from ..profiles.section import Section
from ..runs import Run
from ..scene.panels import ClosureSpec
from ..sheet.sheet import Cut, Sheet
from ..sheet.solid import Solid, thicken
from .closure_cuts import ClosureEnd
from .closure_ends import Plane
from .closure_forms import LEAST_EDGE, narrowed, shortest, strip_solid
from .flat import Border, Flat
from .stuff import Stuff

LEAST = 1 / 2
"""A closure shorter than this is left out, inches: sealant fills the place."""

LEAST_FOAM = 1 / 4
"""The same of a strip of foam, which is cut with a knife."""


@dataclass(frozen=True, slots=True, eq=False)
class Stretch:
    """The line of closures under one wing of a run.

    Attributes:
        run: The run that they carry.
        border: The side of the face that it covers.
        spec: What they are.
        section: Of the closures: ``out`` down the slope from the web, ``up`` off the deck.
        height: From the pan's top to what they carry, inches.
        flange: Width of the flange of a Z, where nothing narrows it, inches.
        back: How far the web stands inside the deck's edge, inches.
        ends: Planes that bound it at the left and at the right.
    """

    run: Run
    border: Border
    spec: ClosureSpec
    section: Section
    height: float
    flange: float
    back: float
    ends: tuple[Sequence[Plane], Sequence[Plane]]

    @property
    def along(self) -> Array:
        """``(2,)`` unit vector along it on the face, to the right."""
        return self.border.along if self.border.along[0] > 0 else -self.border.along

    @property
    def base(self) -> Array:
        """``(2,) float, inches``: a point on the face under its webs."""
        return self.border.normal * (self.border.deck - self.back)

    @property
    def foam(self) -> bool:
        """They are strips of foam."""
        return self.spec.form == "strip"

    @property
    def least(self) -> float:
        """A shorter one is left out, inches."""
        return LEAST_FOAM if self.foam else LEAST

    def feet(self, xs: Sequence[float]) -> Array:
        """Return where its webs stand at some ``x`` of the face, ``(n, 2) float, inches``."""
        across = (np.array(xs)[:, None] - self.base[0]) / self.along[0]
        return np.asarray(self.base + across * self.along)

    def placement(self, flat: Flat, foot: Array) -> Array:
        """Return the ``(4, 4)`` of a closure whose web begins over a point of the face, ``(2,) float, inches``."""
        place = np.eye(4)
        sides = (self.along @ flat.axes[:2], -self.border.normal @ flat.axes[:2], flat.axes[2])
        place[:3, :3] = np.column_stack(sides)
        place[:3, 3] = flat.raised(foot[None], 0.0)[0]
        return place


def made(
    stretch: Stretch, spots: Sequence[ClosureEnd], placement: Array, stuff: Stuff
) -> tuple[Sheet, Solid] | None:
    """Return a closure between two ends, flat and in its place; None where there is no room for one."""
    section = stretch.section
    if stretch.foam:
        return _strip(section, spots, placement, stuff)
    low, high = (spot.cut(section, placement, stuff) for spot in spots)
    if shortest(low, high) < LEAST / 4:
        narrow = narrowed(section, stuff, stretch.height, stretch.flange, low, high)
        if narrow is None:
            return None
        low, high = (spot.cut(narrow, placement, stuff) for spot in spots)
        section = narrow
    sheet = Sheet(section, Cut(low), Cut(high))
    return sheet, thicken(sheet, placement)


def _strip(
    section: Section, spots: Sequence[ClosureEnd], placement: Array, stuff: Stuff
) -> tuple[Sheet, Solid] | None:
    """Return a strip of foam between two ends, less deep where these meet in it; None where there is no room."""

    def cut(off: float) -> tuple[Array, Array]:
        moved = replace(section, points=section.points + np.array([off, 0.0]))
        low, high = (spot.cut(moved, placement, stuff) for spot in spots)
        return low, high

    half = section.thickness / 2
    offs = [-half, half]
    lengths = [shortest(*cut(off)) for off in offs]
    near, far = int(lengths[1] < lengths[0]), int(lengths[1] >= lengths[0])
    if lengths[near] < LEAST_EDGE:
        if lengths[far] <= LEAST_EDGE:
            return None
        share = (lengths[far] - LEAST_EDGE) / (lengths[far] - lengths[near])
        offs[near] = offs[far] + (offs[near] - offs[far]) * share
    if offs[1] - offs[0] < LEAST_FOAM:
        return None
    middle = np.array([sum(offs) / 2, 0.0])
    cuts = [cut(off) for off in offs]
    section = replace(section, points=section.points + middle, thickness=offs[1] - offs[0])
    low, high = (pick(cuts[0][k], cuts[1][k]) for k, pick in enumerate((np.minimum, np.maximum)))
    return Sheet(section, Cut(low), Cut(high)), strip_solid(section, cuts, placement)
