"""A section: a profile bent to one edge's angles, with its bend lines on the flat sheet."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

import numpy as np

from ..errors import GeometryError
from ..geometry.arrays import Array
from ..message import Fine, Listed, message
from ..metals import Metal, bend_length
from ..scene.schema import LegSpec, ProfileSpec

STRAIGHT = math.radians(0.5)
"""A smaller turn needs no brake: the two legs are pressed to it when the piece is screwed down."""


@dataclass(frozen=True, slots=True)
class Leg:
    """A straight part of a section.

    Attributes:
        name: ``top``, ``return``, ``face``, ``kick``, ``hem``, ``left wing`` ...
        strip: Index of its strip.
        relieved: It is cut away where the piece lies under another one at a lap.
        fastened: Screws go through it.
    """

    name: str
    strip: int
    relieved: bool
    fastened: bool


@dataclass(frozen=True, slots=True)
class Bend:
    """A bend between two legs.

    Attributes:
        first: Index of the line where it begins.
        last: Index of the line where it ends; the same line when the bend has no length.
        angle: Radians; positive away from the painted side.
    """

    first: int
    last: int
    angle: float


@dataclass(frozen=True, slots=True, eq=False)
class Section:
    """A cross-section as a chain of flat strips; a bend is one strip for each 90 degrees of it.

    The strips of a bend are together as wide as the metal in the bend, so that folding stretches nothing.

    Attributes:
        profile: Name of the profile.
        thickness: Of the metal, inches.
        v: ``(n + 1,) float, inches``: the lines between strips on the flat sheet, 0 at the inboard edge.
        points: ``(n + 1, 2) float, inches``: the same lines in ``(out, up)`` of the run, at mid thickness.
        legs: The straight strips, in order.
        bends: What lies between them, one fewer than the legs.
        nesting: ``(2,) float, inches``: the least shift ``(out, up)`` that lays the section over itself: every leg
            that is kept at a lap moves at least one thickness out of its painted side; NaN where none does.
    """

    profile: str
    thickness: float
    v: Array
    points: Array
    legs: tuple[Leg, ...]
    bends: tuple[Bend, ...]
    nesting: Array

    @property
    def width(self) -> float:
        """Developed width, inches."""
        return float(self.v[-1])

    @property
    def strips(self) -> int:
        """Number of strips."""
        return len(self.v) - 1

    def leg(self, name: str) -> Leg | None:
        """Return the leg called ``name``, or None."""
        return next((leg for leg in self.legs if leg.name == name), None)

    def strip_of(self, name: str) -> int:
        """Return the strip of the leg called ``name``.

        Raises:
            GeometryError: the profile has no such leg.
        """
        leg = self.leg(name)
        if leg is None:
            raise GeometryError(
                message(
                    "profile '{profile}' has no leg called '{leg}'; give it one",
                    profile=self.profile,
                    leg=name,
                )
            )
        return leg.strip

    @property
    def lying(self) -> tuple[Leg, ...]:
        """The legs that lie on the roof: those that screws go through; where cleats hold it, the widest ones."""
        widths = np.diff(self.v)
        widest = float(max(widths[leg.strip] for leg in self.legs))
        return tuple(leg for leg in self.legs if leg.fastened) or tuple(
            leg for leg in self.legs if widths[leg.strip] > widest / 2
        )

    @property
    def lip(self) -> tuple[float, float] | None:
        """Where the panels hook: how far out its lip reaches and how low its underside lies, inches; None without one.

        The lip is the leg called ``return``, folded back under the leg before it: not the kick below, which may
        stand out farther where the roof is steep.
        """
        leg = self.leg("return")
        if leg is None or leg.strip == 0:
            return None
        half = self.thickness / 2
        fold = self.points[: leg.strip + 1]
        return float(fold[:, 0].max()) + half, float(self.points[leg.strip : leg.strip + 2, 1].min()) - half

    @property
    def normals(self) -> Array:
        """``(n, 2)`` unit normals ``(out, up)`` of the strips, out of the painted side."""
        return _normals(self)


@lru_cache(256)
def _normals(section: Section) -> Array:
    along = np.diff(section.points, axis=0)
    along /= np.linalg.norm(along, axis=1)[:, None]
    normals = np.stack([-along[:, 1], along[:, 0]], axis=1)
    normals.flags.writeable = False
    return normals


def bend_section(
    name: str,
    profile: ProfileSpec,
    directions: Mapping[str, float],
    metal: Metal,
    thickness: float,
    radius: float,
    rise: float,
    standoff: float,
    far_rise: float | None = None,
) -> Section:
    """Bend ``profile`` to the angles of an edge and set it where it lies.

    Args:
        name: Name of the profile.
        profile: Its legs, widths to the outside of the bends.
        directions: Angle of each named direction, radians from the run's outward axis, positive downward.
        metal: Gives the length of metal in a bend.
        thickness: Inches.
        radius: Inside radius of the bends, inches.
        rise: How far the underside of the first directed leg lies above the deck, inches.
        standoff: How far the anchor leg's underside stays off the deck's edge, inches; on a two-sided profile
            the anchor is the far wing, which lies ``rise`` above its own deck.
        far_rise: How far the far wing lies above its own deck instead, inches.

    Raises:
        GeometryError: a leg is too short for the bends at its ends, or the anchor leg does not cross the first.

    Source:
        Setbacks (R + T) tan(angle / 2): FAA-H-8083-31 vol. 1 ch. 4, capped at R + T from 90 degrees on, where
        the outside of a hem is its fold. Bend lengths: *Machinery's Handbook* 31st ed. p. 1421.
    """
    loose = bend_legs(name, profile.legs, directions, metal, thickness, radius)
    shift = _shift_down(loose, profile, rise, standoff, rise if far_rise is None else far_rise)
    return replace(loose, points=loose.points + shift, nesting=_nesting(loose))


def bend_legs(
    name: str,
    legs: tuple[LegSpec, ...],
    directions: Mapping[str, float],
    metal: Metal,
    thickness: float,
    radius: float,
) -> Section:
    """Bend legs to their angles; the section's first line lies at the origin, and nothing is known of its nesting.

    Args:
        name: Of what they make up.
        legs: From inboard to outboard, widths to the outside of the bends.
        directions: Angle of each named direction, radians from the outward axis, positive downward.
        metal: Gives the length of metal in a bend.
        thickness: Inches.
        radius: Inside radius of the bends, inches.

    Raises:
        GeometryError: a leg is too short for the bends at its ends, or nothing says which way it points.
    """
    widths, headings, straight, bends = _strips(name, legs, directions, metal, thickness, radius)
    v = np.concatenate([[0.0], np.cumsum(widths)])
    steps = np.array(widths)[:, None] * np.stack([np.cos(headings), -np.sin(headings)], axis=1)
    points = np.concatenate([np.zeros((1, 2)), np.cumsum(steps, axis=0)])
    return Section(name, thickness, v, points, tuple(straight), tuple(bends), np.full(2, np.nan))


def _strips(
    name: str,
    specs: tuple[LegSpec, ...],
    directions: Mapping[str, float],
    metal: Metal,
    thickness: float,
    radius: float,
) -> tuple[list[float], list[float], list[Leg], list[Bend]]:
    """Return the width and the heading of every strip, inches and radians, and the legs and bends among them."""
    angles = _angles(name, specs, directions)
    turns = [
        _turn(leg, before, after) for leg, (before, after) in zip(specs[1:], pairwise(angles), strict=True)
    ]
    radii = [thickness / 2 if one.tight or two.tight else radius for one, two in pairwise(specs)]
    setbacks = [
        (inside + thickness) * math.tan(min(abs(turn), math.pi / 2) / 2)
        for inside, turn in zip(radii, turns, strict=True)
    ]
    widths: list[float] = []
    headings: list[float] = []
    legs: list[Leg] = []
    bends: list[Bend] = []
    for i, leg in enumerate(specs):
        if i:
            turn = turns[i - 1]
            count = math.ceil(abs(turn) / (math.pi / 2) - 1e-9) if abs(turn) > STRAIGHT else 0
            share = bend_length(metal, thickness, radii[i - 1], abs(turn)) / count if count else 0.0
            bends.append(Bend(len(widths), len(widths) + count, turn))
            for k in range(count):
                widths.append(share)
                headings.append(angles[i - 1] + turn * (k + 0.5) / count)
        flat = leg.width - sum(setbacks[max(i - 1, 0) : i + 1])
        if flat <= thickness:
            raise GeometryError(
                message(
                    "profile '{profile}': leg '{leg}' is {width} wide, but its bends take {bends}; "
                    "make it wider or the bend radius smaller",
                    profile=name,
                    leg=leg.name,
                    width=Fine(leg.width),
                    bends=Fine(leg.width - flat),
                )
            )
        legs.append(Leg(leg.name, len(widths), leg.relieved, leg.fastened))
        widths.append(flat)
        headings.append(angles[i])
    return widths, headings, legs, bends


def _angles(name: str, legs: tuple[LegSpec, ...], directions: Mapping[str, float]) -> list[float]:
    """Return each leg's heading, radians."""
    known: list[float | None] = [directions[leg.direction] if leg.direction else None for leg in legs]
    for i in range(1, len(legs)):
        before, turn = known[i - 1], legs[i].turn
        if known[i] is None and before is not None and turn is not None:
            known[i] = before + math.radians(turn)
    for i in range(len(legs) - 2, -1, -1):
        after, turn = known[i + 1], legs[i + 1].turn
        if known[i] is None and after is not None and turn is not None:
            known[i] = after - math.radians(turn)
    angles = [angle for angle in known if angle is not None]
    if len(angles) != len(legs):
        lost = tuple(f"'{leg.name}'" for leg, angle in zip(legs, known, strict=True) if angle is None)
        raise GeometryError(
            message(
                "profile '{profile}': nothing says which way leg {legs} points; give a direction or a turn",
                profile=name,
                legs=Listed(lost, "comma"),
            )
        )
    return angles


