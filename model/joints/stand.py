"""One end of a run, standing in its place at a corner: what its neighbors measure and cut against."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from ..geometry.arrays import Array
from ..message import Message, Value, message
from ..profiles.leg_words import leg_words
from ..profiles.section import Section
from ..runs import Run
from ..sheet.cut import plane_cut
from ..sheet.fold import in_scene, strip_fold


@dataclass(frozen=True, slots=True, eq=False)
class Stand:
    """One end of a run.

    Attributes:
        run: The run.
        at: Which end stands at the corner.
        placement: ``(4, 4)``: where the piece at that end lies, from ``(u, out, up)`` to the scene frame.
    """

    run: Run
    at: Literal["low", "high"]
    placement: Array

    @property
    def section(self) -> Section:
        """The run's cross-section."""
        return self.run.section

    @property
    def thickness(self) -> float:
        """Of the metal, inches."""
        return self.run.section.thickness

    @property
    def corner(self) -> Array:
        """``(3,) float, inches, scene frame``: the deck's corner."""
        return self.run.edge.start if self.at == "low" else self.run.edge.end

    @property
    def away(self) -> Array:
        """``(3,)`` unit vector along the run, from the metal out past the corner."""
        return -self.run.edge.direction if self.at == "low" else self.run.edge.direction

    @property
    def along(self) -> Array:
        """``(3,)`` unit vector along the piece as it lies, tilted over what is under it; from low to high."""
        return np.asarray(self.placement[:3, 0])

    @property
    def u(self) -> float:
        """``u`` of the corner, inches."""
        return 0.0 if self.at == "low" else self.run.length

    @property
    def sign(self) -> float:
        """-1 at a low end and 1 at a high end: the way ``u`` goes out past the corner."""
        return -1.0 if self.at == "low" else 1.0

    @property
    def outward(self) -> Array:
        """``(3,)`` level unit vector square to the edge in plan, away from the roof."""
        along = self.run.edge.direction
        square = np.array([along[1], -along[0], 0.0]) / math.hypot(along[0], along[1])
        return np.asarray(math.copysign(1.0, float(square @ self.run.edge.outward)) * square)

    @property
    def drip(self) -> Value:
        """What the leg beyond the face is called: ``kick`` on most profiles, ``drip edge`` where there is none."""
        after = self.section.strip_of("face")
        name = next((leg.name for leg in self.section.legs if leg.strip > after), None)
        return message("drip edge") if name is None else leg_words(name)

    @property
    def upper_bend(self) -> Message:
        """What the bend above the face is called."""
        hooked = self.section.leg("return") is not None
        return message("bend under the hook lip") if hooked else message("upper bend of the face")

    def point(self, u: float, line: int) -> Array:
        """Return the scene point on one bend line at ``u``: ``(3,) float, inches``."""
        out, up = self.section.points[line]
        return np.asarray(self.placement[:3, :3] @ [u, out, up] + self.placement[:3, 3])

    def scene_point(self, strip: int, u: float, v: float) -> Array:
        """Return the scene point of a point ``(u, v)`` on one strip, ``(3,) float, inches``."""
        return in_scene(self.section, strip, self.placement, np.array([u, v]))

    def direction(self, local: Array) -> Array:
        """Return a ``(u, out, up)`` vector in the scene frame."""
        return np.asarray(self.placement[:3, :3] @ local)

    def local(self, vector: Array) -> Array:
        """Return a scene vector as ``(u, out, up)``."""
        return np.asarray(self.placement[:3, :3].T @ vector)

    def plane(self, strip: int, off: float = 0.0) -> tuple[Array, Array]:
        """Return a point and the painted normal of one strip's mid plane, moved ``off`` inches to that side."""
        _, normal = strip_fold(self.section, strip)
        facing = self.direction(normal)
        return self.point(0.0, strip) + facing * off, facing

    def on_sheet(self, strip: int, point: Array) -> Array:
        """Return the foot of a scene point on one strip, as ``(u, v)`` of the sheet."""
        fold, _ = strip_fold(self.section, strip)
        local = self.placement[:3, :3].T @ (point - self.placement[:3, 3])
        return np.asarray((local - fold[:, 2]) @ fold[:, :2])

    def toward(self, strip: int, vector: Array) -> Array:
        """Return the part of a scene vector that lies in one strip, as ``(u, v)`` of the sheet."""
        fold, _ = strip_fold(self.section, strip)
        return np.asarray(self.local(vector) @ fold[:, :2])

    def cut(self, point: Array, normal: Array) -> Array:
        """Return where a plane meets each strip: ``(n, 2) float, inches``."""
        return plane_cut(self.section, self.placement, point, normal)


def meet(stand: Stand, strip: int, point: Array, direction: Array) -> Array:
    """Return the scene point where a line goes through one strip's mid plane."""
    on, normal = stand.plane(strip)
    return np.asarray(point + direction * ((on - point) @ normal / (direction @ normal)))
