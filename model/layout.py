"""The layout: every piece cut, folded and set in its place, and every screw and panel with it."""

from __future__ import annotations

from dataclasses import dataclass

from .fitting import Fitted
from .limits.record import Limits
from .panels import Panel
from .roof.record import Roof
from .runs import Run
from .scene.schema import Scene
from .screws import Screw
from .sheet.solid import Solid


@dataclass(frozen=True, slots=True, eq=False)
class Part(Fitted):
    """A piece as it is cut, drilled, folded and set.

    Attributes:
        solid: The folded, thickened sheet in the scene frame.
    """

    solid: Solid

    @property
    def mark(self) -> str:
        """The piece's mark, as written on the metal."""
        return self.piece.mark

    @property
    def low(self) -> float:
        """Run distance of the metal's lowest point: where the tape hooks on, inches."""
        return self.sheet.extent[0]

    @property
    def high(self) -> float:
        """Run distance of the metal's highest point, inches."""
        return self.sheet.extent[1]

    @property
    def length(self) -> float:
        """Length of the blank it is cut from: laps and allowances included, inches."""
        return self.high - self.low


@dataclass(frozen=True, slots=True, eq=False)
class Layout:
    """All of it, placed.

    Attributes:
        scene: What was asked for.
        limits: Limits in force.
        roof: Faces and edges.
        runs: One trim along one edge each.
        parts: Every piece, run by run, low end first.
        screws: Every screw, piece by piece.
        panels: Every panel, face by face.
        untrimmed: Names of edges that the scene leaves without trim.
    """

    scene: Scene
    limits: Limits
    roof: Roof
    runs: tuple[Run, ...]
    parts: tuple[Part, ...]
    screws: tuple[Screw, ...]
    panels: tuple[Panel, ...]
    untrimmed: tuple[str, ...]