def _turn(leg: LegSpec, before: float, after: float) -> float:
    """Return the bend before ``leg``, radians; its own sign where it is given, else the smaller way round."""
    if leg.turn is not None:
        return math.radians(leg.turn)
    return (after - before + math.pi) % (2 * math.pi) - math.pi


def _nesting(section: Section) -> Array:
    """Return the least shift that clears every kept leg by one thickness; NaN where two of them face each other."""
    kept = section.normals[[leg.strip for leg in section.legs if not leg.relieved]]
    best: Array | None = None
    for i, first in enumerate(kept):
        for second in kept[i:]:
            shift = np.linalg.pinv(np.stack([first, second])) @ np.ones(2)
            if (kept @ shift >= 1 - 1e-9).all() and (best is None or shift @ shift < best @ best):
                best = shift
    return np.full(2, np.nan) if best is None else np.asarray(best * section.thickness)


def _shift_down(
    section: Section, profile: ProfileSpec, rise: float, standoff: float, far_rise: float
) -> Array:
    """Return the move that brings ``section``'s first directed leg and its anchor to where they belong."""
    half = section.thickness / 2
    seat = next(leg.name for leg in profile.legs if leg.direction)
    strips = [section.strip_of(seat), section.strip_of(profile.anchor)]
    far = any(leg.name == profile.anchor and leg.direction == "far deck" for leg in profile.legs)
    wanted = np.array([rise + half, (far_rise if far else standoff) + half])
    normals = section.normals[strips]
    if abs(np.linalg.det(normals)) < 1e-6:
        raise GeometryError(
            message(
                "profile '{profile}': its legs '{seat}' and '{anchor}' are parallel here; no place holds both",
                profile=section.profile,
                seat=seat,
                anchor=profile.anchor,
            )
        )
    now = (normals * section.points[strips]).sum(axis=1)
    return np.asarray(np.linalg.solve(normals, wanted - now))
